import { describe, expect, it } from 'vitest';
import { resultJson } from '../../sim/basics/result-json.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import { parseLimits } from '../../sim/limits/json.js';
import { findLimits } from '../../sim/limits/limits.js';
import { answered } from '../answers.js';
import { fallingRisk, plainBurdock } from '../compare/designs.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

const card = await findLimits(
  plainBurdock(),
  {
    seed: '1',
    flights: 300,
    rows: 'wind.speed=2 m/s,12 m/s',
    columns: 'pad.wait=10 min,20 min',
    heights: { kind: 'standard' },
    overrides: [],
  },
  {
    flyerFor: () => createSyntheticFlyer({ seed: '1', risk: fallingRisk(100, 0.01) }),
    criteria: criteriaOf(plainBurdock()),
  },
);
const result = answered(card);
const text = [...resultJson(result)].join('');

describe('a day card as JSON', () => {
  it('reads back to the same card', () => {
    expect(parseLimits(text)).toEqual({ status: 'ok', value: JSON.parse(JSON.stringify(result)) });
  });

  const changed = (change: object) => JSON.stringify({ ...result, ...change });
  const [first, ...rest] = result.cells;
  it.each([
    ['another kind', changed({ kind: 'compare' }), /kind "compare", and no day card/],
    ['a missing part', changed({ heights: undefined }), /"heights" is missing/],
    ['an axis that is none', changed({ rows: { path: 'wind.speed' } }), /"rows.meaning" is missing/],
    ['too few cells', changed({ cells: rest }), /must hold 2 times 2/],
    ['cells out of place', changed({ cells: [...rest, first] }), /not what its place and status say/],
    [
      'an allowed cell without a height',
      changed({ cells: [{ ...first, height: null }, ...rest] }),
      /not what its place/,
    ],
    [
      'an unknown status',
      changed({ cells: [{ ...first, status: 'go' }, ...rest] }),
      /"cells\[0\].status" is "go", but must be "/,
    ],
  ])('is refused as %s', (_what, given, why) => {
    expect(parseLimits(given)).toMatchObject({ status: 'refused', messages: [expect.stringMatching(why)] });
  });
});
