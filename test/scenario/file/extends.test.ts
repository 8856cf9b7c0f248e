import { describe, expect, test } from 'vitest';
import { readScenario } from '../../../sim/scenario/file/read.js';
import { inputByPath } from '../../../sim/scenario/lookup.js';
import { BASE, inputOf, memoryFiles, problemsOf, readVariant, scenarioOf } from './memory-files.js';

const read = (texts: Readonly<Record<string, string>>) =>
  readScenario('it.yaml', [], memoryFiles({ 'base.yaml': BASE, ...texts }));

describe('a variant gives only what differs', () => {
  test('sections merge key by key, an input is replaced as a whole', () => {
    const variant = readVariant('can:\n  mass: 700 g\n');
    expect(inputOf(variant, 'can.mass')).toMatchObject({
      value: { form: 'fixed', value: 0.7 },
      source: 'not said',
      note: '',
    });
    expect(inputOf(variant, 'can.length').value).toEqual({ form: 'fixed', value: 0.21 });
  });

  test('an optional section can be taken away, and given anew from nothing', () => {
    const without = scenarioOf(readVariant('video: none\n'));
    expect(without.leftOut).toContain('video');
    expect(without.inputs.some(({ path }) => path.startsWith('video.'))).toBe(false);
    expect(without.settings['video.without_picture']).toBeUndefined();

    const middle = 'extends: base.yaml\nvideo: none\n';
    const anew = read({ 'middle.yaml': middle, 'it.yaml': 'extends: middle.yaml\nvideo:\n  power: 3 W\n' });
    expect(problemsOf(anew).map((line) => line.split(';')[0])).toEqual([
      'it.yaml:2:1: video.thermal_resistance: found no such entry',
      'it.yaml:2:1: video.time_constant: found no such entry',
      'it.yaml:2:1: video.limit: found no such entry',
    ]);
  });

  test('an optional value can be taken away', () => {
    expect(inputByPath(scenarioOf(readVariant('')), 'can.open_axial_inertia')).not.toBeNull();
    expect(
      inputByPath(scenarioOf(readVariant('can:\n  open_axial_inertia: none\n')), 'can.open_axial_inertia'),
    ).toBeNull();
  });

  test('a list is replaced', () => {
    expect(scenarioOf(readVariant('')).settings['site.keep_out']).toHaveLength(1);
    expect(scenarioOf(readVariant('site:\n  keep_out: []\n')).settings['site.keep_out']).toEqual([]);
  });

  test('a required section cannot be taken away', () => {
    expect(problemsOf(readVariant('can: none\n'))[0]).toMatch(/^it\.yaml:2:6: can: found "none"/);
  });

  test('chains work, the nearest file has the last word', () => {
    const chain = read({
      'a.yaml': 'extends: base.yaml\ncan: { mass: 700 g, length: 220 mm }\n',
      'it.yaml': 'extends: a.yaml\ncan: { mass: 800 g }\n',
    });
    expect(inputOf(chain, 'can.mass').value).toMatchObject({ value: 0.8 });
    expect(inputOf(chain, 'can.length').value).toMatchObject({ value: 0.22 });
    expect(inputOf(chain, 'can.diameter').value).toMatchObject({ value: 0.08 });
  });

  test('paths are relative to the extending file', () => {
    const files = memoryFiles({ 'configs/base.yaml': BASE, 'configs/low/it.yaml': 'extends: ../base.yaml\n' });
    expect(readScenario('configs/low/it.yaml', [], files).status).toBe('ok');
  });
});

describe('extends that leads nowhere', () => {
  test('in a circle, also of one', () => {
    expect(problemsOf(read({ 'it.yaml': 'extends: ./it.yaml\n' }))).toEqual([
      'it.yaml:1:10: extends: found a circle: it.yaml -> it.yaml; expected a file that does not lead back to this one.',
    ]);
    expect(problemsOf(read({ 'it.yaml': 'extends: a.yaml\n', 'a.yaml': 'title: x\nextends: it.yaml\n' }))).toEqual([
      'a.yaml:2:10: extends: found a circle: it.yaml -> a.yaml -> it.yaml; expected a file that does not lead back to this one.',
    ]);
  });

  test('to nothing', () => {
    expect(problemsOf(read({ 'it.yaml': 'title: x\nextends: bas.yaml\n' }))).toEqual([
      'it.yaml:2:10: extends: found "bas.yaml", which does not exist; expected the path of a scenario file. Did you mean "base.yaml"?',
    ]);
  });

  test.each(['[base.yaml]', '5', '', '{ file: base.yaml }'])('what is not a text: %j', (text) => {
    expect(problemsOf(read({ 'it.yaml': `extends: ${text}\n` }))).toEqual([
      expect.stringMatching(/^it\.yaml:1:\d+: extends: found .*; expected the path of one scenario file/),
    ]);
  });
});

test('problems come with their own file: the named one first, then what it extends', () => {
  const all = read({
    'a.yaml': 'extends: base.yaml\ncan:\n  mass: 5\n',
    'it.yaml': 'extends: a.yaml\nrotors:\n  dead: 2\n',
  });
  expect(problemsOf(all).map((line) => line.split(': found')[0])).toEqual([
    'it.yaml:3:9: rotors.dead',
    'a.yaml:3:9: can.mass',
  ]);
});
