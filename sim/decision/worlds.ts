/**
 * What the unmeasured inputs make of the risk: the ground-impact probability as a distribution over "worlds". In each
 * world the unmeasured inputs stand at one drawn value, and 60 fresh flights are flown.
 */

import seedrandom from 'seedrandom';
import { FLIGHTS_PER_WORLD } from '../draws/draw.js';
import { isSoft } from '../flight/record.js';
import type { WorldsResult } from '../result/decisions.js';
import type { Verdict } from '../result/result.js';
import { betaByMoments, betaQuantileOf, betaShareWithin, betweenWorlds } from '../statistics/between-worlds.js';
import { quantileOf, sortedValues } from '../statistics/quantile.js';
import type { Flyer } from '../study/flying/flyer.js';
import { idsBetween } from './flown.js';

export const WORLDS = 100;
/** Times that the worlds are drawn again with replacement for the interval of the share. */
const RESAMPLES = 400;

/** Flies the worlds at one height: 100 worlds of 60 flights of their own. */
export async function flyWorlds(
  flyer: Flyer,
  height: number,
  limit: number,
  worlds: number = WORLDS,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<WorldsResult | null> {
  const ids = idsBetween(0, worlds * FLIGHTS_PER_WORLD);
  const [columns] = await flyer.fly({ set: 'worlds', ids, heights: [height], detail: 'outcomes' }, onFlown, stop);
  return worldsOf(columns.outcome, height, limit);
}

/** The distribution over the worlds that were flown to their end; null under two of them. */
export function worldsOf(outcome: ArrayLike<number>, height: number, limit: number): WorldsResult | null {
  const counts = failuresByWorld(outcome);
  if (counts.length < 2) return null;
  const moments = betweenWorlds(counts, FLIGHTS_PER_WORLD);
  const law = betaByMoments(moments);
  return {
    height,
    limit,
    worlds: counts.length,
    flightsEach: FLIGHTS_PER_WORLD,
    counts,
    mean: moments.mean,
    status: law ? 'spread' : 'not distinguishable from none',
    sd: law ? Math.sqrt(moments.variance) : 0,
    lower: law && betaQuantileOf(law, 0.05),
    median: law && betaQuantileOf(law, 0.5),
    upper: law && betaQuantileOf(law, 0.95),
    law,
    shareWithin: law && { estimate: betaShareWithin(law, limit), ...resampledShare(counts, limit) },
  };
}

function failuresByWorld(outcome: ArrayLike<number>): number[] {
  return Array.from({ length: Math.floor(outcome.length / FLIGHTS_PER_WORLD) }, (_, world) => {
    let count = 0;
    for (let flight = 0; flight < FLIGHTS_PER_WORLD; flight++) {
      if (!isSoft(outcome[world * FLIGHTS_PER_WORLD + flight])) count += 1;
    }
    return count;
  });
}

/** 90 % interval of the share within, by drawing the worlds again with replacement (percentile bootstrap). */
function resampledShare(counts: readonly number[], limit: number): { readonly lower: number; readonly upper: number } {
  const random = seedrandom.alea('worlds drawn again');
  const shares = sortedValues(
    Array.from({ length: RESAMPLES }, () => {
      const drawn = counts.map(() => counts[Math.floor(random.double() * counts.length)]);
      const moments = betweenWorlds(drawn, FLIGHTS_PER_WORLD);
      const law = betaByMoments(moments);
      return law ? betaShareWithin(law, limit) : moments.mean <= limit ? 1 : 0;
    }),
  );
  return { lower: quantileOf(shares, 0.05), upper: quantileOf(shares, 0.95) };
}

/**
 * Whether the height passes `--assurance`: its verdict is "within" and at least that share of plausible worlds is
 * within the limit. Where the worlds show no spread there is one world, and the verdict alone decides.
 */
export function isAssured(verdict: Verdict, worlds: WorldsResult | null, assurance: number): boolean {
  if (verdict !== 'within' || worlds === null) return false;
  return worlds.shareWithin === null || worlds.shareWithin.estimate >= assurance;
}
