/** Reads what bench data say back from JSON. */
import { resultReader, wrongLength } from '../basics/read-result.js';
import type { FitResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseFit = resultReader<FitResult>({ kind: 'fit', called: 'fit' }, schema, contradiction);

/** The quantiles of the chosen family stand beside the values. */
function contradiction(result: FitResult): string | null {
  if (result.form !== 'samples') return null;
  const { values, quantiles } = result;
  return wrongLength('', { quantiles }, values.length);
}
