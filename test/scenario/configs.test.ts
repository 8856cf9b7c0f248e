/** The invented scenarios that come with the program. */

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { quantileOf } from '../../sim/distributions/law.js';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import type { InputPath } from '../../sim/scenario/definition/paths.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { inputByPath, inputNamed, settingNamed } from '../../sim/scenario/lookup.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { problemsOf, scenarioOf } from './file/memory-files.js';

const names = readdirSync('configs').filter((name) => name.endsWith('.yaml'));
const scenario = (name: string): Scenario => scenarioOf(readScenario(`configs/${name}.yaml`));

/** Median of an input, in SI. */
function median(read: Scenario, path: InputPath): number {
  const input = inputByPath(read, path);
  if (input === null) throw new Error(`${path} is left out`);
  return quantileOf(input.value, 0.5);
}

/** Paths on which two scenarios differ. */
function differences(a: Scenario, b: Scenario): readonly string[] {
  const said = (read: Scenario, path: string) =>
    JSON.stringify(inputNamed(read, path)?.value ?? settingNamed(read, path));
  return leafPaths().flatMap(({ path }) => (said(a, path) === said(b, path) ? [] : [path]));
}

describe('every scenario of the repository', () => {
  test.each(names)('%s can be read', (name) => {
    expect(problemsOf(readScenario(`configs/${name}`))).toEqual([]);
  });

  test.each(names)('%s says in itself that it is invented', (name) => {
    expect(readFileSync(`configs/${name}`, 'utf8')).toMatch(/^invented: yes$/m);
  });

  test('each has its own hash and title', () => {
    const all = names.map((name) => scenario(name.replace('.yaml', '')));
    expect(new Set(all.map(({ hash }) => hash)).size).toBe(names.length);
    expect(new Set(all.map(({ title }) => title)).size).toBe(names.length);
  });

  test('each has a thrust-to-weight of 1.2 to 2.2 at the air density of its site and the bench voltage (under 2 on a sagging pack), and folds inside its reach', () => {
    for (const name of names) {
      const read = scenario(name.replace('.yaml', ''));
      // Standard atmosphere: 101325 (1 - 0.0065 h/288.15)^5.2559 Pa; density p/(287.053 T).
      const pressure = 101325 * (1 - (0.0065 * median(read, 'site.elevation')) / 288.15) ** 5.2559;
      const density = pressure / (287.053 * median(read, 'site.temperature'));
      const thrust = (4 * median(read, 'rotors.bench_thrust') * density) / median(read, 'rotors.bench_density');
      const ratio = thrust / (median(read, 'can.mass') * 9.80665);
      expect(ratio, name).toBeGreaterThan(1.2);
      expect(ratio, name).toBeLessThan(2.2);
      expect(median(read, 'ejection.height')).toBeGreaterThan(median(read, 'plan.throttle_up_height'));
    }
  });
});

describe('the variants of Burdock differ where they say and nowhere else', () => {
  test.each<[string, readonly string[]]>([
    ['burdock-picture', ['plan.cue']],
    ['burdock-automatic', ['plan.cue']],
    ['burdock-late-arms', ['arms.release', 'arms.release_delay']],
    [
      'burdock-parachute',
      [
        'can.mass',
        'parachute.diameter',
        'parachute.drag_coefficient',
        'parachute.deployment_time',
        'parachute.fill_constant',
        'parachute.added_mass',
        'parachute.fire_below',
        'parachute.fire_faster_than',
        'parachute.failure',
      ],
    ],
  ])('%s', (name, paths) => {
    expect(differences(scenario('burdock'), scenario(name))).toEqual(['title', 'about', ...paths]);
  });
});

test('Burdock carries the uncertainties that the design asks for', () => {
  const read = scenario('burdock');
  const unmeasured = read.inputs.flatMap(({ path, value }) =>
    value.form === 'uncertain' && value.kind === 'fixed but not measured' ? [path] : [],
  );
  expect(unmeasured).toEqual([
    'can.drag_factor',
    'can.slender_body_factor',
    'can.tumble_floor',
    'can.arm_drag_area',
    'can.blade_drag_area',
    'can.centre_of_mass_offset',
    'can.windmilling_factor',
    'can.wash_share',
    'rotors.thrust_factor',
    'rotors.own_thrust_factor',
    'rotors.zero_thrust_speed',
    'rotors.vortex_ring_depth',
    'rotors.ring_fluctuation',
    'rotors.ring_strouhal',
    'rotors.windmill_power',
    'rotors.dead',
    'arms.hinge_torque',
    'arms.friction',
    'arms.release_failure',
    'arms.stuck',
    'pilot.lapse',
    'pilot.call_out.bias',
    'pilot.call_out.flow_error',
    'link.outage_rate',
    'video.thermal_resistance',
    'video.limit',
  ]);
  expect(read.leftOut).toEqual(['criteria.touchdown_energy', 'stabiliser.arming_guard', 'parachute']);
});
