import type { FlightTrace } from '../flight/flight.js';

/** The time history of one flight as CSV: units in the header, a row for every step. */
export function* traceCsv(trace: FlightTrace): Generator<string> {
  yield `${trace.columns.join(',')}\n`;
  for (const row of trace.rows)
    yield `${row.map((value) => (Number.isFinite(value) ? String(Number(value.toPrecision(8))) : '')).join(',')}\n`;
}
