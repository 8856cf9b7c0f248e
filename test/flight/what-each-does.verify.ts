/**
 * What each effect of the braking does to the demo: the table "what each of these does" of sim/MODEL.md. The same flights are
 * flown with an effect off, as the demo has it, and at its bad end, the 5 or 95 % point of what is not known of it. Metres are
 * those by which the same flight is arrested lower than with the effect off, on the mean of the flights that are arrested in both.
 */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { figure, howMany, IN_FULL } from '../in-full.js';
import { named } from './bench.js';

/** The planned height, and about the lowest that keeps the limit. */
const HEIGHTS = [250, 190] as const;
const FLIGHTS = howMany(60, 2000);

interface Effect {
  readonly name: string;
  /** Burdock unless told. */
  readonly scenario?: string;
  readonly off: readonly string[];
  readonly bad: readonly string[];
}

const guessed = 'kind: fixed but not measured, source: guess';
const varies = 'kind: varies from flight to flight, source: guess';

const EFFECTS: readonly Effect[] = [
  { name: 'wash on the arms', off: ['can.wash_share=0'], bad: ['can.wash_share=0.675'] },
  {
    name: 'centre of mass off the axis, unequal rotors',
    off: ['can.centre_of_mass_offset=0 mm', 'rotors.own_thrust_factor=1'],
    bad: ['can.centre_of_mass_offset=2 mm', `rotors.own_thrust_factor={normal: {mean: 1, sd: 0.03}, ${varies}}`],
  },
  {
    name: 'fluctuation in the vortex ring',
    off: ['rotors.ring_fluctuation=0'],
    bad: ['rotors.ring_fluctuation=0.1925', 'rotors.ring_strouhal=0.0815'],
  },
  {
    name: 'motors take time to start',
    off: ['rotors.start_time=0 s'],
    bad: [`rotors.start_time={log-normal: {median: 0.483 s, spread: 0.3}, ${varies}}`],
  },
  { name: 'power of stalled blades', off: ['rotors.windmill_power=0.4'], bad: ['rotors.windmill_power=1.36'] },
  { name: 'vents in suction', off: ['pilot.call_out.flow_error=0'], bad: ['pilot.call_out.flow_error=0.447'] },
  {
    name: 'formula of the altimeter',
    off: ['pilot.call_out.formula=standard atmosphere'],
    bad: ['pilot.call_out.formula=temperature corrected'],
  },
  {
    name: 'arms open against the stream (late arms)',
    scenario: 'burdock-late-arms',
    off: ['arms.hinge_torque=3 N m', 'arms.friction=0.01'],
    bad: ['arms.hinge_torque=0.031 N m', 'arms.friction=0.385'],
  },
  { name: 'windmilling blades', off: ['can.windmilling_factor=1'], bad: ['can.windmilling_factor=0.555'] },
];

/** What the equations leave out, imitated by an input that costs about as much: the table of what is left out. */
const LEFT_OUT: readonly { readonly name: string; readonly like: readonly string[] }[] = [
  {
    name: 'wash on the can and on each other, 3 % of thrust',
    like: [`rotors.thrust_factor={normal: {mean: 0.97, sd: 0.03}, ${guessed}}`],
  },
  {
    name: 'rain or ice, 5 % of thrust',
    like: [`rotors.thrust_factor={normal: {mean: 0.95, sd: 0.03}, ${guessed}}`],
  },
  { name: 'a lag half as long again', like: [`rotors.motor_lag={uniform: {from: 52.5 ms, to: 82.5 ms}, ${varies}}`] },
  {
    name: 'moist air, 0.7 % lighter',
    like: ['site.pressure=873.4 hPa'],
  },
  {
    name: 'an aged pack, 3/10 more resistance',
    like: [`battery.resistance={log-normal: {median: 71.5 mohm, spread: 0.15}, ${varies}}`],
  },
  {
    name: 'arms and blades bent, 3 % between rotors',
    like: [`rotors.own_thrust_factor={normal: {mean: 1, sd: 0.036}, ${guessed}}`],
  },
  {
    name: 'drag of the open can a tenth less',
    like: [
      `can.arm_drag_area={normal: {mean: 11.7 cm^2, sd: 3.25 cm^2}, ${guessed}}`,
      `can.blade_drag_area={normal: {mean: 9 cm^2, sd: 2.5 cm^2}, ${guessed}}`,
    ],
  },
  {
    name: 'a tired pilot, reaction a quarter longer',
    like: [`pilot.reaction={log-normal: {median: 1.475 s, spread: 0.44}, ${varies}}`],
  },
];

function flown(overrides: readonly string[], scenario = 'burdock') {
  const read = readScenario(`configs/${scenario}.yaml`, overrides);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  const model = createFlightModel(read.value);
  const drawer = createDrawer(read.value, 'each');
  const arrests: number[] = [];
  const failures = HEIGHTS.map(() => 0);
  for (let id = 0; id < FLIGHTS; id += 1)
    model.fly(drawer.draw('explore', id), HEIGHTS, (k, record) => {
      const flight = named(record);
      if (k === 0) arrests.push(flight.arrest_height);
      if (flight.outcome !== 'soft') failures[k] += 1;
    });
  return { arrests, risks: failures.map((count) => (100 * count) / FLIGHTS) };
}

type Flights = ReturnType<typeof flown>;

/** Mean metres by which flights are arrested lower. */
function lower(without: Flights, one: Flights): number {
  const both = without.arrests.map((height, id) => height - one.arrests[id]).filter(Number.isFinite);
  return both.reduce((sum, metres) => sum + metres, 0) / both.length;
}

describe('what each effect of the braking does', () => {
  const asItIs = flown([]);

  test.each(EFFECTS)('$name', ({ name, scenario, off, bad }) => {
    const asIt = scenario === undefined ? asItIs : flown([], scenario);
    const [without, worst] = [flown(off, scenario), flown(bad, scenario)];
    figure(
      `${name}: metres as it is, at the bad end`,
      lower(without, asIt).toFixed(1),
      lower(without, worst).toFixed(1),
    );
    HEIGHTS.forEach((height, k) => {
      const risks = [without, asIt, worst].map(({ risks }) => risks[k].toFixed(2));
      figure(`  risk at ${height} m in 100: off, as it is, at the bad end`, ...risks);
    });
    expect(lower(without, worst)).toBeGreaterThan(0);
    if (IN_FULL) expect(worst.risks[1]).toBeGreaterThan(without.risks[1]);
  });
});

describe('what is left out', () => {
  const asItIs = flown([]);

  test.each(LEFT_OUT)('$name', ({ name, like }) => {
    const imitated = flown(like);
    figure(`${name}: metres`, lower(asItIs, imitated).toFixed(1));
    HEIGHTS.forEach((height, k) => {
      figure(
        `  risk at ${height} m in 100: as it is, with it`,
        ...[asItIs, imitated].map(({ risks }) => risks[k].toFixed(2)),
      );
    });
    expect(lower(asItIs, imitated)).toBeGreaterThan(0);
  });
});
