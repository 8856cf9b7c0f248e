/**
 * What changes by events in the course of a flight, and the scratch arrays of the integration: the one visible place
 * for both. One object serves all flights of a model; `beginFlight` resets it.
 */
import type { FlightNoise } from '../draws/draw.js';
import { STREAM_SIZE } from '../model/airframe.js';
import { createOutages, type Outages } from '../model/link.js';
import { ELECTRIC_SIZE, STATES } from './state.js';

export interface Situation {
  /** Time since ejection, s, and the current state. */
  time: number;
  readonly y: Float64Array;
  noise: FlightNoise | null;

  // Air: the wind between the current node and the next, linear in time.
  node: number;
  readonly windFrom: Float64Array;
  readonly windTo: Float64Array;
  /** Unit gusts along, across, vertical at the current node and at the next. */
  readonly gust: Float64Array;
  readonly gustNext: Float64Array;
  /** Dryden scales at the current node and at the next: horizontal length, vertical length, intensity ratio. */
  readonly scales: Float64Array;
  readonly scalesNext: Float64Array;
  /** Throttle hand's unsteadiness at the current node and at the next, m/s2. */
  handFrom: number;
  handTo: number;

  /** When the arms are let go; infinite before it is known. */
  releaseTime: number;

  /** A stretch so smooth that steps of order two do: see `largestStep`. */
  settled: boolean;

  // Motors.
  motorsOn: boolean;
  /** The motors were stopped and stay off. */
  motorsDone: boolean;
  /** The pack: see ELECTRIC in state.ts. */
  readonly electric: Float64Array;

  // Pilot and link.
  arrested: boolean;
  /** The hand holds the descent rate (else full collective). */
  approaching: boolean;
  upright: boolean;
  /** 'live': the pilot flies; 'held': the last command stands; 'itself': level, by itself. */
  stick: 'live' | 'held' | 'itself';
  readonly tilt: Float64Array;
  readonly outages: Outages;

  // Parachute.
  firedAt: number;
  fillTime: number;
  torn: boolean;
  /** Canopy pull found in the last evaluation, N. */
  pull: number;

  // Scratch.
  readonly start: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly probe: Float64Array;
  readonly load: Float64Array;
  /** Time of the evaluation, s. */
  readonly clock: Float64Array;
  readonly rotation: Float64Array;
  readonly specific: Float64Array;
  readonly inertia: Float64Array;
  readonly gyro: Float64Array;
  readonly wanted: Float64Array;
  readonly command: Float64Array;
  readonly stream: Float64Array;
  readonly share: Float64Array;
  readonly demand: Float64Array;
  readonly axial: Float64Array;
}

export function createSituation(): Situation {
  return {
    time: 0,
    y: new Float64Array(STATES),
    noise: null,
    node: 0,
    windFrom: new Float64Array(3),
    windTo: new Float64Array(3),
    gust: new Float64Array(3),
    gustNext: new Float64Array(3),
    scales: new Float64Array(3),
    scalesNext: new Float64Array(3),
    handFrom: 0,
    handTo: 0,
    releaseTime: Number.POSITIVE_INFINITY,
    settled: false,
    motorsOn: false,
    motorsDone: false,
    electric: new Float64Array(ELECTRIC_SIZE),
    arrested: false,
    approaching: false,
    upright: false,
    stick: 'live',
    tilt: new Float64Array(2),
    outages: createOutages(),
    firedAt: Number.POSITIVE_INFINITY,
    fillTime: 1,
    torn: false,
    pull: 0,
    start: new Float64Array(STATES),
    k1: new Float64Array(STATES),
    k2: new Float64Array(STATES),
    k3: new Float64Array(STATES),
    k4: new Float64Array(STATES),
    probe: new Float64Array(STATES),
    load: new Float64Array(6),
    clock: new Float64Array(1),
    rotation: new Float64Array(9),
    specific: new Float64Array(3),
    inertia: new Float64Array(2),
    gyro: new Float64Array(3),
    wanted: new Float64Array(3),
    stream: new Float64Array(STREAM_SIZE),
    share: new Float64Array(4),
    demand: new Float64Array(4),
    command: new Float64Array(4),
    axial: new Float64Array(4),
  };
}
