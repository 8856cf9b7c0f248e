/** A trace is read column by column, up to where its numbers end, and written as CSV. */
import type { FlightTrace } from '../flight/flight.js';
import type { TraceColumn } from '../flight/trace.js';

/** One column of a trace, row by row. */
export function traceSeries(trace: FlightTrace, name: TraceColumn): readonly number[] {
  const column = trace.columns.indexOf(name);
  if (column < 0) throw new Error(`a trace has no column ${name}, only ${trace.columns.join(', ')}`);
  return trace.rows.map((row) => row[column]);
}

/** The same trace up to where its numbers end: a flight that diverged has rows that hold none. */
export function finitePart(trace: FlightTrace): FlightTrace {
  const end = trace.rows.findIndex((row) => !row.every(Number.isFinite));
  if (end === -1) return trace;
  const events = trace.events.filter(({ time, height }) => Number.isFinite(time) && Number.isFinite(height));
  return { ...trace, rows: trace.rows.slice(0, end), events };
}

/** The time history of one flight as CSV: units in the header, a row for every step. */
export function* traceCsv(trace: FlightTrace): Generator<string> {
  yield `${trace.columns.join(',')}\n`;
  for (const row of trace.rows)
    yield `${row.map((value) => (Number.isFinite(value) ? String(Number(value.toPrecision(8))) : '')).join(',')}\n`;
}
