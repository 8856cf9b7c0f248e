import type { FlightTrace } from '../flight/flight.js';
import type { TRACE_COLUMNS } from '../flight/trace.js';

/** One column of a trace, row by row. */
export function traceSeries(trace: FlightTrace, name: (typeof TRACE_COLUMNS)[number]): readonly number[] {
  const column = trace.columns.indexOf(name);
  if (column < 0) throw new Error(`a trace has no column ${name}, only ${trace.columns.join(', ')}`);
  return trace.rows.map((row) => row[column]);
}
