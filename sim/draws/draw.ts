/** A draw: the inputs and the noise of a single flight, and the changes that hold some of them still. */
import type { FlightInputs } from '../scenario/definition/definition.js';

/** Sets of flights that share nothing: each has its own random streams. */
export type SetName = 'explore' | 'confirm' | 'worlds';

/** Flights in each world of the set "worlds": the unmeasured inputs of flight i are those of world floor(i / 60). */
export const FLIGHTS_PER_WORLD = 60;

/** Standard normal numbers on a fixed time grid, drawn when they are first needed; a second reading gives the same number. */
export interface NoiseSeries {
  /** The value of column `column` at node `node` (time = node times the grid's step). */
  at(node: number, column: number): number;
}

/** What happens on the flight's own clock, apart from the inputs: a function of time, never of the integrator's steps. */
export interface FlightNoise {
  /** Gusts: nodes every GUST_STEP, columns 0, 1, 2 = along the mean wind, across it, vertical. */
  readonly gusts: NoiseSeries;
  /** Reading noise of the call-out: nodes every CALL_OUT_STEP, one column. */
  readonly callOut: NoiseSeries;
  /** Unsteadiness of the throttle hand: nodes every GUST_STEP, one column. */
  readonly throttle: NoiseSeries;
  /**
   * Thrust fluctuation in the vortex ring state: nodes every GUST_STEP, node 0 that before the first motor starts, a column for
   * each rotor.
   */
  readonly ring: NoiseSeries;
  /** Unit-exponential numbers for radio outages: node j, columns 0 (gap before) and 1 (length). */
  readonly outages: NoiseSeries;
}

/** The draw of a flight. A flight is a pure function of its draw and the plan. */
export interface FlightDraw {
  readonly inputs: FlightInputs;
  readonly noise: FlightNoise;
}

/** Seconds between gust nodes. */
export const GUST_STEP = 0.1;
/** Seconds between nodes of the call-out's reading noise. */
export const CALL_OUT_STEP = 0.2;

/** Holds an input at a quantile of its own distribution (0.5 is the median), whatever was drawn. */
export interface Change {
  /** An input's path, a drawn number's name ("pilot.reaction.median") or a noise's; `placesOf` says what each one sets. */
  readonly path: string;
  readonly quantile: number;
}
