/** What each series of a flight's noise is, for whoever writes it down or reads it again. */
import { CALL_OUT_STEP, type FlightNoise, GUST_STEP, type NoiseSeries } from './draw.js';
import type { NoiseName } from './noise.js';

export interface NoiseMeaning {
  readonly meaning: string;
  readonly law: 'standard normal' | 'unit exponential';
  readonly columns: readonly string[];
  /** Seconds of the flight's clock between nodes; null where the nodes are counted. */
  readonly step: number | null;
  readonly of: (noise: FlightNoise) => NoiseSeries;
}

export const NOISE_MEANINGS: Readonly<Record<NoiseName, NoiseMeaning>> = {
  'noise.gusts': {
    meaning: 'Fresh numbers of the unit gusts at each node.',
    law: 'standard normal',
    columns: ['along the mean wind', 'across it, to the left', 'up'],
    step: GUST_STEP,
    of: ({ gusts }) => gusts,
  },
  'noise.call_out': {
    meaning: 'Reading noise of the barometer, linear between nodes; times pilot.call_out.noise.',
    law: 'standard normal',
    columns: ['reading'],
    step: CALL_OUT_STEP,
    of: ({ callOut }) => callOut,
  },
  'noise.throttle': {
    meaning: 'Unsteadiness of the throttle hand, linear between nodes; times pilot.throttle_noise.',
    law: 'standard normal',
    columns: ['hand'],
    step: GUST_STEP,
    of: ({ throttle }) => throttle,
  },
  'noise.ring': {
    meaning:
      'Fresh numbers of the thrust fluctuation in the vortex ring, from the interval in which the first motor starts.',
    law: 'standard normal',
    columns: ['rotor 1', 'rotor 2', 'rotor 3', 'rotor 4'],
    step: GUST_STEP,
    of: ({ ring }) => ring,
  },
  'noise.outages': {
    meaning: 'Radio outages one after the other; gaps over link.outage_rate, lengths times link.outage_length.',
    law: 'unit exponential',
    columns: ['gap before', 'length'],
    step: null,
    of: ({ outages }) => outages,
  },
};
