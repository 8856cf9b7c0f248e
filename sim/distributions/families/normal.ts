import erfcinv from '@stdlib/math-base-special-erfcinv';
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { Family } from './family.js';

/**
 * Standard normal quantile z with P(Z < z) = `below` and P(Z > z) = `above`: z = -sqrt(2) erfcinv(2 below) = sqrt(2)
 * erfcinv(2 above), from the smaller of the two, so that both tails are good to about 1e-15 of z. Probabilities of 0 and 1
 * give infinities.
 */
export function standardNormalQuantile(below: number, above: number): number {
  return below <= above ? -Math.SQRT2 * erfcinv(2 * below) : Math.SQRT2 * erfcinv(2 * above);
}

/** P(Z < z) for a standard normal Z. */
export function standardNormalBelow(z: number): number {
  return normalCdf(z, 0, 1);
}

/** Normal: mean, sd (standard deviation). */
export const NORMAL: Family = {
  names: ['mean', 'sd'],
  quantile: (below, above, [mean, sd]) => mean + sd * standardNormalQuantile(below, above),
  below: (x, [mean, sd]) => normalCdf(x, mean, sd),
  above: (x, [mean, sd]) => normalCdf(-x, -mean, sd),
  settle(parameters) {
    parameters[1] = Math.max(parameters[1], 0);
  },
};

/** Log-normal: median, spread (standard deviation of the natural logarithm). ln X is normal about ln(median). */
export const LOG_NORMAL: Family = {
  names: ['median', 'spread'],
  quantile: (below, above, [median, spread]) => median * Math.exp(spread * standardNormalQuantile(below, above)),
  below: (x, [median, spread]) => (x <= 0 ? 0 : normalCdf(Math.log(x / median), 0, spread)),
  above: (x, [median, spread]) => (x <= 0 ? 1 : normalCdf(-Math.log(x / median), 0, spread)),
  settle(parameters) {
    parameters[0] = Math.max(parameters[0], 0);
    parameters[1] = Math.max(parameters[1], 0);
  },
};
