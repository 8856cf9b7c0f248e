/** Reads one flight in full back from JSON. */
import { resultReader, wrongLength } from '../basics/read-result.js';
import { TRACE_COLUMNS } from '../flight/trace.js';
import type { TraceResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseTrace = resultReader<TraceResult>({ kind: 'trace', called: 'traced flight' }, schema, contradiction);

/** Every column of the history is there and as long as the others, as is every row of noise; labels have a value each. */
function contradiction({ history, noise, inputs }: TraceResult): string | null {
  const missing = TRACE_COLUMNS.find((name) => !Object.hasOwn(history, name));
  if (missing !== undefined) return `"history.${missing}" is missing`;
  const uneven = wrongLength('history.', history, history.time_s.length);
  if (uneven !== null) return uneven;
  for (const { name, columns, values } of noise)
    if (values.some((row) => row.length !== columns.length))
      return `"${name}" has not a number for each of its columns`;
  const unlike = inputs.find(
    (input) => 'each' in input && input.each !== null && [input.value].flat().length !== input.each.length,
  );
  return unlike === undefined ? null : `"${unlike.path}" has not a value for each of its labels`;
}
