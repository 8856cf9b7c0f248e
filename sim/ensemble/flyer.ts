/** A flyer flies batches of flights; a batch says which flights and how much is kept of each. */
import type { Change, SetName } from '../draws/draw.js';
import { COLUMN_NAMES, type ColumnName, type FlightColumns } from '../flight/record.js';

/** Columns that say where a flight came down, and what is told of an aim. */
const PLACES: readonly ColumnName[] = ['touchdown_speed', 'east', 'north'];
const FACTS: readonly ColumnName[] = [...PLACES, 'order_time', 'order_height', 'cue_height', 'arrest_height'];

/** What may be kept of a flight besides its outcome: the columns, and whether its cause is sought where it is not soft. */
const KEPT = {
  outcomes: { columns: ['touchdown_speed'], causes: false },
  'outcomes and causes': { columns: ['touchdown_speed'], causes: true },
  places: { columns: PLACES, causes: false },
  facts: { columns: FACTS, causes: false },
  'facts and causes': { columns: FACTS, causes: true },
  full: { columns: COLUMN_NAMES, causes: false },
  /** Everything. */
  causes: { columns: COLUMN_NAMES, causes: true },
} as const satisfies Readonly<Record<string, { readonly columns: readonly ColumnName[]; readonly causes: boolean }>>;

export type Detail = keyof typeof KEPT;
export const DETAILS = Object.keys(KEPT) as readonly Detail[];

export function columnsKept(detail: Detail): readonly ColumnName[] {
  return KEPT[detail].columns;
}

export function seeksCauses(detail: Detail): boolean {
  return KEPT[detail].causes;
}

/** Whether flights kept in a detail tell all that another detail asks for. */
export function tells(kept: Detail, asked: Detail): boolean {
  const names = columnsKept(kept);
  return (seeksCauses(kept) || !seeksCauses(asked)) && columnsKept(asked).every((name) => names.includes(name));
}

/** A request to fly flights `ids` (ascending) of one set at every height, on the same draws. */
export interface Batch {
  readonly set: SetName;
  readonly ids: Uint32Array;
  readonly heights: readonly number[];
  /** A detail for all heights, or a detail for each height. */
  readonly detail: Detail | readonly Detail[];
  /** Inputs held at a quantile for these flights. */
  readonly changes?: readonly Change[];
}

/** Flies batches: serial, on threads, or a synthetic stand-in in the tests of the statistics; all interchangeable. */
export interface Flyer {
  /**
   * One FlightColumns for each height, in the order of `ids`; `onFlown` hears how many flights were just finished.
   * When `stop` aborts, the flights flown so far, at each height a prefix of `ids`.
   */
  fly(batch: Batch, onFlown?: (flights: number) => void, stop?: AbortSignal): Promise<readonly FlightColumns[]>;
  close(): Promise<void>;
}

/** The detail asked for at the height with this index. */
export function detailAt(batch: Batch, heightIndex: number): Detail {
  return typeof batch.detail === 'string' ? batch.detail : batch.detail[heightIndex];
}
