import { describe, expect, it } from 'vitest';
import { parseResult } from '../../sim/assess/json.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { fakeResult } from './fake-result.js';

const result = await fakeResult(5);
const text = [...resultJson(result)].join('');

describe('the result as JSON', () => {
  it('reads back to the same result', () => {
    expect(parseResult(text)).toEqual({ status: 'ok', value: JSON.parse(JSON.stringify(result)) });
  });

  it('is what JSON.stringify gives, but for line breaks between parts', () => {
    expect(JSON.stringify(JSON.parse(text))).toBe(JSON.stringify(result));
  });

  it('comes in pieces far smaller than the whole where there are many flights', async () => {
    const large = await fakeResult(5, 4000);
    const pieces = [...resultJson(large)];
    expect(Math.max(...pieces.map(({ length }) => length))).toBeLessThan(pieces.join('').length / 4);
  });

  it('holds no path of this machine, no clock and no NaN', () => {
    expect(text).not.toContain(process.cwd());
    expect(text).not.toMatch(/NaN|Infinity|20\d\d-\d\d-\d\d/);
  });
});

describe('reading a result back', () => {
  const changed = (change: object) => JSON.stringify({ ...result, ...change });
  const whole = JSON.stringify(result);

  it.each([
    ['an empty file', '', /empty/],
    ['a file that was cut off', text.slice(0, text.length / 2), /not whole JSON/],
    ['a scenario file', 'title: Burdock\n', /not JSON/],
    ['a page', '<!doctype html>', /not JSON/],
    ['other JSON', '{"name":"other"}', /no result of this program/],
    ['a list', '[1,2]', /no result of this program/],
    ['null', 'null', /no result of this program/],
    [
      'a result of a later schema',
      changed({ versions: { ...result.versions, resultSchema: 99 } }),
      /schema version 99/,
    ],
    ['a result of another kind', changed({ kind: 'forecast' }), /kind "forecast"/],
    ['a result without a part', changed({ curve: undefined }), /"curve" is missing/],
    ['a result with a part of the wrong type', changed({ risk: 3 }), /"risk" is a number, but must be an object/],
    ['columns of another number of flights', changed({ flights: 7 }), /does not hold 7 flights/],
    ['raw columns that are not there', changed({ raw: {} }), /damaged/],
    [
      'an outcome that does not exist',
      whole.replace(result.raw.planned.outcome, Buffer.alloc(result.flights, 200).toString('base64')),
      /outcome is unknown/,
    ],
  ])('refuses %s and says why', (_what, given, why) => {
    expect(parseResult(given)).toMatchObject({ status: 'refused', messages: [expect.stringMatching(why)] });
  });
});
