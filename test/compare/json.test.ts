import { describe, expect, it } from 'vitest';
import { parseResult } from '../../sim/assess/json.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { parseComparison } from '../../sim/compare/json.js';
import { answered } from '../answers.js';
import { compareSynthetic, fallingRisk } from './designs.js';

const result = answered(
  await compareSynthetic(
    { risk: fallingRisk(150, 0.03) },
    { risk: fallingRisk(110, 0.02), overrides: ['plan.throttle_up_height=200 m'] },
    { flights: 2500 },
  ),
);
const text = [...resultJson(result)].join('');

describe('a comparison as JSON', () => {
  it('reads back to the same comparison', () => {
    expect(parseComparison(text)).toEqual({ status: 'ok', value: JSON.parse(JSON.stringify(result)) });
    expect(result.comparisons.every(({ status }) => status === 'compared')).toBe(true);
  });

  it('holds no path of this machine, no clock and no NaN', () => {
    expect(text).not.toContain(process.cwd());
    expect(text).not.toMatch(/NaN|Infinity|20\d\d-\d\d-\d\d/);
  });

  const changed = (change: object) => JSON.stringify({ ...result, ...change });
  const [first, second, third] = result.comparisons;
  it.each([
    ['an empty file', '', /empty/],
    ['a file that was cut off', text.slice(0, text.length / 2), /not whole JSON/],
    ['a result of another kind', changed({ kind: 'assess' }), /kind "assess", and no comparison/],
    ['a later schema', changed({ versions: { ...result.versions, resultSchema: 99 } }), /schema version 99/],
    ['a missing part', changed({ differences: undefined }), /"differences" is missing/],
    ['a design without its scenario', changed({ a: { ...result.a, scenario: 1 } }), /"a.scenario" is a number/],
    [
      'two comparisons instead of three',
      changed({ comparisons: [first, second] }),
      /"comparisons" holds 2 entries, but must hold 3/,
    ],
    [
      'columns of another number of pairs',
      changed({ flights: 7 }),
      /"comparisons\[0\].raw.a.outcome" does not hold 7 flights/,
    ],
    [
      'an outcome that does not exist',
      changed({
        comparisons: [
          {
            ...first,
            raw: { ...first.raw, a: { ...first.raw.a, outcome: Buffer.alloc(result.flights, 9).toString('base64') } },
          },
          second,
          third,
        ],
      }),
      /outcome is unknown/,
    ],
  ])('is refused as %s', (_what, given, why) => {
    expect(parseComparison(given)).toMatchObject({ status: 'refused', messages: [expect.stringMatching(why)] });
  });

  it('is no assessment', () => {
    expect(parseResult(text)).toMatchObject({
      status: 'refused',
      messages: [expect.stringContaining('kind "compare"')],
    });
  });
});
