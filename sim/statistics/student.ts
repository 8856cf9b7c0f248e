import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import { bisect, doubledBracket } from './bisect.js';

/**
 * Quantile of Student's t with `freedom` degrees of freedom: t = sqrt(f (1 - x)/x), x the 2(1 - p) quantile of
 * Beta(f/2, 1/2), for p >= 1/2 (Abramowitz and Stegun 1964, 26.5.27 and 26.7.1). t(0.975; 4) = 2.7764.
 */
export function studentQuantile(p: number, freedom: number): number {
  if (p === 0.5) return 0;
  const x = betaQuantile(2 * Math.min(p, 1 - p), freedom / 2, 0.5);
  const t = Math.sqrt((freedom * (1 - x)) / x);
  return p > 0.5 ? t : -t;
}

/** Quantile of the chi-squared law by bisection of its distribution function; relative error under 1e-10. */
export function chiSquareQuantile(p: number, freedom: number): number {
  const isReached = (x: number) => chisquareCdf(x, freedom) >= p;
  const start = { fails: 0, first: Math.max(1, freedom), most: Number.MAX_VALUE };
  const bracket = doubledBracket(start, isReached);
  if (bracket === null) throw new RangeError(`No quantile of chi-squared at ${p} with ${freedom} degrees of freedom.`);
  const { fails, holds } = bisect(bracket, isReached, { share: 1e-12 });
  return (fails + holds) / 2;
}
