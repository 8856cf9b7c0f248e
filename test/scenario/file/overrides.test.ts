import { describe, expect, test } from 'vitest';
import { inputOf, problemsOf, readVariant, scenarioOf } from './memory-files.js';

const set = (...overrides: readonly string[]) => readVariant('', overrides);

describe('--set', () => {
  test('holds over the files; the last one over the others', () => {
    expect(inputOf(set('can.mass=620 g', 'can.mass=630 g'), 'can.mass').value).toMatchObject({ value: 0.63 });
  });

  test('takes values in YAML, distributions and sections', () => {
    const read = set(
      'can.mass={normal: {mean: 600 g, sd: 2 g}, kind: varies from flight to flight}',
      'video=none',
      'title=Another',
      'plan.cue=automatic',
    );
    expect(inputOf(read, 'can.mass').value).toMatchObject({ distribution: { mean: 0.6, sd: 0.002 } });
    expect(scenarioOf(read)).toMatchObject({ title: 'Another', settings: { 'plan.cue': 'automatic' } });
    expect(scenarioOf(read).leftOut).toContain('video');
  });

  test('gives the same scenario as a file that says the same', () => {
    expect(scenarioOf(set('can.mass=620 g')).hash).toBe(scenarioOf(readVariant('can:\n  mass: 0.62 kg\n')).hash);
  });

  test.each<[string, string]>([
    [
      'can.mass=620',
      '--set:1:10: can.mass: found "620", a number without a unit; expected a mass with its unit, such as "420 g".',
    ],
    [
      'can.mas=620 g',
      '--set:1:1: found "can.mas", which is no entry of a scenario; expected path=value, such as can.mass="420 g". Did you mean "can.mass"?',
    ],
    [
      'mass=620 g',
      '--set:1:1: found "mass", which is no entry of a scenario; expected path=value, such as can.mass="420 g". Did you mean "can.mass"?',
    ],
    [
      'can.mass.sd=5 g',
      '--set:1:1: found "can.mass.sd", which is no entry of a scenario; expected path=value, such as can.mass="420 g". Did you mean "can.mass"?',
    ],
    ['can.mass', '--set:1:1: found "can.mass"; expected path=value, such as can.mass="420 g".'],
    ['=5', '--set:1:1: found "=5"; expected path=value, such as can.mass="420 g".'],
    ['', '--set:1:1: found ""; expected path=value, such as can.mass="420 g".'],
    ['can.mass=', '--set:1:10: can.mass: found nothing after the "="; expected path=value, such as can.mass="420 g".'],
    ['can.mass=[', '--set:1:11: found broken YAML (Flow sequence must end with a ]); expected valid YAML.'],
    [
      'can={masss: 5 g}',
      '--set:1:6: can: found "masss", which is unknown here; expected one of diameter, length, mass,',
    ],
    ['ejection.attitude=0', '--set:1:1: found "ejection.attitude", which is no entry of a scenario;'],
    ['can.__proto__=5', '--set:1:1: found "can.__proto__", which is no entry of a scenario;'],
    ['extends=other.yaml', '--set:1:1: found "extends", which is no entry of a scenario;'],
  ])('%j is refused', (override, message) => {
    const [first, ...others] = problemsOf(set(override));
    expect(first.slice(0, message.length)).toBe(message);
    expect(others).toEqual([]);
  });

  test('the line of a problem is the number of the --set, and those of files come first', () => {
    const read = readVariant('can:\n  mass: 5\n', ['can.length=210 mm', 'can.diameter=80']);
    expect(problemsOf(read).map((line) => line.split(': found')[0])).toEqual([
      'it.yaml:3:9: can.mass',
      '--set:2:14: can.diameter',
    ]);
  });
});
