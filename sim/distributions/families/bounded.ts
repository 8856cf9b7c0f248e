import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { type Family, LEAST_SHAPE } from './family.js';

/** Uniform on [from, to]. */
export const UNIFORM: Family = {
  names: ['from', 'to'],
  quantile: (below, above, [from, to]) => (below <= above ? from + below * (to - from) : to - above * (to - from)),
  below: (x, [from, to]) => (x <= from ? 0 : x > to ? 1 : (x - from) / (to - from)),
  above: (x, [from, to]) => (x < from ? 1 : x >= to ? 0 : (to - x) / (to - from)),
  settle(parameters) {
    parameters[1] = Math.max(parameters[0], parameters[1]);
  },
};

/**
 * Triangular on [from, to] with its peak at mode. Left of the mode P(X < x) = (x - from)^2 / ((to - from)(mode - from)),
 * right of it P(X > x) = (to - x)^2 / ((to - from)(to - mode)).
 */
export const TRIANGULAR: Family = {
  names: ['from', 'mode', 'to'],
  quantile(below, above, [from, mode, to]) {
    return below * (to - from) < mode - from
      ? from + Math.sqrt(below * (to - from) * (mode - from))
      : to - Math.sqrt(above * (to - from) * (to - mode));
  },
  below(x, parameters) {
    const [from, mode, to] = parameters;
    if (x <= from) return 0;
    return x < mode ? (x - from) ** 2 / ((to - from) * (mode - from)) : 1 - TRIANGULAR.above(x, parameters);
  },
  above(x, parameters) {
    const [from, mode, to] = parameters;
    if (x >= to) return 0;
    return x >= mode ? (to - x) ** 2 / ((to - from) * (to - mode)) : 1 - TRIANGULAR.below(x, parameters);
  },
  settle(parameters) {
    const [from, mode, to] = parameters;
    parameters[2] = Math.max(from, to);
    parameters[1] = Math.min(Math.max(mode, from), parameters[2]);
  },
};

/** Beta with shapes a and b, stretched to [from, to]. P(X > x) is the lower tail of the mirrored law, beta(b, a). */
export const BETA: Family = {
  names: ['a', 'b', 'from', 'to'],
  quantile: (below, above, [a, b, from, to]) =>
    below <= above ? from + (to - from) * betaQuantile(below, a, b) : to - (to - from) * betaQuantile(above, b, a),
  below: (x, [a, b, from, to]) => (x <= from ? 0 : x > to ? 1 : betaCdf((x - from) / (to - from), a, b)),
  above: (x, [a, b, from, to]) => (x < from ? 1 : x >= to ? 0 : betaCdf((to - x) / (to - from), b, a)),
  settle(parameters) {
    parameters[0] = Math.max(parameters[0], LEAST_SHAPE);
    parameters[1] = Math.max(parameters[1], LEAST_SHAPE);
    parameters[3] = Math.max(parameters[2], parameters[3]);
  },
};
