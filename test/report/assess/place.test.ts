import { expect, test } from 'vitest';
import { placeSection } from '../../../report/assess/place.js';
import { makeResult } from './fixture.js';

test('The yardsticks of the energy are those of the rules, in joules (1 ft lbf = 1.355818 J: NIST SP 811, from memory)', async () => {
  const { energy } = await placeSection(makeResult({ flights: 500, heights: [250] }), async () => '');
  const yardsticks = energy?.rows.slice(3).map(({ head, cells }) => [head.text, Number(cells[0].text)]);
  expect(yardsticks).toEqual([
    [expect.stringMatching('107.120.*11 ft lbf'), Number((11 * 1.355818).toFixed(1))],
    [expect.stringMatching('107.130.*25 ft lbf'), Number((25 * 1.355818).toFixed(1))],
    [expect.stringMatching(String.raw`2019/945, Annex, Part 2\(1\)`), 80],
  ]);
});
