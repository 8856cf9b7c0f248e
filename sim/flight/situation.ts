/**
 * The situation of a flight: everything that changes in its course, and the scratch arrays of the integration. Both have this
 * one visible place. One object serves all flights of a model; `resetSituation` resets it.
 */

import type { FlightNoise } from '../draws/draw.js';
import { createOutages, type Outages } from '../model/link.js';
import { Slot } from '../model/scratch.js';
import { ALL_STATES } from '../model/state.js';
import { READINGS } from './constants.js';
import type { Craft } from './craft.js';
import { type Arms, AWAITS_NOTHING, type Awaited, type Phase, type Stance, type Stick } from './phase.js';

export interface Situation {
  /** Time since ejection, s, and the current state. */
  time: number;
  /** When the step now or last made began, s. */
  stepBegin: number;
  readonly y: Float64Array;
  noise: FlightNoise | null;

  // Air: the wind between the current node and the next is linear in time; these are at the next.
  node: number;
  readonly windTo: Float64Array;
  /** Unit gusts along, across, vertical. */
  readonly gust: Float64Array;
  /** Dryden scales: horizontal length, vertical length, intensity ratio. */
  readonly scales: Float64Array;
  /** Throttle hand's unsteadiness at the current node and at the next, m/s2. */
  handFrom: number;
  handTo: number;

  /** Thrust fluctuation xi of each rotor over the interval before node `ringNode` + 1; the first motor started in `ringBegin`. */
  readonly ring: Float64Array;
  ringNode: number;
  ringBegin: number;

  // Where the flight is: changed by the tables of transitions.ts alone.
  phase: Phase;
  /** When the phase began, s. */
  phaseBegan: number;
  /** The events that have a row for the phase. */
  awaits: Awaited;
  arms: Arms;
  stance: Stance;
  stick: Stick;

  /**
   * Rotors that give thrust, 1 or 0, and the drag area of each arm with its blades as far as they stand still, m2; when each
   * rotor starts, and the next of them, s: infinite where there is none.
   */
  readonly driven: Float64Array;
  readonly areas: Float64Array;
  readonly starts: Float64Array;
  nextStart: number;

  /** What each arm does at its hinge (see hinges.ts), and the torque on it but for friction, N m, at the last evaluation. */
  readonly hinges: Int8Array;
  readonly hingeTorques: Float64Array;
  /** Drag area of each arm with its stopped blades as far as it is open, m2. */
  readonly stoppedAreas: Float64Array;
  /** When the last arm was open, s; NaN before. */
  openTime: number;

  /** When the arms are let go; infinite before it is known. */
  releaseTime: number;
  readonly outages: Outages;
  /** Readings of the barometer that the parachute goes by: those at READINGS nodes of the call-out, in turn. */
  readonly readings: Float64Array;
  /** Node at which they made up its mind, and when it fires, s; infinite before. */
  triggerNode: number;
  fireTime: number;
  /** Time in which the canopy fills, s. */
  fillTime: number;

  /** How the steps of a stretch are made: see `largestStep`. */
  method: Method;

  // Scratch.
  readonly start: Float64Array;
  readonly k1: Float64Array;
  readonly k2: Float64Array;
  readonly k3: Float64Array;
  readonly k4: Float64Array;
  readonly probe: Float64Array;
  /** What the parts of the equations hand on: see sim/model/scratch.ts. */
  readonly scratch: Float64Array;
}

export function createSituation(): Situation {
  return {
    time: 0,
    stepBegin: 0,
    y: new Float64Array(ALL_STATES),
    noise: null,
    node: 0,
    windTo: new Float64Array(3),
    gust: new Float64Array(3),
    scales: new Float64Array(3),
    handFrom: 0,
    handTo: 0,
    ring: new Float64Array(4),
    ringNode: 0,
    ringBegin: 0,
    phase: 'falling',
    phaseBegan: 0,
    awaits: AWAITS_NOTHING,
    arms: 'folded',
    stance: 'tumbling',
    stick: 'live',
    driven: new Float64Array(4),
    areas: new Float64Array(4),
    starts: new Float64Array(4),
    nextStart: Number.POSITIVE_INFINITY,
    hinges: new Int8Array(4),
    hingeTorques: new Float64Array(4),
    stoppedAreas: new Float64Array(4),
    openTime: Number.NaN,
    releaseTime: Number.POSITIVE_INFINITY,
    outages: createOutages(),
    readings: new Float64Array(READINGS),
    triggerNode: Number.POSITIVE_INFINITY,
    fireTime: Number.POSITIVE_INFINITY,
    fillTime: 1,
    method: 'runge-kutta',
    start: new Float64Array(ALL_STATES),
    k1: new Float64Array(ALL_STATES),
    k2: new Float64Array(ALL_STATES),
    k3: new Float64Array(ALL_STATES),
    k4: new Float64Array(ALL_STATES),
    probe: new Float64Array(ALL_STATES),
    scratch: new Float64Array(Slot.Size),
  };
}

/** Rates of change of state y at time s.scratch[Slot.Time], written to dy. */
export type Rates = (craft: Craft, s: Situation, y: Float64Array, dy: Float64Array) => void;

/** The steps of order four, and those of order two for a stretch that is smooth enough for them. */
export type Method = 'runge-kutta' | 'midpoint';
