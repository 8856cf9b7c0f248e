/** Reads a day card back from JSON. */
import { resultReader } from '../basics/read-result.js';
import type { LimitsResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseLimits = resultReader<LimitsResult>({ kind: 'limits', called: 'day card' }, schema, contradiction);

/** The cells stand row by row, every one; where a height is shown, and there alone, is a height. */
function contradiction({ cells, rows, columns }: LimitsResult): string | null {
  const [height, width] = [rows.values.length, columns.values.length];
  if (cells.length !== height * width)
    return `"cells" holds ${cells.length} entries, but must hold ${height} times ${width}`;
  const wrong = cells.findIndex(({ row, column, status, height }, index) => {
    const placed = row === Math.floor(index / width) && column === index % width;
    return !placed || (status === 'height shown') !== (height !== null);
  });
  return wrong === -1 ? null : `"cells[${wrong}]" is not what its place and status say`;
}
