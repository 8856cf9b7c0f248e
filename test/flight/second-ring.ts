/** The fluctuation of the thrust in the vortex ring, written from sim/MODEL.md: constant over each interval of the flight's clock. */
import type { NoiseSeries } from '../../sim/draws/draw.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';

const INTERVAL = 0.1;

export interface Ring {
  /** The first motor starts, in this interval. */
  readonly begin: (interval: number) => void;
  readonly at: (interval: number, rotor: number) => number;
}

export function ringOf({ rotors }: FlightInputs, inducedSpeed: number, normal: NoiseSeries): Ring {
  const tau = rotors.diameter / (2 * Math.PI * rotors.ring_strouhal * inducedSpeed);
  const q = INTERVAL / tau;
  const s = Math.sqrt(2 * (q - 1 + Math.exp(-q))) / q;
  const correlation = (2 / q - s * s) / (2 / q + s * s);
  let first = Number.NaN;
  let values: number[][] = [];
  return {
    begin(interval) {
      first = interval;
      values = [];
    },
    at(interval, rotor) {
      const k = interval - first;
      while (values.length <= k) {
        const n = values.length;
        const before = values[n - 1];
        const fresh = [0, 1, 2, 3].map((i) => s * normal.at(n, i));
        values.push(
          fresh.map((one, i) => (n === 0 ? one : correlation * before[i] + Math.sqrt(1 - correlation ** 2) * one)),
        );
      }
      return values[k][rotor];
    },
  };
}
