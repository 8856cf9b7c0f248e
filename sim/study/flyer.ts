import type { Change, SetName } from '../draws/draw.js';
import type { FlightColumns } from '../flight/record.js';

/** A request to fly flights `ids` (ascending) of one set at every height, on the same draws. */
export interface Batch {
  readonly set: SetName;
  readonly ids: Uint32Array;
  readonly heights: readonly number[];
  /** 'outcomes': outcome and touchdown speed; 'full': every column; 'causes': every column and the cause. */
  readonly detail: 'outcomes' | 'full' | 'causes';
  /** Inputs held at a quantile for these flights. */
  readonly changes?: readonly Change[];
}

/** Flies batches: serial, on threads, or a synthetic stand-in in the tests of the statistics; all interchangeable. */
export interface Flyer {
  /** One FlightColumns for each height, in the order of `ids`; `onFlown` hears how many flights were just finished. */
  fly(batch: Batch, onFlown?: (flights: number) => void): Promise<readonly FlightColumns[]>;
  close(): Promise<void>;
}
