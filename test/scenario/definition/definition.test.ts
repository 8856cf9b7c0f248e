import { describe, expect, test } from 'vitest';
import { SCENARIO } from '../../../sim/scenario/definition/definition.js';
import { leafPaths } from '../../../sim/scenario/definition/leaves.js';
import type { Entry } from '../../../sim/scenario/definition/shapes.js';
import { rangeOf } from '../../../sim/scenario/file/range.js';
import { standardInput } from '../../../sim/scenario/file/standard.js';
import { displayUnit } from '../../../sim/scenario/units.js';

const inputs = leafPaths().flatMap(({ path, entry }) =>
  entry.shape === 'quantity' || entry.shape === 'chance' ? [{ path, entry }] : [],
);

describe('the definition is sound', () => {
  test.each(inputs)('$path: its units, bounds and standard can be read and fit together', ({ entry }) => {
    const range = rangeOf(entry);
    expect(range.least).toBeLessThan(range.most);
    expect(() => displayUnit(entry.shape === 'quantity' ? entry.unit : '%', range.dimension)).not.toThrow();
    expect(() => standardInput(entry)).not.toThrow();
  });

  test('no input is both optional and given a standard', () => {
    const both = inputs.filter(({ entry }) => entry.standard !== undefined && 'optional' in entry && entry.optional);
    expect(both).toEqual([]);
  });

  test('every entry is described in a sentence', () => {
    const walk = (entry: Entry): void => {
      expect(entry.doc).toMatch(/^[A-Z].*\.$/);
      if (entry.shape === 'section') Object.values(entry.entries).forEach(walk);
      if (entry.shape === 'list') walk(entry.of);
    };
    walk(SCENARIO);
  });

  test('paths are unique and in the order of the definition', () => {
    const paths = leafPaths().map(({ path }) => path);
    expect(new Set(paths).size).toBe(paths.length);
    expect(paths[0]).toBe('title');
    expect(paths.indexOf('can.mass')).toBeLessThan(paths.indexOf('rotors.bench_thrust'));
    expect(paths).toContain('pilot.call_out.bias');
  });

  test('site and ejection stay where the atmosphere is described: 11 km at most', () => {
    const most = (path: string) => rangeOf(inputs.find((input) => input.path === path)?.entry ?? inputs[0].entry).most;
    expect(most('site.elevation') + most('ejection.height')).toBeLessThanOrEqual(11_000);
  });
});
