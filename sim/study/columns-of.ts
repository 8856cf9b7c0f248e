import type { ColumnName, FlightColumns } from '../flight/record.js';

/** A column that was kept; asking for one that was not is a bug. */
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
  return Float64Array.from(
    Array.from(flown.outcome.keys()).filter((flight) => holds(flown.outcome[flight])),
    (flight) => values[flight],
  );
}

export function countOutcome(flown: FlightColumns, holds: (outcome: number) => boolean): number {
  let count = 0;
  for (const outcome of flown.outcome) if (holds(outcome)) count += 1;
  return count;
}

/** Numbers of the flights that did not land softly, ascending. */
export function failedFlights({ outcome }: FlightColumns): Uint32Array {
  return Uint32Array.from(Array.from(outcome.keys()).filter((flight) => outcome[flight] !== 0));
}
