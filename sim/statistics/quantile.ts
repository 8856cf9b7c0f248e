import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { mean, quantileSorted } from 'simple-statistics';

import { bisect } from './bisect.js';
import { LEVEL } from './proportion.js';

/** The quantiles that every spread shows. */
export const SPREAD_QUANTILES = [0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99] as const;

/** The values that are numbers, in ascending order. NaN means that the event never came in that flight. */
export function sortedValues(values: ArrayLike<number>): Float64Array {
  return sortedIn(new Float64Array(values.length), values);
}

/** Puts the values that are numbers into an array that has room for them, and sorts them there. */
function sortedIn(kept: Float64Array, values: ArrayLike<number>): Float64Array {
  let count = 0;
  for (let i = 0; i < values.length; i++) if (!Number.isNaN(values[i])) kept[count++] = values[i];
  return kept.subarray(0, count).sort();
}

/** simple-statistics reads only `length` and elements, so a typed array will do where it declares an array. */
export function asList(values: Float64Array): number[] {
  return values as unknown as number[];
}

/** Sample quantile by linear interpolation at (n - 1) p: type 7 of Hyndman and Fan, American Statistician 50:361, 1996. */
export function quantileOf(sorted: Float64Array, p: number): number {
  return quantileSorted(asList(sorted), p);
}

/** The range that holds the middle 95 % of values, and their median: the 2.5, 50 and 97.5 % quantiles. */
export function rangeOf95(values: ArrayLike<number>): readonly [number, number, number] {
  const sorted = sortedValues(values);
  return [quantileOf(sorted, 0.025), quantileOf(sorted, 0.5), quantileOf(sorted, 0.975)];
}

/** Smallest k in 0..n with P(K <= k) >= probability for K binomial(n, p). */
function binomialQuantile(probability: number, n: number, p: number): number {
  return bisect({ fails: -1, holds: n }, (k) => binomialCdf(k, n, p) >= probability, 'whole numbers').holds;
}

/**
 * Ranks (from 1) of the order statistics between which the p-quantile of the population lies with at least the
 * given probability: the largest l with P(K < l) <= (1 - level)/2 and the smallest u with P(K >= u) <= (1 - level)/2,
 * K binomial(n, p). Null on a side where n values give no finite limit. No distribution is assumed.
 *
 * Source: Conover, Practical Nonparametric Statistics, 3rd ed. 1999, section 3.2 (cited from memory).
 */
export function quantileRanks(
  n: number,
  p: number,
  level: number = LEVEL,
): { readonly lower: number | null; readonly upper: number | null } {
  const tail = (1 - level) / 2;
  if (n === 0) return { lower: null, upper: null };
  // P(K <= l - 1) <= tail for the largest l: one step under the first k whose cumulative probability exceeds it.
  let lower = binomialQuantile(tail, n, p);
  if (binomialCdf(lower, n, p) <= tail) lower += 1;
  const upper = binomialQuantile(1 - tail, n, p) + 1;
  return { lower: lower >= 1 ? lower : null, upper: upper <= n ? upper : null };
}

/** The p-quantile of sorted values with its order-statistic interval; an end is null where it is not estimable. */
export function quantileWithInterval(sorted: Float64Array, p: number, level: number = LEVEL) {
  const { lower, upper } = quantileRanks(sorted.length, p, level);
  return {
    p,
    value: quantileOf(sorted, p),
    lower: lower === null ? null : sorted[lower - 1],
    upper: upper === null ? null : sorted[upper - 1],
  };
}

/**
 * The array in which all spreads sort their values, each after the other: an array for each spread would be as large as
 * the flights.
 */
let sorting = new Float64Array(0);

/**
 * A quantity over flights: mean and quantiles with 90 % intervals, of the flights in which it is defined. With none
 * it has no quantiles and its mean is set to 0: look at `flights` first.
 */
export function spread(values: ArrayLike<number>): Spread {
  if (sorting.length < values.length) sorting = new Float64Array(values.length);
  const sorted = sortedIn(sorting, values);
  if (sorted.length === 0) return { flights: 0, mean: 0, quantiles: [] };
  return {
    flights: sorted.length,
    mean: mean(asList(sorted)),
    quantiles: SPREAD_QUANTILES.map((p) => quantileWithInterval(sorted, p)),
  };
}

/** A quantity over flights: R-7 quantiles of the flights in which it is defined. */
export interface Spread {
  readonly flights: number;
  readonly mean: number;
  readonly quantiles: {
    readonly p: number;
    readonly value: number;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
}
