/** The typed columns in which many flights are kept: about 90 bytes a flight at a height in full, 6 for outcomes alone. */
import { CAUSES, COLUMN_NAMES, type ColumnName, type FlightColumns } from '../flight/record.js';
import { type Batch, detailAt } from './flyer.js';

const NOT_SOUGHT = CAUSES.indexOf('not sought');

/** Empty columns for `flights` flights at each height of the batch. */
export function emptyColumns(batch: Batch, flights: number): FlightColumns[] {
  return batch.heights.map((height, index) => {
    const names: readonly ColumnName[] = detailAt(batch, index) === 'outcomes' ? ['touchdown_speed'] : COLUMN_NAMES;
    return {
      height,
      outcome: new Uint8Array(flights),
      cause: new Uint8Array(flights).fill(NOT_SOUGHT),
      columns: Object.fromEntries(names.map((name) => [name, new Float32Array(flights)])),
    };
  });
}

/** Copies `block` into `whole` from flight `start` on. */
export function placeColumns(whole: readonly FlightColumns[], start: number, block: readonly FlightColumns[]): void {
  whole.forEach((target, index) => {
    target.outcome.set(block[index].outcome, start);
    target.cause.set(block[index].cause, start);
    for (const name of Object.keys(target.columns) as ColumnName[]) {
      const source = block[index].columns[name];
      if (source) target.columns[name]?.set(source, start);
    }
  });
}

/** Flights of one height in two pieces as one. */
export function joinColumns(first: FlightColumns, second: FlightColumns): FlightColumns {
  const flights = first.outcome.length;
  const bytes = (a: Uint8Array, b: Uint8Array) => {
    const whole = new Uint8Array(a.length + b.length);
    whole.set(a);
    whole.set(b, a.length);
    return whole;
  };
  const columns = (Object.keys(first.columns) as ColumnName[]).map((name) => {
    const end = second.columns[name] ?? new Float32Array(0);
    const whole = new Float32Array(flights + end.length);
    whole.set(first.columns[name] ?? []);
    whole.set(end, flights);
    return [name, whole];
  });
  return {
    height: first.height,
    outcome: bytes(first.outcome, second.outcome),
    cause: bytes(first.cause, second.cause),
    columns: Object.fromEntries(columns),
  };
}

/** The first `flights` flights; the same object where that is all of them. */
export function firstFlights(all: FlightColumns, flights: number): FlightColumns {
  if (all.outcome.length === flights) return all;
  const columns = Object.entries(all.columns).map(([name, values]) => [name, values.slice(0, flights)]);
  return {
    height: all.height,
    outcome: all.outcome.slice(0, flights),
    cause: all.cause.slice(0, flights),
    columns: Object.fromEntries(columns),
  };
}
