/** Flies an assessment, or a part of it, on this machine. */

import { type AssessHooks, assess } from '../../../sim/assess/assess.js';
import { flyPart } from '../../../sim/assess/parts/fly-part.js';
import type { PartNumber } from '../../../sim/assess/parts/part.js';
import { type AssessOptions, planAssess } from '../../../sim/assess/plan.js';
import type { StudyProgress } from '../../../sim/assess/progress.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import type { Answer, Refused } from '../../../sim/basics/answer.js';
import { criteriaOf } from '../../../sim/decision/criteria.js';
import { createDrawer, nominalDraw } from '../../../sim/draws/drawer.js';
import { createMaker } from '../../../sim/ensemble/fly-block.js';
import type { Flyer } from '../../../sim/ensemble/flyer.js';
import type { StudyAnswer } from '../../../sim/ensemble/study-answer.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { withWorkers } from '../../terminal/workers.js';

export async function flyAssessment(
  scenario: Scenario,
  options: AssessOptions,
  threads: number,
  quiet: boolean,
  stop: AbortSignal,
  known: Pick<AssessHooks, 'logbook' | 'pause'> = {},
): Promise<StudyAnswer<AssessResult>> {
  return flyHere(scenario, options, threads, quiet, (flyer, onProgress) =>
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
}

export async function flyOnePart(
  scenario: Scenario,
  options: AssessOptions,
  part: PartNumber,
  threads: number,
  quiet: boolean,
  hooks: AssessHooks,
): Promise<Answer<boolean>> {
  return flyHere(scenario, options, threads, quiet, (flyer, onProgress) =>
    flyPart(scenario, options, part, { flyer, criteria: criteriaOf(scenario) }, { ...hooks, onProgress }),
  );
}

/** With a flyer and its progress, which are gone afterwards; what is refused starts neither. */
async function flyHere<T>(
  scenario: Scenario,
  options: AssessOptions,
  threads: number,
  quiet: boolean,
  fly: (flyer: Flyer, onProgress: (progress: StudyProgress) => void) => Promise<T>,
): Promise<T | Refused> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  return withWorkers({ seed: options.seed, threads, what: 'flights', quiet }, (pool, progress) =>
    fly(pool.flyer(scenario), ({ phase, flown, total }) => progress.update(flown, total, phase)),
  );
}
