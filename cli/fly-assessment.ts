/** Flies an assessment on this machine: flyer, progress, and the Ctrl-C that ends it early. */
import { createDrawer, nominalDraw } from '../sim/draws/drawer.js';
import type { Scenario } from '../sim/scenario/scenario.js';
import { type Assessment, assess } from '../sim/study/assess.js';
import { createMaker } from '../sim/study/maker.js';
import { type AssessOptions, planAssess } from '../sim/study/plan-assess.js';
import { createSerialFlyer } from '../sim/study/serial-flyer.js';
import type { StudyProgress } from '../sim/study/study-progress.js';
import { createThreadsFlyer } from '../sim/study/threads-flyer.js';
import type { Refusal } from './parsed.js';
import { createProgress, NO_PROGRESS } from './terminal/progress.js';

export type Flown = Exclude<Assessment, { status: 'refused' }> | Refusal;

export async function flyAssessment(
  scenario: Scenario,
  options: AssessOptions,
  threads: number,
  quiet: boolean,
  stop: AbortSignal,
): Promise<Flown> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return { status: 'refused', messages: [planned.message] };
  const progress = quiet ? NO_PROGRESS : createProgress(process.stderr, 'flights');
  const onProgress = ({ phase, flown, total }: StudyProgress) => progress.update(flown, total, phase);
  const maker = createMaker(scenario, options.seed);
  const flyer = threads === 1 ? createSerialFlyer(maker) : createThreadsFlyer(scenario, options.seed, threads);
  try {
    const study = await assess(
      scenario,
      options,
      { flyer, maker, drawer: createDrawer(scenario, options.seed), nominal: nominalDraw(scenario) },
      { onProgress, stop },
    );
    return study.status === 'refused' ? { status: 'refused', messages: [study.message] } : study;
  } finally {
    progress.end();
    await flyer.close();
  }
}
