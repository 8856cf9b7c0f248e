/**
 * The main study: thousands of descents at the planned throttle-up height and over a curve of heights, on the same
 * draws, put together to one result. It is a pure function of scenario, seed and options; an interrupted study gives
 * the result of the flights flown, which a study of that many flights would give too.
 */
import type { AssessResult } from '../result/result.js';
import type { Scenario } from '../scenario/scenario.js';
import { type AssessMeans, resultOf } from './assess-result.js';
import { flyCurve } from './fly-curve.js';
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
  let flown = 0;
  const curve = await flyCurve(
    {
      flights: options.flights,
      heights,
      plannedHeight,
      acceptableRisk: fixedInput(scenario, 'criteria.ground_impact_risk'),
    },
    means.flyer,
    (flights) => {
      flown += flights;
      hooks.onProgress?.(flown, options.flights);
    },
    hooks.stop,
  );
  const atPlanned = curve[heights.indexOf(plannedHeight)];
  if (atPlanned.outcome.length === 0) return { status: 'nothing flown' };
  return { status: 'ok', result: resultOf(scenario, options, means, curve, atPlanned) };
}
