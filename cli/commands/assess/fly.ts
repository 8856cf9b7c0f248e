/** Flies an assessment, or one part of it, on this machine: flyer, progress, and the Ctrl-C that ends it early. */

import { type AssessHooks, type Assessment, assess } from '../../../sim/assess/assess.js';
import { type FlownPart, flyPart } from '../../../sim/assess/parts/fly-part.js';
import type { PartNumber } from '../../../sim/assess/parts/part.js';
import { type AssessOptions, planAssess } from '../../../sim/assess/plan.js';
import type { StudyProgress } from '../../../sim/assess/progress.js';
import { criteriaOf } from '../../../sim/decision/criteria.js';
import { createDrawer, nominalDraw } from '../../../sim/draws/drawer.js';
import type { Flyer } from '../../../sim/ensemble/flyer.js';
import { createMaker } from '../../../sim/ensemble/maker.js';
import { createSerialFlyer } from '../../../sim/ensemble/serial-flyer.js';
import { createThreadsFlyer } from '../../../sim/ensemble/threads-flyer.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import type { Refusal } from '../../arguments/parsed.js';
import { createProgress, NO_PROGRESS } from '../../terminal/progress.js';

export type Flown = Exclude<Assessment, { status: 'refused' }> | Refusal;

export async function flyAssessment(
  scenario: Scenario,
  options: AssessOptions,
  threads: number,
  quiet: boolean,
  stop: AbortSignal,
  known: Pick<AssessHooks, 'logbook' | 'pause'> = {},
): Promise<Flown> {
  const study = await flyHere(scenario, options, threads, quiet, (flyer, onProgress) =>
    assess(
      scenario,
      options,
      {
        flyer,
        maker: createMaker(scenario, options.seed),
        drawer: createDrawer(scenario, options.seed),
        nominal: nominalDraw(scenario),
        criteria: criteriaOf(scenario),
      },
      { onProgress, stop, ...known },
    ),
  );
  return study.status === 'refused' ? refusal(study.message) : study;
}

export async function flyOnePart(
  scenario: Scenario,
  options: AssessOptions,
  part: PartNumber,
  threads: number,
  quiet: boolean,
  hooks: AssessHooks,
): Promise<Exclude<FlownPart, { status: 'refused' }> | Refusal> {
  const flown = await flyHere(scenario, options, threads, quiet, (flyer, onProgress) =>
    flyPart(scenario, options, part, { flyer, criteria: criteriaOf(scenario) }, { ...hooks, onProgress }),
  );
  return flown.status === 'refused' ? refusal(flown.message) : flown;
}

function refusal(message: string): Refusal {
  return { status: 'refused', messages: [message] };
}

/** With a flyer and its progress, which are gone afterwards; what is refused starts neither. */
async function flyHere<T>(
  scenario: Scenario,
  options: AssessOptions,
  threads: number,
  quiet: boolean,
  fly: (flyer: Flyer, onProgress: (progress: StudyProgress) => void) => Promise<T>,
): Promise<T | { readonly status: 'refused'; readonly message: string }> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  const progress = quiet ? NO_PROGRESS : createProgress(process.stderr, 'flights');
  const { seed } = options;
  const flyer =
    threads === 1 ? createSerialFlyer(createMaker(scenario, seed)) : createThreadsFlyer(scenario, seed, threads);
  try {
    return await fly(flyer, ({ phase, flown, total }) => progress.update(flown, total, phase));
  } finally {
    progress.end();
    await flyer.close();
  }
}
