import { describe, expect, test } from 'vitest';
import { quantity } from '../../../sim/scenario/definition/shapes.js';
import { describeLeaf } from '../../../sim/scenario/describe.js';
import { standardInput } from '../../../sim/scenario/file/standard.js';

const leaf = (standard: string) =>
  quantity('time', 'A time.', { unit: 's', least: '0 s', most: '5 s', standard, each: ['a', 'b'] });

const UNIFORM = '{ uniform: { from: 200 ms, to: 0.7 s }, kind: fixed but not measured }';
const LONG = `
  log-normal:
    median: { uniform: { from: 0.2 s, to: 0.4 s }, kind: fixed but not measured }
    spread: 0.3
  kind: varies from flight to flight`;

describe('a standard', () => {
  test('may be a value', () => {
    expect(standardInput(leaf('45 ms'))).toEqual({
      value: { form: 'fixed', value: 0.045 },
      source: 'standard',
      note: '',
      written: '45 ms',
    });
  });

  test('may be a law with its kind, read as in a file', () => {
    expect(standardInput(leaf(UNIFORM))).toEqual({
      value: {
        form: 'uncertain',
        distribution: { family: 'uniform', from: 0.2, to: 0.7 },
        kind: 'fixed but not measured',
        atLeast: null,
        atMost: null,
      },
      source: 'standard',
      note: '',
      written: 'uniform, from 200 ms, to 0.7 s',
    });
  });

  test('may be a law of several lines with an unmeasured parameter, cut to what can make sense', () => {
    const value = standardInput(leaf(LONG))?.value;
    expect(value).toMatchObject({
      distribution: { family: 'log-normal', median: { kind: 'fixed but not measured' } },
      atMost: 5,
    });
  });

  test('is said with its kind in the description of the entry', () => {
    expect(describeLeaf(leaf(UNIFORM))).toMatch(
      /Without it: uniform, from 200 ms, to 0\.7 s \(fixed but not measured\)\.$/,
    );
    expect(describeLeaf(leaf('45 ms'))).toMatch(/Without it: 45 ms\.$/);
  });

  test.each(['7 s', '45', '{ uniform: { from: 0 s, to: 1 s } }', '{ gauss: { mean: 1 s } }', '{'])(
    'is refused where it is wrong: %s',
    (standard) => {
      expect(() => standardInput(leaf(standard))).toThrow('the definition');
    },
  );
});
