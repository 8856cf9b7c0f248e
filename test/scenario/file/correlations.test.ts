import { describe, expect, test } from 'vitest';
import { problemsOf, readVariant, scenarioOf } from './memory-files.js';

/** Variants of a base in which mass, capacity and resistance vary, and the factors of drag and thrust are unmeasured. */
const rows = (...lines: readonly string[]) =>
  readVariant(`correlations:\n${lines.map((line) => `  - ${line}\n`).join('')}`);
const row = (one: string, other: string, rank: number | string) => `{ between: [${one}, ${other}], rank: ${rank} }`;

describe('correlations', () => {
  test('between inputs of one kind', () => {
    const read = rows(
      row('battery.capacity', 'battery.resistance', -0.4),
      row('can.drag_factor', 'rotors.thrust_factor', 0.2),
    );
    expect(scenarioOf(read).correlations).toEqual([
      { between: ['battery.capacity', 'battery.resistance'], rank: -0.4 },
      { between: ['can.drag_factor', 'rotors.thrust_factor'], rank: 0.2 },
    ]);
  });

  test('two inputs may go together wholly', () => {
    expect(problemsOf(rows(row('battery.capacity', 'battery.resistance', -1)))).toEqual([]);
  });

  test.each<[string, string]>([
    [
      row('battery.capacity', 'battery.resistance', -1.4),
      'it.yaml:3:62: correlations[1].rank: found "-1.4", too small; expected a rank correlation from -1 to 1.',
    ],
    [
      row('battery.capacity', 'battery.resistance', 'much'),
      'it.yaml:3:62: correlations[1].rank: found "much", without a number in front; expected',
    ],
    [
      row('battery.capacity', 'can.drag_factor', 0.4),
      'it.yaml:3:5: correlations: found inputs of two kinds: "battery.capacity" (varies from flight to flight) and "can.drag_factor" (fixed but not measured); expected two inputs of the same kind.',
    ],
    [
      row('battery.capacty', 'battery.resistance', 0.4),
      'it.yaml:3:17: correlations[1]: found "battery.capacty", which is no input; expected the path of an input. Did you mean "battery.capacity"?',
    ],
    [row('battery', 'battery.resistance', 0.4), 'it.yaml:3:17: correlations[1]: found "battery", which is no input;'],
    [
      row('can.mass', 'can.mass', 0.4),
      'it.yaml:3:27: correlations[1]: found "can.mass" with itself; expected two different inputs.',
    ],
    [
      row('can.mass', 'can.length', 0.4),
      'it.yaml:3:27: correlations: found "can.length", which has one fixed value or is left out; expected an input with a distribution.',
    ],
    [
      row('can.mass', 'parachute.diameter', 0.4),
      'it.yaml:3:27: correlations: found "parachute.diameter", which has one fixed value or is left out;',
    ],
    [
      row('can.mass', 'arms.stuck', 0.4),
      'it.yaml:3:27: correlations[1]: found "arms.stuck", a chance, whose events are independent;',
    ],
    [
      row('can.mass', 'ejection.horizontal_speed', 0.4),
      'it.yaml:3:27: correlations[1]: found "ejection.horizontal_speed", which is drawn 2 times in a flight;',
    ],
    [
      row('can.mass', 'plan.throttle_up_height', 0.4),
      'it.yaml:3:27: correlations[1]: found "plan.throttle_up_height", a decision or a rule, which has no distribution;',
    ],
    [row('can.mass', 'plan.cue', 0.4), 'it.yaml:3:27: correlations[1]: found "plan.cue", which is not a number;'],
    [
      '{ between: [can.mass], rank: 0.4 }',
      'it.yaml:3:16: correlations[1]: found a list of 1; expected the paths of two inputs',
    ],
    [
      '{ between: can.mass, rank: 0.4 }',
      'it.yaml:3:16: correlations[1]: found "can.mass"; expected the paths of two inputs',
    ],
    [
      '{ between: [can.mass, battery.capacity] }',
      'it.yaml:3:5: correlations[1]: found nothing for "rank"; expected a rank correlation from -1 to 1.',
    ],
    ['{ rank: 0.4 }', 'it.yaml:3:5: correlations[1]: found nothing for "between";'],
    [
      '{ betwen: [can.mass, battery.capacity], rank: 0.4 }',
      'it.yaml:3:5: correlations[1]: found nothing for "between";',
    ],
    ['can.mass', 'it.yaml:3:5: correlations[1]: found "can.mass"; expected { between:'],
  ])('%s is refused', (line, message) => {
    expect(problemsOf(rows(line))[0].slice(0, message.length)).toBe(message);
  });

  test('each pair once', () => {
    expect(
      problemsOf(
        rows(row('battery.capacity', 'battery.resistance', 0.4), row('battery.resistance', 'battery.capacity', 0.4)),
      ),
    ).toEqual([
      'it.yaml:4:5: correlations: found the pair "battery.resistance" and "battery.capacity" a second time; expected each pair once.',
    ]);
  });

  test('three that no inputs can have together', () => {
    // Two inputs that both follow a third at .9 cannot be opposed at -.9: the matrix has a negative eigenvalue.
    const read = rows(
      row('battery.capacity', 'battery.resistance', 0.9),
      row('battery.capacity', 'can.mass', 0.9),
      row('battery.resistance', 'can.mass', -0.9),
    );
    expect(problemsOf(read)).toEqual([
      'it.yaml:5:5: correlations: found correlations of "can.mass", "battery.capacity", "battery.resistance" that no inputs can have together; expected weaker ones, or one for each pair of them.',
    ]);
  });

  test('are replaced by a variant', () => {
    const texts = {
      'a.yaml': `extends: base.yaml\ncorrelations:\n  - ${row('battery.capacity', 'battery.resistance', 0.4)}\n`,
    };
    const inherited = readVariant('', [], { ...texts, 'it.yaml': 'extends: a.yaml\n' });
    const replaced = readVariant('', [], { ...texts, 'it.yaml': 'extends: a.yaml\ncorrelations: []\n' });
    expect(scenarioOf(inherited).correlations).toHaveLength(1);
    expect(scenarioOf(replaced).correlations).toEqual([]);
  });

  test('fall away where a later file or a --set fixes one of the inputs or takes it away', () => {
    const text = `correlations:\n  - ${row('battery.capacity', 'battery.resistance', 0.4)}\n`;
    expect(scenarioOf(readVariant(text, ['battery.resistance=50 mohm'])).correlations).toEqual([]);
    expect(scenarioOf(readVariant(text, ['can.mass=600 g'])).correlations).toHaveLength(1);
  });

  test('an input that cannot be read is one problem, not two', () => {
    const text = `battery:\n  capacity: 5\ncorrelations:\n  - ${row('battery.capacity', 'battery.resistance', 0.4)}\n`;
    expect(problemsOf(readVariant(text))).toHaveLength(1);
  });
});
