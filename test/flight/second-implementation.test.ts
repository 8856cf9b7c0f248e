/**
 * The descent against a second implementation: equations written from sim/MODEL.md alone (second-equations.ts) and
 * integrated by an adaptive extrapolation method from a package, with its own search for events.
 *
 * What is left between the two at ordinary steps: calm flight under thrust goes by steps of order two, and the induced and
 * zero-thrust speeds are held over a step (a few centimetres of stop in a rough flight); with steps twenty times finer
 * that is gone. Then remain the mean wind, linear between nodes 0.1 s apart (1.2 mm/s of drift near the ground), and
 * density read from a parabola.
 */
import { describe, expect, test } from 'vitest';
import { nominalDraw } from '../../sim/draws/drawer.js';
import { createFlightModel } from '../../sim/flight/model.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectWithin } from '../model/near.js';
import { type Flown, flyAt, named, scenarioNamed } from './bench.js';
import { HARDER, nominalInputs, quietDraw } from './nominal-inputs.js';
import { manyStrips } from './second-equations.js';
import { flySecond, type SecondFlight } from './second-implementation.js';

const scenario = scenarioNamed('burdock');
const DEGREE = Math.PI / 180;

/** As MODEL.md says: on its side, top to the east, tumbling end over end about the horizontal axis -y of the body. */
const startOf = ({ ejection }: FlightInputs) =>
  ({ attitude: [Math.SQRT1_2, 0, Math.SQRT1_2, 0], rate: [0, -ejection.tumble_rate, 0] }) as const;

interface Tolerance {
  /** Of the order and of later events, s. */
  readonly order: number;
  readonly time: number;
  /** Of the touchdown, s. */
  readonly touchdown: number;
  /** Of the height of arrest, and of the place of touchdown, m. */
  readonly height: number;
  readonly place: number;
  /** Of the vertical touchdown speed, relative; of the horizontal one, m/s. */
  readonly speed: number;
  readonly drift: number;
  /** Of the share of the capacity left. */
  readonly energy: number;
}

function expectSame(flown: Flown, second: SecondFlight, tolerance: Tolerance): void {
  expectWithin(flown.order_time, second.orderTime, tolerance.order);
  expectWithin(flown.order_height, second.orderHeight, tolerance.order * 30);
  expectWithin(flown.running_time, second.runningTime, tolerance.order);
  expectWithin(flown.upright_time, second.uprightTime, tolerance.time);
  expectWithin(flown.arrest_time, second.arrestTime, tolerance.time);
  expectWithin(flown.arrest_height, second.arrestHeight, tolerance.height);
  expectWithin(flown.time, second.time, tolerance.touchdown);
  expectWithin(flown.vertical_speed / second.verticalSpeed, 1, tolerance.speed);
  expectWithin(flown.horizontal_speed, second.horizontalSpeed, tolerance.drift);
  expectWithin(Math.hypot(flown.east - second.east, flown.north - second.north), 0, tolerance.place);
  expectWithin(flown.energy_left, second.energyLeft, tolerance.energy);
  expect(flown.outcome).toBe('soft');
}

const ORDINARY: Tolerance = {
  order: 1e-4,
  time: 1e-2,
  touchdown: 0.04,
  height: 0.1,
  place: 0.5,
  // Of order two in the step: 3.0, 0.65 and 0.17 mm/s of 1.4655 m/s at the steps, a half and a fifth of them.
  speed: 2.2e-3,
  // Within 2.7e-3 at eight planned heights of 260 to 295 m after a tumble of 2500 deg/s, and 1.2e-3 there with fine steps.
  drift: 3e-3,
  energy: 3e-4,
};
const FINE: Tolerance = {
  order: 1e-4,
  time: 5e-4,
  touchdown: 2.5e-3,
  height: 0.02,
  place: 0.02,
  speed: 1e-4,
  drift: 1.5e-3,
  energy: 1e-4,
};
const FINE_STEPS = 0.05;

/** Ejected lower, ordered while it still swings after a tumble, with every error that the document knows. */
function rough(inputs: FlightInputs): void {
  inputs.ejection.height = 330;
  inputs.ejection.horizontal_speed = [9, -6];
  inputs.ejection.vertical_speed = 3;
  inputs.can.drag_factor = 1.08;
  inputs.can.slender_body_factor = 0.9;
  inputs.can.middle_above_centre_of_mass = 0.01;
  inputs.can.centre_of_mass_offset = [0.001, -0.0008];
  inputs.can.wash_share = 0.6;
  inputs.can.windmilling_factor = 0.6;
  inputs.rotors.thrust_measured = 'in the can';
  inputs.rotors.own_thrust_factor = [0.99, 1.01, 1.02, 0.98];
  inputs.rotors.windmill_power = 1.3;
  inputs.rotors.own_start_factor = [1.1, 0.95, 0.9, 1.05];
  inputs.rotors.vortex_ring_depth = 0.4;
  inputs.stabiliser.gyro_scale_error = 0.02;
  inputs.stabiliser.gyro_bias = [0.5 * DEGREE, -0.3 * DEGREE, 0.4 * DEGREE];
  inputs.pilot.ground_speed_error = [0.4, -0.3];
  inputs.pilot.call_out.bias = -5;
  // The flow's part of the reading is taken straight between nodes 0.1 s apart, which in a tumble is worth 0.1 ms of the order.
  inputs.pilot.call_out.flow_error = 0;
  inputs.wind.speed = 6;
  inputs.site.pressure = 87_000;
}

const CASES: readonly (readonly [string, number, (inputs: FlightInputs) => void])[] = [
  ['the nominal descent', 250, () => {}],
  ['one ordered soon after the arms opened, off the medians', 290, rough],
  [
    'one that tumbled beyond the gyro, off the medians',
    290,
    (inputs) => {
      rough(inputs);
      inputs.ejection.tumble_rate = 2500 * DEGREE;
    },
  ],
  [
    'one with a motor lag of 10 ms',
    250,
    (inputs) => {
      inputs.rotors.motor_lag = 0.01;
    },
  ],
];

describe.each(CASES)('%s', (_, height, change) => {
  const draw = quietDraw(change);
  const second = flySecond(draw.inputs, startOf(draw.inputs), height, { tolerance: 1e-8 });

  test('comes down as in the second implementation', () => {
    expectSame(flyAt(createFlightModel(scenario), draw, height), second, ORDINARY);
  });

  test('agrees more closely with finer steps', () => {
    expectSame(flyAt(createFlightModel(scenario, { stepScale: FINE_STEPS }), draw, height), second, FINE);
  });
});

describe('the nominal descent', () => {
  const draw = quietDraw();
  const second = flySecond(draw.inputs, startOf(draw.inputs), 250, { tolerance: 1e-8 });

  test('agrees in touchdown speed, time and stopping height to 0.22, 0.03 and 0.1 % at ordinary steps', () => {
    const flown = flyAt(createFlightModel(scenario), draw, 250);
    expectWithin(flown.vertical_speed / second.verticalSpeed, 1, 2.2e-3);
    // Order two: with half of the steps a quarter of the difference is left.
    const half = flyAt(createFlightModel(scenario, { stepScale: 0.5 }), draw, 250);
    const left = (one: Flown) => one.vertical_speed - second.verticalSpeed;
    expectWithin(left(half) / left(flown), 0.25, 0.1);
    // The long steps of the approach, 0.1 s, follow the leap at the take-over 16 ms late; half of them are short ones.
    expectWithin(flown.time / second.time, 1, 3e-4);
    expectWithin(half.time / second.time, 1, 2e-5);
    const stop = (orderHeight: number, arrestHeight: number) => orderHeight - arrestHeight;
    const stops = [
      stop(flown.order_height, flown.arrest_height),
      stop(second.orderHeight, second.arrestHeight),
    ] as const;
    expectWithin(stops[0] / stops[1], 1, 1e-3);
  });

  test('is solved by the second implementation itself to a ten-thousandth', () => {
    const coarser = flySecond(draw.inputs, startOf(draw.inputs), 250, { tolerance: 1e-6 });
    expectWithin(coarser.verticalSpeed / second.verticalSpeed, 1, 1e-4);
    expectWithin(coarser.arrestHeight, second.arrestHeight, 1e-3);
  });

  test('does not hang on four strips along the can: with a hundred it moves by under a ten-thousandth', () => {
    const strips = flySecond(draw.inputs, startOf(draw.inputs), 250, { tolerance: 1e-6, strips: manyStrips(100) });
    expectWithin(strips.verticalSpeed / second.verticalSpeed, 1, 1e-4);
    expectWithin(strips.arrestHeight, second.arrestHeight, 0.01);
  });
});

describe('the descent under a parachute', () => {
  const draw = quietDraw((inputs) => {
    inputs.parachute = {
      diameter: 0.9,
      drag_coefficient: 0.75,
      deployment_time: 0.35,
      fill_constant: 8,
      added_mass: 0.6,
      fire_below: 60,
      fire_faster_than: 12,
      failure: false,
    };
  });
  const second = flySecond(draw.inputs, startOf(draw.inputs), 250, { tolerance: 1e-8 });
  const firedOf = (stepScale: number) => {
    const { record, events } = createFlightModel(scenario, { stepScale }).trace(draw, 5);
    return {
      fired: events.find((event) => event.name === 'parachute fired')?.time ?? Number.NaN,
      flown: named(record),
    };
  };

  test.each([
    [1, 5e-3, 3e-4],
    [FINE_STEPS, 2e-3, 3e-4],
  ])('is that of the second implementation, at %d of the steps', (stepScale, time, speed) => {
    const { fired, flown } = firedOf(stepScale);
    expectWithin(fired, second.firedTime, 1e-9);
    expectWithin(flown.time, second.time, time);
    expectWithin(flown.vertical_speed / second.verticalSpeed, 1, speed);
    // Just above the ground the can drifts with the mean wind, which is linear over the last half metre of the fall.
    expectWithin(flown.horizontal_speed, second.horizontalSpeed, 8e-3);
    expect(flown.canopy).toBe(1);
  });
});

/** Not in the flight: words and criteria; and what quietDraw holds still by its noise. The video sender stays cool. */
const APART = ['.about', '.criteria.recovery_circle', '.site.keep_out', '.link.outage_rate', '.video'];
/** Normal distributions cut at zero have medians this much above their means. */
const CUT = 2e-5;

test('the nominal inputs of these tests are the medians of configs/burdock.yaml, but for a harder braking', () => {
  const differences: string[] = [];
  const compare = (path: string, actual: unknown, expected: unknown): void => {
    if (APART.includes(path)) return;
    const same =
      typeof actual === 'number' && typeof expected === 'number'
        ? Math.abs(actual - expected) <= CUT * Math.abs(expected)
        : actual === expected;
    if (isRecord(actual) && isRecord(expected))
      for (const key of Object.keys({ ...actual, ...expected })) compare(`${path}.${key}`, actual[key], expected[key]);
    else if (!same) differences.push(`${path}: ${actual} against ${expected}`);
  };
  compare('', nominalDraw(scenarioNamed('burdock', ...HARDER)).inputs, nominalInputs());
  expect(differences).toEqual([]);
});

function isRecord(value: unknown): value is Record<string, unknown> {
  return value !== null && typeof value === 'object';
}
