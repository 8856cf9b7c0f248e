import { describe, expect, test } from 'vitest';
import { causesSection } from '../../../report/assess/causes.js';
import { proportion } from '../../../sim/statistics/proportion.js';
import { riskWord } from '../../../sim/statistics/words.js';
import { makeResult } from './fixture.js';

const noDraw = async () => '';
const base = makeResult({ flights: 500, heights: [250] });

/** The failures of 8000 flights by cause. */
async function rowsOf(counts: Readonly<Record<string, number>>) {
  const causes = Object.entries(counts).map(([cause, count]) => ({ cause, risk: proportion(count, 8000) }));
  const risk = proportion(
    causes.reduce((sum, one) => sum + one.risk.count, 0),
    8000,
  );
  const section = await causesSection({ ...base, risk, causes }, noDraw);
  return (section.causes?.rows ?? []).map(({ head, cells }) => [head, ...cells].map(({ text }) => text));
}

const WORDS = ['frequent', 'probable', 'occasional', 'remote', 'improbable'];
const wordsIn = (rows: readonly (readonly string[])[]) =>
  rows.flatMap((row) => WORDS.filter((word) => row.join(' ').includes(`\u201c${word}\u201d`)));

describe('The probability word', () => {
  test('stands in the first row, for all causes together, by the upper end of the interval', async () => {
    const rows = await rowsOf({ reaction: 80, lapse: 30 });
    expect(rows[0].slice(0, 2)).toEqual(['All causes together', '110']);
    expect(wordsIn([rows[0]])).toEqual([riskWord(proportion(110, 8000).upper)]);
    expect(rows.slice(1).map(([cause, count]) => [cause, count])).toEqual([
      ['Reaction', '80'],
      ['Lapse', '30'],
    ]);
  });

  // 92 of 8000: its upper end is 1.4 %, "probable"; each half by itself would be "occasional".
  test('does not fall when a cause is split', async () => {
    const whole = await rowsOf({ reaction: 92 });
    const split = await rowsOf({ reaction: 46, lapse: 46 });
    expect(riskWord(proportion(46, 8000).upper)).toBe('occasional');
    expect(wordsIn(whole)).toEqual(['probable']);
    expect(wordsIn(split)).toEqual(['probable']);
  });
});
