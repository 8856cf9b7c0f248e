import { describe, expect, test } from 'vitest';
import { readVariant, scenarioOf } from './file/memory-files.js';

const hashOf = (differs: string) => scenarioOf(readVariant(differs)).hash;
const base = hashOf('');

describe('the hash of a scenario', () => {
  test('is a SHA-256 in hex', () => {
    expect(base).toMatch(/^[0-9a-f]{64}$/);
  });

  test.each([
    'title: Another\n',
    'can: { mass: 611 g }\n',
    'plan: { cue: timer }\n',
    'video: none\n',
    'site: { keep_out: [] }\n',
    'correlations: [{ between: [battery.capacity, battery.resistance], rank: 0.1 }]\n',
    'rotors: { dead: 0.06 % }\n',
    'wind: { shear_exponent: 0.2 }\n',
    'pad: { wait: { triangular: { from: 5 min, mode: 20 min, to: 60 min }, kind: fixed but not measured } }\n',
    'battery: { open_circuit: [[0 %, 3 V], [100 %, 4.2 V]] }\n',
  ])('changes with %j', (differs) => {
    expect(hashOf(differs)).not.toBe(base);
  });

  test.each([
    'about: Something else\n',
    'invented: no\n',
    'can: { length: { value: 21 cm, source: guess, note: by eye } }\n',
    'wind: { shear_exponent: 0.142857 }\n',
    'battery: { capacity: { normal: { mean: 0.55 Ah, sd: 16.5 mAh }, kind: varies from flight to flight } }\n',
  ])('stays with %j: provenance, units and written-out standards fly the same', (differs) => {
    expect(hashOf(differs)).toBe(base);
  });

  test('does not know in which order correlations are written', () => {
    const one = '{ between: [battery.capacity, battery.resistance], rank: 0.1 }';
    const turned = '{ between: [battery.resistance, battery.capacity], rank: 0.1 }';
    const other = '{ between: [can.mass, pad.wait], rank: 0.2 }';
    expect(hashOf(`correlations: [${one}, ${other}]\n`)).toBe(hashOf(`correlations: [${other}, ${turned}]\n`));
  });
});
