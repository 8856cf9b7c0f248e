import { type ColumnName, type FlightColumns, isSoft } from '../../flight/record.js';

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
