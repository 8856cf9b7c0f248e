/** Writes the flights of the planned height as CSV: a header with units, a row for each flight, empty where an event never came. */

import { decodeBytes, decodeNumbers } from '../ensemble/raw-columns.js';
import { CAUSES, COLUMN_NAMES, COLUMNS, OUTCOMES } from '../flight/record.js';
import type { AssessResult } from './result.js';

/** Unit of a column, such as "m/s" of "m/s, total"; none for shares and flags. */
function unitOf(description: string): string {
  return /^(m\/s|rad\/s|rad|m|s|J|V)\b/.exec(description)?.[1] ?? '';
}

function heading(name: keyof typeof COLUMNS): string {
  const unit = unitOf(COLUMNS[name]);
  return unit === '' ? name : `${name} (${unit})`;
}

/** Rows as pieces of text, so that a million flights never stand in memory as one text. */
export function* flightsCsv(result: AssessResult): Generator<string> {
  const { planned } = result.raw;
  const outcome = decodeBytes(planned.outcome);
  const cause = decodeBytes(planned.cause);
  const columns = COLUMN_NAMES.map((name) => decodeNumbers(planned.columns[name]));
  yield `${['set', 'flight', 'planned height (m)', 'outcome', 'cause', ...COLUMN_NAMES.map(heading)].join(',')}\n`;
  for (let flight = 0; flight < outcome.length; flight++) {
    const values = columns.map((column) => (Number.isNaN(column[flight]) ? '' : shortNumber(column[flight])));
    yield `explore,${flight},${result.plannedHeight},${OUTCOMES[outcome[flight]]},${CAUSES[cause[flight]]},${values.join(',')}\n`;
  }
}

/** Seven digits are all that a 32-bit number bears. */
function shortNumber(value: number): string {
  return String(Number(value.toPrecision(7)));
}
