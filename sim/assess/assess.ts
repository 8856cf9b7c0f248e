/**
 * The main study: thousands of descents at the planned throttle-up height and over a curve of heights, on the same
 * draws, put together to one result. It is a pure function of scenario, seed and options; an interrupted study gives
 * the result of the flights flown, which a study of that many flights would give too.
 */

import { ok } from '../basics/answer.js';
import { groundImpactIn } from '../decision/criteria.js';
import { pilotStep } from '../decision/height-grid.js';
import { keepFlights } from '../ensemble/keep-flights.js';
import type { Logbook } from '../ensemble/logbook.js';
import { NOTHING_FLOWN, type StudyAnswer } from '../ensemble/study-answer.js';
import type { Scenario } from '../scenario/scenario.js';
import { type Decided, decide } from './decide.js';
import { flyAsked } from './fly-asked.js';
import { type AssessOptions, planAssess } from './plan.js';
import { createStudyCount, expectedFlights, type StudyProgress } from './progress.js';
import { type AssessMeans, resultOf } from './put-together.js';
import type { AssessResult } from './result.js';
import { flightsForHalfWidth } from './until.js';
import { createWorldsAt, hasUnmeasured } from './worlds-at.js';

export interface AssessHooks {
  readonly onProgress?: (progress: StudyProgress) => void;
  /** Ends the flying early; what was flown is kept and the result is marked partial. */
  readonly stop?: AbortSignal;
  /** Flights that are known already; those flown are entered. */
  readonly logbook?: Logbook;
  /** Called now and then, when all that was flown stands in the logbook. */
  readonly pause?: () => Promise<void>;
}

export async function assess(
  scenario: Scenario,
  options: AssessOptions,
  means: AssessMeans,
  { onProgress, stop, logbook, pause }: AssessHooks = {},
): Promise<StudyAnswer<AssessResult>> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  const plan = planned.value;
  const groundImpact = groundImpactIn(means.criteria);
  const searches = options.heights.kind === 'standard';
  const assuresPlanned = options.assurance !== undefined;
  const expected = (flights: number) =>
    expectedFlights({
      flights,
      heights: plan.heights.length,
      searches,
      unmeasured: hasUnmeasured(means.drawer),
      assuresPlanned,
    });
  const count = createStudyCount(
    expected(options.until === undefined ? options.flights : flightsForHalfWidth(groundImpact.limit, options.until)),
    onProgress,
  );
  const flyer = keepFlights(count.counted(means.flyer), logbook, pause);
  const worldsAt = createWorldsAt(flyer, means.drawer, groundImpact, stop);

  const asked = searches ? { ...plan, heights: [plan.plannedHeight] } : plan;
  const flown = await flyAsked(asked, options, means.criteria, flyer, stop);
  if (flown.planned.outcome.length === 0) return NOTHING_FLOWN;
  count.expect(expected(flown.planned.outcome.length));
  const decided: Decided =
    searches && !stop?.aborted
      ? await decide({
          scenario,
          seed: options.seed,
          criteria: means.criteria,
          planned: flown.planned,
          coarse: plan.heights,
          step: pilotStep(plan.plannedHeight),
          flyer,
          drawer: means.drawer,
          worldsAt,
          onPhase: count.begin,
          stop,
        })
      : { curve: flown.curve, decisions: {} };
  if (assuresPlanned && !searches) count.begin('what nobody has measured');
  const assured = assuresPlanned ? await worldsAt(plan.plannedHeight) : undefined;
  const result = resultOf({
    scenario,
    options,
    means,
    curve: decided.curve,
    planned: flown.planned,
    stopping: flown.stopping,
    decisions: decided.decisions,
    assured,
    interrupted: stop?.aborted === true ? count.phase : null,
  });
  return ok(result);
}
