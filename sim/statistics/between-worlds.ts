import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

export interface BetweenWorlds {
  /** Mean of the probability over the worlds. */
  readonly mean: number;
  /** Variance of the probability between worlds, free of the scatter inside them; may come out negative. */
  readonly variance: number;
}

/**
 * Mean and variance, between worlds, of a probability seen as `counts[i]` events in `flights` fresh flights of each
 * world: variance = S^2 - mean of x (1 - x)/(flights - 1), x = count/flights, S^2 the sample variance of x. Unbiased
 * for every distribution over the worlds (beta-binomial moments); the second term is the scatter of `flights` flights.
 *
 * Source: Kleinman, Journal of the American Statistical Association 68:46, 1973, equal flights in each world (cited
 * from memory).
 */
export function betweenWorlds(counts: readonly number[], flights: number): BetweenWorlds {
  if (counts.length < 2 || flights < 2) throw new RangeError('Two worlds of two flights are the least.');
  const shares = counts.map((count) => count / flights);
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const squares = shares.reduce((sum, share) => sum + (share - mean) ** 2, 0) / (shares.length - 1);
  const scatter = shares.reduce((sum, share) => sum + share * (1 - share), 0) / shares.length / (flights - 1);
  return { mean, variance: squares - scatter };
}

/** A beta law over [0, 1] by its shapes. */
export interface BetaLaw {
  readonly a: number;
  readonly b: number;
}

/** The beta law with this mean and variance; null where the variance is not positive or too large for any. */
export function betaByMoments({ mean, variance }: BetweenWorlds): BetaLaw | null {
  if (!(variance > 0) || !(mean > 0 && mean < 1)) return null;
  const sum = (mean * (1 - mean)) / variance - 1;
  return sum > 0 ? { a: mean * sum, b: (1 - mean) * sum } : null;
}

/** Probability that a value of the law is at or under `limit`. */
export function betaShareWithin({ a, b }: BetaLaw, limit: number): number {
  return betaCdf(limit, a, b);
}

export function betaQuantileOf({ a, b }: BetaLaw, p: number): number {
  return betaQuantile(p, a, b);
}
