/** The contract of the flight model: a draw and a throttle-up height go in, a record comes out, and nothing else matters. */
import type { FlightDraw } from '../draws/draw.js';
import type { Phase } from './phase.js';

/** One flight at one height. The object is reused from flight to flight: copy what you keep. */
export interface FlightRecord {
  /** Index into OUTCOMES. */
  outcome: number;
  /**
   * Index into CAUSES as far as the flight itself shows it: broken hardware and lost power. "not sought" for any
   * other flight that is not soft; `seekCause` finds those by flying again.
   */
  cause: number;
  /** In the order of COLUMN_NAMES; NaN where the event never came. */
  readonly values: Float64Array;
}

export interface TraceEvent {
  readonly name: string;
  readonly time: number;
  readonly height: number;
}

/** A phase of the flight that lasted, with the time at which it began, s from ejection. */
export interface TracePhase {
  readonly name: Phase;
  readonly began: number;
}

/** One flight in full: a row of samples for every accepted step. */
export interface FlightTrace {
  readonly record: FlightRecord;
  readonly events: readonly TraceEvent[];
  readonly phases: readonly TracePhase[];
  /** Column names with units, such as "height_m". */
  readonly columns: readonly string[];
  readonly rows: readonly (readonly number[])[];
}

export interface FlightModel {
  /**
   * Flies one draw at each height (the fall is flown once and shared) and hands each record to `receive`, in the
   * order of `heights`.
   */
  fly(draw: FlightDraw, heights: readonly number[], receive: (heightIndex: number, record: FlightRecord) => void): void;
  /** The same flight at one height with its whole history; the record equals that of `fly`, byte for byte. */
  trace(draw: FlightDraw, height: number): FlightTrace;
}
