/**
 * The main study: thousands of descents at the planned throttle-up height and over a curve of heights, on the same
 * draws, put together to one result. It is a pure function of scenario, seed and options; an interrupted study gives
 * the result of the flights flown, which a study of that many flights would give too.
 */
import { flightsForHalfWidth } from '../../decision/stopping.js';
import type { AssessResult } from '../../result/result.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import { keepFlights } from '../flying/keep-flights.js';
import type { Logbook } from '../flying/logbook.js';
import { createStudyCount, expectedFlights, type StudyProgress } from '../study-progress.js';
import { type AssessMeans, resultOf } from './assess-result.js';
import { type Decided, decide } from './decide.js';
import { flyAsked } from './fly-asked.js';
import { pilotStep } from './height-grid.js';
import { type AssessOptions, planAssess } from './plan-assess.js';
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

export type Assessment =
  | { readonly status: 'ok'; readonly result: AssessResult }
  | { readonly status: 'refused'; readonly message: string }
  /** Stopped before a single flight was flown. */
  | { readonly status: 'nothing flown' };

export async function assess(
  scenario: Scenario,
  options: AssessOptions,
  means: AssessMeans,
  { onProgress, stop, logbook, pause }: AssessHooks = {},
): Promise<Assessment> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  const { plan } = planned;
  const limit = fixedInput(scenario, 'criteria.ground_impact_risk');
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
    expected(options.until === undefined ? options.flights : flightsForHalfWidth(limit, options.until)),
    onProgress,
  );
  const flyer = keepFlights(count.counted(means.flyer), logbook, pause);
  const worldsAt = createWorldsAt(flyer, means.drawer, limit, stop);

  const asked = searches ? { ...plan, heights: [plan.plannedHeight] } : plan;
  const flown = await flyAsked(asked, options, limit, flyer, stop);
  if (flown.planned.outcome.length === 0) return { status: 'nothing flown' };
  count.expect(expected(flown.planned.outcome.length));
  const decided: Decided =
    searches && !stop?.aborted
      ? await decide({
          scenario,
          seed: options.seed,
          planned: flown.planned,
          coarse: plan.heights,
          step: pilotStep(plan.plannedHeight),
          flyer,
          drawer: means.drawer,
          worldsAt,
          assuresPlanned,
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
  return { status: 'ok', result };
}
