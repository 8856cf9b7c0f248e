/**
 * Wind and gusts of sim/MODEL.md a second time, node by node on the flight's clock: the wind of the next node is worked out at
 * this node, for the height that the flight will have there at its present vertical speed.
 */
import type { NoiseSeries } from '../../sim/draws/draw.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import type { Vector } from './second-equations.js';

export const NODE = 0.1;

interface Scales {
  readonly across: number;
  readonly up: number;
  /** sigma_u/sigma_w. */
  readonly ratio: number;
}

function scalesAt(z: number): Scales {
  const feet = z / 0.3048;
  const low = Math.min(Math.max(feet, 10), 1000);
  const bracket = 0.177 + 0.000823 * low;
  const share = Math.min(Math.max((feet - 1000) / 1000, 0), 1);
  const blend = (below: number, above: number) => below + share * (above - below);
  return {
    across: 0.3048 * blend(low / bracket ** 1.2, 1750),
    up: 0.3048 * blend(low, 1750),
    ratio: blend(bracket ** -0.4, 1),
  };
}

export interface Gusts {
  /** Goes on to the next node, from the state there: the wind then runs from the present node's to the next one's. */
  next(y: readonly number[]): void;
  /** Between the present node and the next. */
  wind(t: number): Vector;
}

export function gustsOf(
  { wind }: FlightInputs,
  noise: NoiseSeries,
  meanWind: (z: number) => Vector,
  start: readonly number[],
): Gusts {
  const speedAt = (z: number) => wind.speed * (Math.max(z, 0.1) / 10) ** wind.shear_exponent;
  const sigma = 0.1 * speedAt(20 * 0.3048) * wind.gust_factor;
  const along: Vector = [-Math.sin(wind.from), -Math.cos(wind.from), 0];
  const left: Vector = [-along[1], along[0], 0];
  let unit = [0, 1, 2].map((i) => noise.at(0, i));
  let scales = scalesAt(start[2]);
  const windOf = (z: number): Vector => {
    const mean = meanWind(z);
    const across = sigma * scales.ratio;
    return [0, 1, 2].map(
      (i) => mean[i] + across * (unit[0] * along[i] + unit[1] * left[i]) + (i === 2 ? sigma * unit[2] : 0),
    ) as Vector;
  };
  let to = windOf(start[2]);
  let from = to;
  let node = -1;
  return {
    next(y) {
      node += 1;
      from = to;
      const airspeed = Math.max(1, Math.hypot(y[3] - from[0], y[4] - from[1], y[5] - from[2]));
      if (sigma > 0)
        unit = unit.map((one, i) => {
          const A = Math.exp((-airspeed * NODE) / (i === 2 ? scales.up : scales.across));
          return A * one + Math.sqrt(1 - A * A) * noise.at(node + 1, i);
        });
      const z = y[2] + NODE * y[5];
      scales = scalesAt(z);
      to = windOf(z);
    },
    wind(t) {
      const share = t / NODE - node;
      return [0, 1, 2].map((i) => from[i] + share * (to[i] - from[i])) as Vector;
    },
  };
}
