/** Many flights are kept in typed columns: about 90 bytes a flight at a height in full, 6 for outcomes alone. */
import { CAUSES, type ColumnName, type FlightColumns, isSoft } from '../flight/record.js';
import { type Batch, columnsKept, detailAt } from './flyer.js';

const NOT_SOUGHT = CAUSES.indexOf('not sought');

/** Empty columns for `flights` flights at each height of the batch. */
export function emptyColumns(batch: Batch, flights: number): FlightColumns[] {
  return batch.heights.map((height, index) => {
    const names = columnsKept(detailAt(batch, index));
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

/** Flights `from` to `to` - 1, without a copy, with the columns named, in the order of their names. */
export function viewOf(
  all: FlightColumns,
  from: number,
  to: number,
  names: readonly ColumnName[] = Object.keys(all.columns) as ColumnName[],
): FlightColumns {
  const columns = names.flatMap((name) => {
    const values = all.columns[name];
    return values ? [[name, values.subarray(from, to)]] : [];
  });
  return {
    height: all.height,
    outcome: all.outcome.subarray(from, to),
    cause: all.cause.subarray(from, to),
    columns: Object.fromEntries(columns),
  };
}

/** Flight ids `from` to `to` - 1. */
export function idsBetween(from: number, to: number): Uint32Array {
  const ids = new Uint32Array(Math.max(0, to - from));
  for (let index = 0; index < ids.length; index++) ids[index] = from + index;
  return ids;
}

/** Consecutive stretches of a set at a height as a single stretch; a column that any of them lacks is dropped. */
export function joined(parts: readonly FlightColumns[]): FlightColumns {
  const size = parts.reduce((sum, part) => sum + part.outcome.length, 0);
  const outcome = new Uint8Array(size);
  const cause = new Uint8Array(size);
  const names = (Object.keys(parts[0].columns) as ColumnName[]).filter((name) =>
    parts.every(({ columns }) => columns[name] !== undefined),
  );
  const columns = Object.fromEntries(names.map((name) => [name, new Float32Array(size)]));
  let start = 0;
  for (const part of parts) {
    outcome.set(part.outcome, start);
    cause.set(part.cause, start);
    for (const name of names) columns[name].set(part.columns[name] as Float32Array, start);
    start += part.outcome.length;
  }
  return { height: parts[0].height, outcome, cause, columns };
}

/** A column that was kept; to ask for a column that was not kept is a bug. */
export function columnOf(flown: FlightColumns, name: ColumnName): Float32Array {
  const column = flown.columns[name];
  if (!column) throw new Error(`the column ${name} was not kept at ${flown.height} m`);
  return column;
}

/** One value computed from each flight; NaN where any part of it never came. */
export function eachFlight(flown: FlightColumns, value: (flight: number) => number): Float64Array {
  return Float64Array.from({ length: flown.outcome.length }, (_, flight) => value(flight));
}

/** a - b, flight by flight. */
export function difference(flown: FlightColumns, a: ColumnName, b: ColumnName): Float64Array {
  const first = columnOf(flown, a);
  const second = columnOf(flown, b);
  return eachFlight(flown, (flight) => first[flight] - second[flight]);
}

/** The values of a column in the flights with one of these outcomes. */
export function whereOutcome(
  flown: FlightColumns,
  values: ArrayLike<number>,
  holds: (outcome: number) => boolean,
): Float64Array {
  const found = new Float64Array(countOutcome(flown, holds));
  let count = 0;
  for (let flight = 0; flight < flown.outcome.length; flight++) {
    if (holds(flown.outcome[flight])) found[count++] = values[flight];
  }
  return found;
}

export function countOutcome(flown: FlightColumns, holds: (outcome: number) => boolean): number {
  let count = 0;
  for (const outcome of flown.outcome) if (holds(outcome)) count += 1;
  return count;
}

/** Numbers of the flights for which it holds, ascending. */
export function flightsWhere(flown: FlightColumns, holds: (flight: number) => boolean): Uint32Array {
  const found = new Uint32Array(flown.outcome.length);
  let count = 0;
  for (let flight = 0; flight < found.length; flight++) if (holds(flight)) found[count++] = flight;
  return found.slice(0, count);
}

/** Numbers of the flights that did not land softly, ascending. */
export function failedFlights(flown: FlightColumns): Uint32Array {
  return flightsWhere(flown, (flight) => !isSoft(flown.outcome[flight]));
}
