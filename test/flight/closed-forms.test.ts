/** Closed forms of vertical motion, through the real equations of motion and integrator. Formulas computed by hand. */
import { describe, expect, test } from 'vitest';
import { flyOn } from '../../sim/flight/course.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectWithin } from '../model/near.js';
import { courseFrom } from './bench.js';
import { quietDraw } from './nominal-inputs.js';

const RHO = 1.225;

/** Only the drag along the axis acts, with terminal speed `vt`; none at all without. No wind. */
function plain(inputs: FlightInputs, vt = Number.POSITIVE_INFINITY): void {
  const { can, wind, arms } = inputs;
  wind.speed = 0;
  can.side_drag_coefficient = 0;
  can.slender_body_factor = 0;
  can.tumble_floor = 0;
  can.arm_drag_area = 0;
  can.blade_drag_area = 0;
  can.end_drag_coefficient = (2 * can.mass * GRAVITY) / (RHO * vt ** 2) / ((Math.PI * can.diameter ** 2) / 4);
  arms.release_delay = -100;
}

/** Thrust of `n` weights at every voltage: a stiff pack of the bench voltage, no vortex ring, no cut-off. */
function powered(inputs: FlightInputs, n: number): void {
  const { rotors, battery, can } = inputs;
  rotors.bench_density = RHO;
  rotors.bench_thrust = (n * can.mass * GRAVITY) / 4;
  rotors.vortex_ring_depth = 0;
  battery.cells = 1;
  battery.open_circuit = [
    [0, rotors.bench_voltage],
    [1, rotors.bench_voltage],
  ];
  battery.resistance = 1e-12;
  battery.cut_off_voltage = 0;
  inputs.pilot.approach_speed = 0; // arrested at rest
}

describe('a fall with constant drag', () => {
  test('from rest is v = vt tanh(gt/vt), h = vt^2/g ln cosh(gt/vt): 33.6546 m/s and 100.393 m after 5 s', () => {
    const course = courseFrom(
      quietDraw((inputs) => plain(inputs, 40)),
      { height: 500, density: RHO },
    );
    flyOn(course, 5);
    const { y } = course.s;
    expectWithin(-(y[State.UpSpeed] as number), 40 * Math.tanh((GRAVITY * 5) / 40), 1e-6);
    expectWithin(
      500 - (y[State.Height] as number),
      (40 ** 2 / GRAVITY) * Math.log(Math.cosh((GRAVITY * 5) / 40)),
      1e-6,
    );
    expectWithin(-(y[State.UpSpeed] as number), 33.6546, 5e-5);
    expectWithin(500 - (y[State.Height] as number), 100.393, 5e-4);
  });

  test('from 10 m/s has v^2 = vt^2 + (v0^2 - vt^2) exp(-2gh/vt^2): 28.0597 m/s after 50 m', () => {
    const course = courseFrom(
      quietDraw((inputs) => plain(inputs, 40)),
      { height: 50, velocity: [0, 0, -10], density: RHO },
    );
    expect(flyOn(course, 60)).toBe('ground');
    expectWithin(
      -(course.s.y[State.UpSpeed] as number),
      Math.sqrt(1600 - 1500 * Math.exp((-2 * GRAVITY * 50) / 1600)),
      2e-6,
    );
    expectWithin(-(course.s.y[State.UpSpeed] as number), 28.0597, 5e-5);
  });

  test.each([1, 0.25])(
    'reaches the ground when acosh(exp(g h/vt^2)) says, located inside the step to 1e-7 s (steps x %d)',
    (stepScale) => {
      for (const height of [100, 100.3, 101.7]) {
        const course = courseFrom(
          quietDraw((inputs) => plain(inputs, 40)),
          { height, density: RHO, stepScale },
        );
        expect(flyOn(course, 60)).toBe('ground');
        expectWithin(course.s.time, (40 / GRAVITY) * Math.acosh(Math.exp((GRAVITY * height) / 1600)), 1e-7);
        expectWithin(course.s.y[State.Height] as number, 0, 1e-5);
      }
    },
  );
});

describe('a powered stop with constant thrust of n weights', () => {
  // h = vt^2/(2g) ln(1 + v0^2/((n-1) vt^2)),  t = vt/(g sqrt(n-1)) atan(v0/(vt sqrt(n-1))).
  // Calm braking goes by the midpoint rule: a millimetre at the program's steps, a four-hundredth of it at a twentieth of them.
  test.each([
    { n: 2, v0: 40, height: 56.545, time: 3.2035, stepScale: 1, error: 1e-3 },
    { n: 1.5, v0: 20, height: 33.0767, time: 3.5503, stepScale: 1, error: 1e-3 },
    { n: 2, v0: 40, height: 56.545, time: 3.2035, stepScale: 0.05, error: 2e-6 },
    { n: 1.5, v0: 20, height: 33.0767, time: 3.5503, stepScale: 0.05, error: 2e-6 },
  ])('of n = $n from $v0 m/s takes $height m and $time s (steps x $stepScale)', (asked) => {
    const { n, v0, height, time, stepScale, error } = asked;
    const draw = quietDraw((inputs) => {
      plain(inputs, 40);
      powered(inputs, n);
    });
    const begin = { height: 500, velocity: [0, 0, -v0], thrust: [1, 1, 1, 1], density: RHO, stepScale } as const;
    const course = courseFrom(draw, begin);
    flyOn(course, 4);
    const { arrestHeight, arrestTime } = course.journal;
    expectWithin(500 - arrestHeight, ((40 ** 2 / GRAVITY) * Math.log(1 + v0 ** 2 / ((n - 1) * 40 ** 2))) / 2, error);
    expectWithin(
      arrestTime,
      (40 / (GRAVITY * Math.sqrt(n - 1))) * Math.atan(v0 / (40 * Math.sqrt(n - 1))),
      0.2 * error,
    );
    expectWithin(500 - arrestHeight, height, 5e-4 + error);
    expectWithin(arrestTime, time, 5e-5 + 0.2 * error);
  });

  test.each([
    [1, 1e-4],
    [0.05, 5e-6],
  ])(
    'behind a motor lag falls on as v0 + gt - ng (t - tau (1 - exp(-t/tau))): 12.15459 m/s after 1 s (steps x %d)',
    (stepScale, error) => {
      const draw = quietDraw((inputs) => {
        plain(inputs);
        powered(inputs, 2);
        inputs.rotors.motor_lag = 0.1;
      });
      const begin = { height: 500, velocity: [0, 0, -20], thrust: [0, 0, 0, 0], density: RHO, stepScale } as const;
      const course = courseFrom(draw, begin);
      flyOn(course, 1);
      expectWithin(-(course.s.y[State.UpSpeed] as number), 12.15459, error);
    },
  );

  test('without drag or lag is uniform acceleration: v0^2/(2 (n-1) g)', () => {
    const draw = quietDraw((inputs) => {
      plain(inputs);
      powered(inputs, 3);
    });
    const course = courseFrom(draw, { height: 500, velocity: [0, 0, -30], thrust: [1, 1, 1, 1], density: RHO });
    flyOn(course, 2);
    expectWithin(500 - course.journal.arrestHeight, 900 / (4 * GRAVITY), 1e-6);
  });
});

test('an ejected can falls through real air as through that of its mean density, to the share that density varies', () => {
  // 40 m of height change density by 0.38 %, terminal speed by half of that.
  const at = (density: number | undefined) => {
    const course = courseFrom(
      quietDraw((inputs) => plain(inputs, 20)),
      {
        height: 540,
        velocity: [0, 0, -20],
        ...(density === undefined ? {} : { density }),
      },
    );
    flyOn(course, 2);
    return { course, speed: -(course.s.y[State.UpSpeed] as number) };
  };
  const real = at(undefined);
  const constant = at(real.course.craft.density.nodes[1] as number); // 400 m above ground
  expect(Math.abs(real.speed / constant.speed - 1)).toBeGreaterThan(1e-3);
  expect(Math.abs(real.speed / constant.speed - 1)).toBeLessThan(1e-2);
});
