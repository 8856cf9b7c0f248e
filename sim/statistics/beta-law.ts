/** The beta law of a probability that nobody knows exactly: from trials, or by its mean and variance. */
import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';

/** A beta law over [0, 1] by its shapes; mean a/(a + b), variance a b/((a + b)^2 (a + b + 1)). */
export interface BetaLaw {
  readonly a: number;
  readonly b: number;
}

/** The Jeffreys law of a chance after `failures` in `trials`: Beta(failures + 1/2, trials - failures + 1/2). */
export function jeffreysLaw(failures: number, trials: number): BetaLaw {
  return { a: failures + 0.5, b: trials - failures + 0.5 };
}

/**
 * The beta law with this mean m and variance v: a + b = m (1 - m)/v - 1. Null where the variance is not positive, or too
 * large for any beta law.
 */
export function betaByMoments(moments: { readonly mean: number; readonly variance: number }): BetaLaw | null {
  const { mean, variance } = moments;
  if (!(variance > 0) || !(mean > 0 && mean < 1)) return null;
  const sum = (mean * (1 - mean)) / variance - 1;
  return sum > 0 ? { a: mean * sum, b: (1 - mean) * sum } : null;
}

/** Probability that a value of the law is at or under `limit`. */
export function betaShareWithin({ a, b }: BetaLaw, limit: number): number {
  return betaCdf(limit, a, b);
}

/** The value that a value of the law is at or under with probability p. */
export function betaQuantileOf({ a, b }: BetaLaw, p: number): number {
  return betaQuantile(p, a, b);
}

/**
 * Share of the variance of a chance with a beta law that is expected to be left after n more trials: (a + b)/(a + b + n).
 * Exact: the mean of the posterior variance over the outcomes of the trials.
 */
export function varianceLeft({ a, b }: BetaLaw, trials: number): number {
  return (a + b) / (a + b + trials);
}
