/**
 * What the unmeasured inputs make of the risk: the ground-impact probability as a distribution over "worlds". In each
 * world the unmeasured inputs stand at one drawn value, and 60 fresh flights are flown.
 */
import seedrandom from 'seedrandom';
import { type Criterion, detailFor } from '../decision/criteria.js';
import { broken } from '../decision/judge.js';
import { FLIGHTS_PER_WORLD } from '../draws/draw.js';
import { idsBetween } from '../ensemble/columns.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import { betaByMoments, betaQuantileOf, betaShareWithin } from '../statistics/beta-law.js';
import { betweenWorlds } from '../statistics/between-worlds.js';
import type { Verdict } from '../statistics/proportion.js';
import { quantileOf, sortedValues } from '../statistics/quantile.js';
import type { WorldsResult } from './decisions.js';

export const WORLDS = 100;
/** Times that the worlds are drawn again with replacement for the interval of the share. */
const RESAMPLES = 400;

/** Flies the worlds at one height: 100 worlds of 60 flights of their own. */
export async function flyWorlds(
  flyer: Flyer,
  height: number,
  criterion: Criterion,
  worlds: number = WORLDS,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<WorldsResult | null> {
  const ids = idsBetween(0, worlds * FLIGHTS_PER_WORLD);
  const batch = { set: 'worlds', ids, heights: [height], detail: detailFor([criterion]) } as const;
  const [columns] = await flyer.fly(batch, onFlown, stop);
  return worldsOf(columns, criterion);
}

/** The distribution over the worlds that were flown to their end; null under two of them. */
export function worldsOf(flown: FlightColumns, criterion: Criterion): WorldsResult | null {
  const { height } = flown;
  const { limit } = criterion;
  const counts = brokenByWorld(flown, criterion);
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

function brokenByWorld(flown: FlightColumns, criterion: Criterion): number[] {
  return Array.from({ length: Math.floor(flown.outcome.length / FLIGHTS_PER_WORLD) }, (_, world) =>
    broken(flown, criterion, world * FLIGHTS_PER_WORLD, (world + 1) * FLIGHTS_PER_WORLD),
  );
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
 * Whether the height passes `--assurance`: its verdict on every criterion is "within" and at least that share of plausible worlds is
 * within the limit. Where the worlds show no spread there is one world, and the verdict alone decides.
 */
export function isAssured(verdict: Verdict, worlds: WorldsResult | null, assurance: number): boolean {
  if (verdict !== 'within' || worlds === null) return false;
  return worlds.shareWithin === null || worlds.shareWithin.estimate >= assurance;
}
