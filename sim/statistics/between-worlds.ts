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
