import { type Family, LEAST_SHAPE } from './family.js';

/** Weibull: shape k, scale c. P(X > x) = exp(-(x/c)^k), x >= 0. Shape 1 is the exponential distribution of mean c. */
export const WEIBULL: Family = {
  names: ['shape', 'scale'],
  quantile: (below, above, [shape, scale]) =>
    scale * (below <= above ? -Math.log1p(-below) : -Math.log(above)) ** (1 / shape),
  below: (x, [shape, scale]) => (x <= 0 ? 0 : -Math.expm1(-((x / scale) ** shape))),
  above: (x, [shape, scale]) => (x <= 0 ? 1 : Math.exp(-((x / scale) ** shape))),
  settle(parameters) {
    parameters[0] = Math.max(parameters[0], LEAST_SHAPE);
    parameters[1] = Math.max(parameters[1], 0);
  },
};
