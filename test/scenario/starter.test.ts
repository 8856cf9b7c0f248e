import { describe, expect, test } from 'vitest';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import { DECISIONS, STARTING_VALUES } from '../../sim/scenario/definition/starting-values.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { mustBeGiven } from '../../sim/scenario/file/standard.js';
import { leftAtPerfect } from '../../sim/scenario/hazards.js';
import { starterScenario } from '../../sim/scenario/starter.js';
import { memoryFiles, problemsOf, scenarioOf } from './file/memory-files.js';

const text = starterScenario({ 'plan.throttle_up_height': '233 m', 'criteria.ground_impact_risk': '4.1 %' });
const read = (starter: string) => readScenario('starter.yaml', [], memoryFiles({ 'starter.yaml': starter }));

describe('the starter scenario', () => {
  test('can be read once its decisions are made, with the guard on and nothing of people and hardware left at perfect', () => {
    expect(problemsOf(read(text))).toEqual([]);
    const scenario = scenarioOf(read(text));
    expect(scenario.leftOut).not.toContain('stabiliser.arming_guard');
    expect(leftAtPerfect(scenario)).toEqual([]);
  });

  test('leaves limit and height to the team, and is refused until both are decided', () => {
    const open = starterScenario();
    expect(open).not.toMatch(/throttle_up_height: \d|ground_impact_risk: \d/);
    expect(problemsOf(read(open))).toEqual([
      expect.stringMatching(
        /plan\.throttle_up_height: found "to decide"; expected a height above ground that you plan/,
      ),
      expect.stringMatching(/criteria\.ground_impact_risk: found "to decide"; expected the share of flights/),
    ]);
    const decided = ['plan.throttle_up_height=233 m', 'criteria.ground_impact_risk=4 %'];
    const tried = readScenario('starter.yaml', decided, memoryFiles({ 'starter.yaml': open }));
    expect(problemsOf(tried)).toEqual([]);
  });

  test('writes every chance of people and hardware as a law, and none as one guessed number', () => {
    const exact = scenarioOf(read(text)).inputs.filter(
      ({ shape, path, value }) => (shape === 'chance' || path === 'link.outage_rate') && value.form === 'fixed',
    );
    expect(exact).toEqual([]);
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
    const missing = paths.filter(
      ({ path, entry }) => mustBeGiven(entry) && STARTING_VALUES[path] === undefined && !(path in DECISIONS),
    );
    expect(missing).toEqual([]);
    expect(Object.keys(STARTING_VALUES).filter((path) => !paths.some((leaf) => leaf.path === path))).toEqual([]);
  });

  test('keeps its lines to a readable width', () => {
    expect(Math.max(...text.split('\n').map((line) => line.length))).toBeLessThanOrEqual(125);
  });
});
