import type { Family } from './family.js';

/**
 * Measured values x[0] <= ... <= x[n-1], which are the parameters themselves: at probability p the value is
 * interpolated linearly at the place (n - 1) p. Type 7 of Hyndman and Fan, American Statistician 50:361, 1996. Nothing
 * outside the measured range is ever drawn. Equal values carry probability of their own: P(X < x) leaves it out.
 */
export const SAMPLES: Family = {
  names: [],
  quantile(below, _above, values) {
    const place = (values.length - 1) * below;
    const left = Math.min(Math.floor(place), values.length - 1);
    const right = Math.min(left + 1, values.length - 1);
    return values[left] + (place - left) * (values[right] - values[left]);
  },
  below(x, values) {
    const right = values.findIndex((value) => value >= x);
    return right === -1 ? 1 : right === 0 ? 0 : place(x, values, right) / (values.length - 1);
  },
  above(x, values) {
    const right = values.findIndex((value) => value > x);
    return right === -1 ? 0 : right === 0 ? 1 : 1 - place(x, values, right) / (values.length - 1);
  },
};

/** Where x lies between the values right - 1 and right, counted from 0. */
function place(x: number, values: Float64Array, right: number): number {
  return right - 1 + (x - values[right - 1]) / (values[right] - values[right - 1]);
}
