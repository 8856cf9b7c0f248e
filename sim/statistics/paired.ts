import binomialCdf from '@stdlib/stats-base-dists-binomial-cdf';
import { bisect } from './bisect.js';
import { clopperPearson, type Interval } from './proportion.js';

/** Outcomes of two designs on the same draws, as failures of A and of B. */
export interface PairedCounts {
  readonly both: number;
  readonly onlyA: number;
  readonly onlyB: number;
  readonly neither: number;
}

export function pairsOf(counts: PairedCounts): number {
  return counts.both + counts.onlyA + counts.onlyB + counts.neither;
}

/**
 * Exact McNemar test of equal failure probabilities: 2 P(K <= min(onlyA, onlyB)), K binomial(onlyA + onlyB, 1/2), at
 * most 1. Two-sided p-value; 1 without discordant pairs.
 *
 * Source: McNemar, Psychometrika 12:153, 1947, exact conditional form.
 */
export function mcNemar(counts: PairedCounts): number {
  const discordant = counts.onlyA + counts.onlyB;
  if (discordant === 0) return 1;
  return Math.min(1, 2 * binomialCdf(Math.min(counts.onlyA, counts.onlyB), discordant, 0.5));
}

/** Standard normal deviate of a two-sided 95 % interval. */
export const Z95 = 1.959963984540054;

/** Halvings that narrow [-1, 1] to the last bit. */
const HALVINGS = 60;

/**
 * Score interval of the difference of two paired probabilities, p(A fails) - p(B fails): the differences D with
 *
 *   (onlyA - onlyB - n D)^2 <= z^2 n (2 q + D (1 - D)),
 *
 * q the maximum-likelihood probability of "only B" given D, the larger root of
 * 2n q^2 + (-onlyA - onlyB + (2n - onlyA + onlyB) D) q - onlyB D (1 - D) = 0. Two-sided, 95 % by default. Without
 * discordant pairs it is -+ z^2/(n + z^2), never of zero width.
 *
 * Source: Tango, Statistics in Medicine 17:891, 1998. Ends by halving, exact to the last bits of the arithmetic.
 */
export function tangoInterval(counts: PairedCounts, z: number = Z95): Interval {
  const n = pairsOf(counts);
  if (n === 0) return { lower: -1, upper: 1 };
  const { onlyA, onlyB } = counts;
  const excluded = (difference: number): boolean => {
    const spread = difference * (1 - difference);
    const linear = -onlyA - onlyB + (2 * n - onlyA + onlyB) * difference;
    const q = (Math.sqrt(Math.max(0, linear * linear + 8 * n * onlyB * spread)) - linear) / (4 * n);
    return (onlyA - onlyB - n * difference) ** 2 > z * z * n * (2 * Math.max(q, 0) + spread);
  };
  const observed = (onlyA - onlyB) / n;
  return { lower: edge(-1, observed, excluded), upper: edge(1, observed, excluded) };
}

/** The end of the interval between a difference far out and a difference inside the interval: where `excluded` turns. */
function edge(outside: number, inside: number, excluded: (at: number) => boolean): number {
  if (!excluded(outside)) return outside;
  return bisect({ fails: outside, holds: inside }, (at) => !excluded(at), { halvings: HALVINGS }).holds;
}

/**
 * Pairs after which the 95 % interval of the difference is no wider than -+ `matters`: N = 3.84 d / matters^2, d the
 * upper end of the 90 % interval of the share of discordant pairs. From the width alone, never from the difference
 * seen, which would promise too much. Null where `matters` is 0 or nothing flew.
 */
export function flightsForWidth(counts: PairedCounts, matters: number): number | null {
  const n = pairsOf(counts);
  if (n === 0 || !(matters > 0)) return null;
  const discordant = clopperPearson(counts.onlyA + counts.onlyB, n).upper;
  return Math.ceil((Z95 * Z95 * discordant) / (matters * matters));
}
