import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { bisect, doubledBracket } from './bisect.js';

/** Level of every two-sided interval in the program; its upper end is the one-sided 95 % bound that decides. */
export const LEVEL = 0.9;

/** Lower and upper end of an interval. */
export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Two-sided Clopper-Pearson interval of a probability seen as `count` events in `flights` independent flights:
 * lower end = Beta(count, flights - count + 1) at (1 - level)/2, upper end = Beta(count + 1, flights - count) at
 * (1 + level)/2. It holds at least its level for every true probability. With no event the upper end is
 * 1 - ((1 - level)/2)^(1/flights); with no flights the interval is 0 to 1.
 *
 * Source: Clopper and Pearson, Biometrika 26:404, 1934; beta form: Newcombe, Statistics in Medicine 17:857, 1998.
 * Checked from 1 to 10^6 flights; relative error under 1e-9.
 */
export function clopperPearson(count: number, flights: number, level: number = LEVEL): Interval {
  if (!(count >= 0 && count <= flights)) throw new RangeError(`${count} events in ${flights} flights cannot be.`);
  const tail = (1 - level) / 2;
  if (flights === 0) return { lower: 0, upper: 1 };
  const none = -Math.expm1(Math.log(tail) / flights);
  return {
    lower: count === 0 ? 0 : count === flights ? 1 - none : betaQuantile(tail, count, flights - count + 1),
    upper: count === flights ? 1 : count === 0 ? none : betaQuantile(1 - tail, count + 1, flights - count),
  };
}

/**
 * A probability counted from flights with its Clopper-Pearson two-sided 90 % interval. With no flights the estimate
 * is set to 0 and the interval is 0 to 1: look at `flights` first.
 */
export function proportion(count: number, flights: number): Proportion {
  return { count, flights, estimate: flights === 0 ? 0 : count / flights, ...clopperPearson(count, flights) };
}

/** "within": the upper end is at or under the limit; "above": the lower end is over it; else "not shown". */
export function verdictOf(risk: Proportion, limit: number): Verdict {
  if (risk.upper <= limit) return 'within';
  return risk.lower > limit ? 'above' : 'not shown';
}

/** True when the bound for `count` events (need not be whole) in `flights` flights is at or under the limit. */
function isWithin(count: number, flights: number, limit: number): boolean {
  return count < flights && betaCdf(limit, count + 1, flights - count) >= (1 + LEVEL) / 2;
}

/** True when the lower end for `count` events (need not be whole) in `flights` flights is over the limit. */
function isAbove(count: number, flights: number, limit: number): boolean {
  return count > 0 && betaCdf(limit, count, flights - count + 1) < (1 - LEVEL) / 2;
}

/**
 * Smallest whole number, `from` or above, at which a condition that stays true once it is true does turn true; null past
 * `most`.
 */
function smallest(from: number, most: number, holds: (n: number) => boolean): number | null {
  const under = from - 1;
  const isReached = (steps: number) => holds(under + steps);
  const bracket = doubledBracket({ fails: 0, first: 1, most: most - under }, isReached);
  return bracket === null ? null : under + bisect(bracket, isReached, 'whole numbers').holds;
}

/** More flights than this are not worth naming. */
const MOST_FLIGHTS = 1e9;

/** Smallest number of flights whose bound with `count` failures is at or under the limit; null above 10^9. */
export function flightsForBound(count: number, limit: number): number | null {
  return smallest(Math.max(count, 1), MOST_FLIGHTS, (flights) => isWithin(count, flights, limit));
}

/**
 * Flights that would settle a verdict "not shown" if the risk is exactly as estimated: the smallest N, not under the
 * flights already flown, at which estimate * N failures (not rounded) put the bound at or under the limit, or the
 * lower end over it. The failures of N fresh flights scatter about that number, so at N it is settled about half of
 * the time: a size of the effort, not a promise. Null where the verdict is settled, where the estimate is the limit
 * itself, where nothing has flown, and above 10^9 flights.
 */
export function flightsToSettle(risk: Proportion, limit: number): number | null {
  if (risk.flights === 0 || verdictOf(risk, limit) !== 'not shown' || risk.estimate === limit) return null;
  const settled = risk.estimate < limit ? isWithin : isAbove;
  return smallest(risk.flights, MOST_FLIGHTS, (flights) => settled(risk.estimate * flights, flights, limit));
}

/** A probability counted from flights, with its Clopper-Pearson two-sided 90 % interval. */
export interface Proportion {
  readonly count: number;
  readonly flights: number;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

export type Verdict = 'within' | 'above' | 'not shown';
