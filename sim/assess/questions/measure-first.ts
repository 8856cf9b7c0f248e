/** What to measure first: how much of the spread between worlds each unmeasured input causes. No further flights. */

import { failureFlags } from '../../flight/record.js';
import { varianceLeft } from '../../statistics/beta-law.js';
import { firstOrder } from '../../statistics/first-order.js';
import { holm } from '../../statistics/holm.js';
import type { MeasureRow } from '../decisions.js';

/** An unmeasured input on plain flights: each flight drew its own value. */
export interface UnmeasuredInput {
  readonly path: string;
  /** Its uniform number in each flight. */
  readonly uniforms: ArrayLike<number>;
  /** Shapes of the law of a chance known from trials. */
  readonly trials?: { readonly a: number; readonly b: number };
}

/** Numbers of further trials for which the rest is stated. */
export const MORE_TRIALS = [10, 30, 100] as const;
const SHOWN = 0.05;

/**
 * Rows by effect, largest first. The variance that an input causes is first-order share times variance of the
 * outcome, on the plain flights; a perfect measurement is expected to take it from the variance between worlds; n more
 * trials of a chance take n/(a + b + n) of it. First order: what inputs cause together counts for none of them.
 *
 * @param outcome index into OUTCOMES of each plain flight
 * @param sdBetweenWorlds 0 or null where the worlds show no spread
 */
export function measureFirst(
  inputs: readonly UnmeasuredInput[],
  outcome: ArrayLike<number>,
  sdBetweenWorlds: number | null,
): readonly MeasureRow[] {
  const failed = failureFlags(outcome);
  const found = inputs.map(({ uniforms }) => firstOrder(uniforms, failed) ?? { share: 0, variance: 0, pValue: 1 });
  const pValues = holm(found.map(({ pValue }) => pValue));
  const total = (sdBetweenWorlds ?? 0) ** 2;
  const left = (variance: number) => (total > 0 ? Math.sqrt(Math.max(0, total - variance)) : null);
  return inputs
    .map(({ path, trials }, index): MeasureRow => {
      const { variance } = found[index];
      return {
        path,
        sd: Math.sqrt(variance),
        share: total > 0 ? Math.min(1, variance / total) : null,
        sdAfter: left(variance),
        pValue: pValues[index],
        shown: pValues[index] <= SHOWN,
        moreTrials: trials
          ? MORE_TRIALS.map((more) => ({
              trials: more,
              sdAfter: left(variance * (1 - varianceLeft(trials, more))),
            }))
          : [],
      };
    })
    .sort((one, other) => other.sd - one.sd);
}
