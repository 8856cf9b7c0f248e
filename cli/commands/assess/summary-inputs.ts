/** What the inputs make of the risk: what nobody has measured, what would help, what to measure first. */
import { worldsSentence } from '../../../report/assess/worlds.js';
import type { HelpRow, MeasureRow } from '../../../sim/assess/decisions.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import { columns, paragraph } from '../../terminal/layout.js';

/** Rows of a short list; the report has them all. */
const MOST = 3;

export function worldsLines(result: AssessResult): readonly string[] {
  const sentence = worldsSentence(result);
  return sentence === null ? [] : paragraph(sentence);
}

/** One line for each input: where it is best held, and what that saves. */
export function helpLines({ help }: AssessResult): readonly string[] {
  const best = new Map<string, HelpRow>();
  for (const row of help?.rows ?? []) if (!best.has(row.path)) best.set(row.path, row);
  const rows = [...best.values()].filter(({ savedInHundred }) => savedInHundred > 0).slice(0, MOST);
  return columns(
    rows.map(({ path, heldAt, savedInHundred, lower, upper }) => [
      path,
      `at its ${heldAt}`,
      `${savedInHundred.toFixed(1)} (${lower.toFixed(1)} to ${upper.toFixed(1)})`,
      lower > 0 ? '' : 'may be chance',
    ]),
  );
}

/** What would be left of the spread of the risk after measuring one input exactly. */
export function measureLines({ measureFirst, worlds }: AssessResult): readonly string[] {
  const now = worlds?.sd ?? 0;
  const rows = (measureFirst ?? []).filter(({ sd }) => sd > 0).slice(0, MOST);
  const spread = ({ sd, sdAfter }: MeasureRow) =>
    sdAfter === null || now === 0
      ? `spreads the risk by ${inHundred(sd)}`
      : `leaves a spread of ${inHundred(sdAfter)} of ${inHundred(now)}`;
  return columns(rows.map((row) => [row.path, spread(row), row.shown ? '' : 'may be chance']));
}

/** Flights in 100 with two digits. */
function inHundred(share: number): string {
  return (100 * share).toPrecision(2);
}
