import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { exampleFiles } from '../../sim/examples/examples.js';
import { fitColumn } from '../../sim/fit/fit.js';
import { fitThrustStand } from '../../sim/fit/thrust-stand.js';
import { knownFrom } from '../../sim/reconstruct/known.js';
import { readLog } from '../../sim/reconstruct/read-log.js';
import { reconstruct } from '../../sim/reconstruct/reconstruct.js';
import { burdock } from '../ensemble/burdock.js';

const scenario = burdock();
const examples = exampleFiles(scenario);
const textOf = (name: string) => readFileSync(`configs/${name}`, 'utf8');

describe('the example data', () => {
  it.each(examples.map(({ name }) => name))(
    'in configs/%s is what the script writes, and marked as invented',
    (name) => {
      // Made under one version of Node; another may differ in the last digit of an exponential, which rounding hides.
      expect(textOf(name)).toBe(examples.find((one) => one.name === name)?.text);
      expect(textOf(name).split('\n')[0]).toMatch(/^# Invented for demonstration/);
    },
  );

  it('of reaction times gives back the law that made them, within its range', () => {
    const made = fitColumn(textOf('burdock-reaction-times.csv'), 'r.csv', {
      column: 'reaction_s',
      unit: 's',
      family: 'log-normal',
      path: 'pilot.reaction',
    });
    if (made.status === 'refused') throw new Error(made.messages.join());
    const family = made.value.result.families.find((one) => one.family === 'log-normal');
    const [median, spread] = family?.parameters ?? [];
    expect(median.low).toBeLessThan(1.05);
    expect(median.high).toBeGreaterThan(1.05);
    expect(spread.low).toBeLessThan(0.35);
    expect(spread.high).toBeGreaterThan(0.35);
    expect(family?.fit?.refusedAt ?? 1).toBeGreaterThan(0.05);
    expect(made.value.result.fragment).toContain('invented for demonstration');
  });

  it('of the thrust stand gives back the rotor that made it', () => {
    const made = fitThrustStand(textOf('burdock-thrust-stand.csv'), 's.csv', { rotors: 1, density: 1.15 });
    if (made.status === 'refused') throw new Error(made.messages.join());
    const { full, exponent } = made.value.result;
    const share = full.voltage / 15.2;
    expect(full.thrust.value / 9.80665e-3 / (339 * share ** 2)).toBeCloseTo(1, 1);
    expect(full.power.value / (139 * share ** 3)).toBeCloseTo(1, 1);
    expect(Math.abs((exponent?.value.value ?? 0) - 2)).toBeLessThan(3 * (exponent?.value.error ?? 0));
  });

  it('of a flight shows its throttle-up where it was', () => {
    const log = readLog(textOf('burdock-flight-log.csv'), 'l.csv', { time: null, reading: null, height: null });
    if (log.status === 'refused') throw new Error(log.messages.join());
    const made = reconstruct(log.value, knownFrom(scenario), null);
    if (made.status === 'refused') throw new Error(made.messages.join());
    expect(made.value.events.map(({ name }) => name)).toEqual(['ejection', 'throttle-up', 'arrest', 'touchdown']);
    expect(made.value.invented).toBe(true);
    expect(made.value.gaps).toHaveLength(1);
  });
});
