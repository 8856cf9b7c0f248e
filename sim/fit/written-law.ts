/** Quantiles and densities of a law of plain numbers, in whatever unit its parameters are. */

import type { Distribution } from '../distributions/distribution.js';
import { createLaw, quantile, withinReach } from '../distributions/law.js';

export function quantileOfLaw(law: Distribution, u: number): number {
  const uncut = createLaw({
    form: 'uncertain',
    distribution: law,
    kind: 'varies from flight to flight',
    atLeast: null,
    atMost: null,
  });
  return quantile(uncut, withinReach(u));
}

/** Density at x; 0 for the samples themselves, which have none. */
export function densityOfLaw(law: Distribution, x: number): number {
  const at = law as unknown as Readonly<Record<string, number>>;
  switch (law.family) {
    case 'normal':
      return Math.exp(-0.5 * ((x - at.mean) / at.sd) ** 2) / (at.sd * Math.sqrt(2 * Math.PI));
    case 'log-normal':
      return x <= 0
        ? 0
        : Math.exp(-0.5 * (Math.log(x / at.median) / at.spread) ** 2) / (x * at.spread * Math.sqrt(2 * Math.PI));
    case 'weibull':
      return x <= 0
        ? 0
        : (at.shape / at.scale) * (x / at.scale) ** (at.shape - 1) * Math.exp(-((x / at.scale) ** at.shape));
    case 'triangular': {
      if (x <= at.from || x >= at.to) return 0;
      const side = x < at.mode ? (x - at.from) / (at.mode - at.from) : (at.to - x) / (at.to - at.mode);
      return (2 * side) / (at.to - at.from);
    }
    default:
      return 0;
  }
}
