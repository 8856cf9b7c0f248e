import type { Change, SetName } from '../draws/draw.js';
import type { FlightColumns } from '../flight/record.js';

/** What is kept of a flight. 'outcomes': outcome and touchdown speed; 'full': every column; 'causes': and the cause. */
export type Detail = 'outcomes' | 'full' | 'causes';

/** A request to fly flights `ids` (ascending) of one set at every height, on the same draws. */
export interface Batch {
  readonly set: SetName;
  readonly ids: Uint32Array;
  readonly heights: readonly number[];
  /** One for all heights, or one for each. */
  readonly detail: Detail | readonly Detail[];
  /** Inputs held at a quantile for these flights. */
  readonly changes?: readonly Change[];
}

/** Flies batches: serial, on threads, or a synthetic stand-in in the tests of the statistics; all interchangeable. */
export interface Flyer {
  /**
   * One FlightColumns for each height, in the order of `ids`; `onFlown` hears how many flights were just finished.
   * When `stop` aborts, the flights flown so far: a prefix of `ids`, the same at every height.
   */
  fly(batch: Batch, onFlown?: (flights: number) => void, stop?: AbortSignal): Promise<readonly FlightColumns[]>;
  close(): Promise<void>;
}

/** The detail asked for at the height with this index. */
export function detailAt(batch: Batch, heightIndex: number): Detail {
  return typeof batch.detail === 'string' ? batch.detail : batch.detail[heightIndex];
}
