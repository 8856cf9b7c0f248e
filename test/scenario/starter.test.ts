import { describe, expect, test } from 'vitest';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import { STARTING_VALUES } from '../../sim/scenario/definition/starting-values.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { mustBeGiven } from '../../sim/scenario/file/standard.js';
import { starterScenario } from '../../sim/scenario/starter.js';
import { memoryFiles, problemsOf, scenarioOf } from './file/memory-files.js';

const text = starterScenario();
const read = (starter: string) => readScenario('starter.yaml', [], memoryFiles({ 'starter.yaml': starter }));

describe('the starter scenario', () => {
  test('can be read as it stands', () => {
    expect(problemsOf(read(text))).toEqual([]);
  });

  test('can be read with every entry that is commented out taken in', () => {
    const all = text
      .replace(/^( *)#(?! )/gm, '$1')
      .replace(/^# {2}- /gm, '  - ')
      .replace(/^ {2}(?=- \{)/gm, '  ');
    expect(problemsOf(read(all))).toEqual([]);
    expect(scenarioOf(read(all)).leftOut).toEqual([]);
  });

  test('says of every uncertain input and of every measurement that it is a guess', () => {
    const scenario = scenarioOf(read(text));
    const boasts = scenario.inputs.filter(({ source }) => source === 'measured' || source === 'datasheet');
    const silent = scenario.inputs.filter(({ source, value }) => source === 'not said' && value.form === 'uncertain');
    expect([...boasts, ...silent]).toEqual([]);
  });

  test('explains every entry in a comment above it', () => {
    const lines = text.split('\n');
    const entries = lines.flatMap((line, index) =>
      /^ *#?(?!median:|spread:|kind:|source:)[a-z_]+:/.test(line) ? [index] : [],
    );
    expect(entries.length).toBeGreaterThan(100);
    for (const index of entries) expect(lines[index - 1], lines[index]).toMatch(/^ *# \S/);
  });

  test('has a starting value for everything that must be given, and for nothing that does not exist', () => {
    const paths = leafPaths().filter(({ entry }) => entry.shape !== 'luck');
    const missing = paths.filter(({ path, entry }) => mustBeGiven(entry) && STARTING_VALUES[path] === undefined);
    expect(missing).toEqual([]);
    expect(Object.keys(STARTING_VALUES).filter((path) => !paths.some((leaf) => leaf.path === path))).toEqual([]);
  });

  test('keeps its lines to a readable width', () => {
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(125);
  });
});
