/**
 * The main study: thousands of descents at the planned throttle-up height and over a curve of heights, on the same
 * draws, put together to one result. It is a pure function of scenario, seed and options; an interrupted study gives
 * the result of the flights flown, which a study of that many flights would give too.
 */
import type { AssessResult } from '../result/result.js';
import type { Scenario } from '../scenario/scenario.js';
import { type AssessMeans, resultOf } from './assess-result.js';
import { decide } from './decide.js';
import { flyCurve } from './fly-curve.js';
import { pilotStep } from './height-grid.js';
import { type AssessOptions, fixedInput, planAssess } from './plan-assess.js';

export interface AssessHooks {
  /** Hears how many flights of how many are flown. */
  readonly onProgress?: (flown: number, total: number) => void;
  /** Ends the flying early; what was flown is kept and the result is marked partial. */
  readonly stop?: AbortSignal;
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
  hooks: AssessHooks = {},
): Promise<Assessment> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  const { heights, plannedHeight } = planned.plan;
  const progress = createCount(options, heights.length, hooks.onProgress);
  const searches = options.heights.kind === 'standard';
  const curve = await flyCurve(
    {
      flights: options.flights,
      heights: searches ? [plannedHeight] : heights,
      plannedHeight,
      acceptableRisk: fixedInput(scenario, 'criteria.ground_impact_risk'),
    },
    means.flyer,
    progress,
    hooks.stop,
  );
  const atPlanned = curve.find(({ height }) => height === plannedHeight);
  if (atPlanned === undefined) throw new Error('The planned height was not flown.');
  if (atPlanned.outcome.length === 0) return { status: 'nothing flown' };
  if (!searches || hooks.stop?.aborted) {
    return { status: 'ok', result: resultOf(scenario, options, means, curve, atPlanned, {}) };
  }
  const decided = await decide({
    scenario,
    seed: options.seed,
    flights: options.flights,
    planned: atPlanned,
    coarse: heights,
    step: pilotStep(plannedHeight),
    ...means,
    onFlown: progress,
    ...(hooks.stop ? { stop: hooks.stop } : {}),
  });
  const partial = hooks.stop?.aborted === true;
  const result = resultOf(scenario, options, means, decided.curve, atPlanned, decided.decisions);
  return { status: 'ok', result: partial ? { ...result, partial } : result };
}

/** Flights of a whole study in flights at the planned height, roughly: what the pilot finds decides. */
const USUAL_COST = 7;

/** Counts flights; the total is known for given heights, and a guess that gives way for a search. */
function createCount(
  { flights, heights: { kind } }: AssessOptions,
  heights: number,
  onProgress: AssessHooks['onProgress'],
): (flown: number) => void {
  let flown = 0;
  const guess = kind === 'standard' ? USUAL_COST * flights : kind === 'planned' ? flights : heights * flights;
  return (more) => {
    flown += more;
    onProgress?.(flown, Math.max(guess, Math.ceil(1.02 * flown)));
  };
}
