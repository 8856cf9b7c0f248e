/** Turning: closed forms and laws, through the real equations of motion and integrator. */
import { describe, expect, test } from 'vitest';
import { flyOn } from '../../sim/flight/course.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { beginStep, step } from '../../sim/flight/integrator.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { FALL_STATES, State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom, toInertial, upInBody } from './bench.js';
import { quietDraw } from './nominal-inputs.js';

/** No air force at all, arms folded for good: only gravity. Inertias as in the closed form. */
function free(inputs: FlightInputs): void {
  const { can, arms } = inputs;
  can.side_drag_coefficient = 0;
  can.end_drag_coefficient = 0;
  can.slender_body_factor = 0;
  can.tumble_floor = 0;
  can.arm_drag_area = 0;
  can.blade_drag_area = 0;
  can.folded_axial_inertia = 0.396192e-3;
  can.folded_transverse_inertia = 1e-3;
  arms.release_delay = 1e9;
}

type Three = readonly [number, number, number];
const turningOf = ({ s }: Course): Three => [
  s.y[State.TurnX] as number,
  s.y[State.TurnY] as number,
  s.y[State.TurnZ] as number,
];
const size = (v: Three) => Math.hypot(...v);
/** Mean of sin^2 of the arms' angles: the share of their inertia. */
const openingOf = ({ s }: Pick<Course, 's'>) =>
  [0, 1, 2, 3].reduce((sum, i) => sum + Math.sin(s.y[State.Arm1 + i] as number) ** 2 / 4, 0);

/** Ia/It = 0.396192, spin 10 rad/s about the axis, which stands 60 deg from the angular momentum. */
const SPIN = 10;
const ACROSS = 0.396192 * SPIN * Math.tan(Math.PI / 3);
const PRECESSION = (0.396192 * SPIN) / Math.cos(Math.PI / 3);

describe('torque-free flight of the axisymmetric can', () => {
  const course = courseFrom(quietDraw(free), {
    height: 60_000,
    turning: [ACROSS, 0, SPIN],
    density: 1.2,
    stepScale: 0.1,
  });
  const inertia: Three = [1e-3, 1e-3, 0.396192e-3];
  const momentum = () => turningOf(course).map((w, i) => w * (inertia[i] as number)) as unknown as Three;
  const energy = () => turningOf(course).reduce((sum, w, i) => sum + 0.5 * w * w * (inertia[i] as number), 0);
  const before = { energy: energy(), momentum: toInertial(course.s.y, momentum()) };
  const axis = toInertial(course.s.y, [0, 0, 1]);
  flyOn(course, 1);
  const early = { turning: turningOf(course), axis: toInertial(course.s.y, [0, 0, 1]) };
  flyOn(course, 100);
  const after = { energy: energy(), momentum: toInertial(course.s.y, momentum()) };

  test('turns the rate in the body at (Ia - It)/It w_a = -6.03808 rad/s', () => {
    const rate = ((0.396192 - 1) / 1) * SPIN;
    expectWithin(rate, -6.03808, 1e-6);
    // dwx/dt = -rate wy, dwy/dt = rate wx (Euler's equations).
    expectWithin(early.turning[0], ACROSS * Math.cos(rate), 1e-7);
    expectWithin(early.turning[1], ACROSS * Math.sin(rate), 1e-7);
    expectWithin(early.turning[2], SPIN, 1e-9);
  });

  test('carries its axis around the angular momentum at H/It = 7.92384 rad/s', () => {
    expectWithin(PRECESSION, 7.92384, 1e-6);
    // Rodrigues: the axis of one second ago, turned about H by that angle.
    const h = before.momentum.map((part) => part / size(before.momentum)) as unknown as Three;
    const along = axis.reduce((sum, part, i) => sum + part * (h[i] as number), 0);
    const [c, s] = [Math.cos(PRECESSION), Math.sin(PRECESSION)];
    const cross: Three = [
      h[1] * axis[2] - h[2] * axis[1],
      h[2] * axis[0] - h[0] * axis[2],
      h[0] * axis[1] - h[1] * axis[0],
    ];
    early.axis.forEach((part, i) => {
      const turned = (axis[i] as number) * c + (cross[i] as number) * s + (h[i] as number) * along * (1 - c);
      expectWithin(part, turned, 1e-7);
    });
  });

  test('keeps energy and angular momentum, in size and direction, over 100 s', () => {
    expectRelative(after.energy, before.energy, 1e-9);
    expectRelative(size(after.momentum), size(before.momentum), 1e-9);
    after.momentum.forEach((part, i) => {
      expectWithin(part / size(before.momentum), (before.momentum[i] as number) / size(before.momentum), 1e-7);
    });
  });

  test('keeps the energy of its path: v^2/2 + g z', () => {
    const { y } = course.s;
    expectRelative(
      0.5 * (y[State.UpSpeed] as number) ** 2 + GRAVITY * (y[State.Height] as number),
      GRAVITY * 60_000,
      1e-9,
    );
  });
});

test('the estimate of "up" follows the true one through the turning: the gyro alone is enough without errors', () => {
  const course = courseFrom(quietDraw(free), { height: 3000, turning: [3, -4, 5], density: 1.2, stepScale: 0.1 });
  flyOn(course, 20);
  const up = upInBody(course.s.y);
  up.forEach((part, i) => {
    expectWithin(course.s.y[State.EstimateX + i] as number, part, 1e-6);
  });
});

test('the integrator turns a body of inertias 1, 2, 3 over every 20.75461 s (Landau and Lifshitz, Mechanics, par. 37)', () => {
  // The can is symmetric, so its own equations never do this: Euler's equations for any body, through the real step.
  const inertia = [1, 2, 3] as const;
  const course = courseFrom(quietDraw(free), { height: 100 });
  const { craft, s } = course;
  s.y.set([0.01, 1, 0], State.TurnX);
  const euler = (_: unknown, __: unknown, y: Float64Array, dy: Float64Array): void => {
    const [a, b, c] = inertia;
    dy.fill(0);
    dy[State.TurnX] = ((b - c) * (y[State.TurnY] as number) * (y[State.TurnZ] as number)) / a;
    dy[State.TurnY] = ((c - a) * (y[State.TurnZ] as number) * (y[State.TurnX] as number)) / b;
    dy[State.TurnZ] = ((a - b) * (y[State.TurnX] as number) * (y[State.TurnY] as number)) / c;
  };
  const flips: number[] = [];
  const h = 0.01;
  for (let k = 1; k <= 7000; k += 1) {
    const before = s.y[State.TurnY] as number;
    beginStep(euler, craft, s, FALL_STATES);
    step(euler, craft, s, FALL_STATES, h);
    const now = s.y[State.TurnY] as number;
    if (before > 0 !== now > 0) flips.push(h * (k - 1) + (h * before) / (before - now));
  }
  expect(flips.length).toBe(3);
  expectWithin((flips[1] as number) - (flips[0] as number), 20.75461, 1e-5);
  expectWithin((flips[2] as number) - (flips[1] as number), 20.75461, 1e-5);
});

describe('opening arms', () => {
  // Ia 5.9e-4 -> 1.39e-3, It 2.45e-3 -> 3.2e-3 kg m2: spin falls to 42 %, tumble to 76 % (angular momentum kept; computed).
  const opening = (turning: Three) => {
    const draw = quietDraw((inputs) => {
      free(inputs);
      inputs.can.folded_axial_inertia = 5.9e-4;
      inputs.can.folded_transverse_inertia = 2.45e-3;
      inputs.arms.release_delay = 0.3;
    });
    return courseFrom(draw, { height: 1000, turning, density: 1.2, stepScale: 0.3 });
  };

  test('slow a spin to 42 % and a tumble to 76 %', () => {
    const spin = opening([0, 0, 10]);
    flyOn(spin, 1);
    expectWithin(turningOf(spin)[2] / 10, 5.9 / 13.9, 1e-6);
    expectWithin(turningOf(spin)[2] / 10, 0.42, 0.005);
    const tumble = opening([6, 8, 0]);
    flyOn(tumble, 1);
    expectWithin(size(turningOf(tumble)) / 10, 2.45 / 3.2, 1e-6);
    expectWithin(size(turningOf(tumble)) / 10, 0.76, 0.006);
  });

  test('keep the angular momentum on the way, in size and direction', () => {
    const course = opening([3, 5, 8]);
    const momentum = () => {
      const open = openingOf(course);
      const [x, y, z] = turningOf(course);
      const across = 2.45e-3 + open * 0.75e-3;
      return toInertial(course.s.y, [across * x, across * y, (5.9e-4 + open * 8e-4) * z]);
    };
    const before = momentum();
    for (const time of [0.2, 0.4, 0.5, 0.61, 0.8]) {
      flyOn(course, time);
      momentum().forEach((part, i) => {
        expectWithin(part / size(before), (before[i] as number) / size(before), 2e-5);
      });
    }
  });
});

describe('energy', () => {
  const total = ({ craft, s }: Course) => {
    const { y } = s;
    const open = openingOf({ s });
    const across = craft.foldedTransverse + open * craft.addedTransverse;
    const axial = craft.foldedAxial + open * craft.addedAxial;
    const speed2 =
      (y[State.EastSpeed] as number) ** 2 + (y[State.NorthSpeed] as number) ** 2 + (y[State.UpSpeed] as number) ** 2;
    const turning =
      across * ((y[State.TurnX] as number) ** 2 + (y[State.TurnY] as number) ** 2) +
      axial * (y[State.TurnZ] as number) ** 2;
    return 0.5 * craft.mass * speed2 + 0.5 * turning + craft.mass * GRAVITY * (y[State.Height] as number);
  };

  test.each([
    ['without the slender-body term', 0],
    ['with it', 1],
  ])('only falls in still air with the motors off, folded, opening and open, %s', (_, factor) => {
    const draw = quietDraw((inputs) => {
      inputs.wind.speed = 0;
      inputs.can.tumble_floor = 0;
      inputs.can.slender_body_factor = factor;
    });
    for (const turning of [
      [0, -7, 0],
      [3, 2, 9],
      [15, -20, 5],
    ] as const) {
      const course = courseFrom(draw, { height: 700, velocity: [8, -5, 2], attitude: [0.5, 0.5, -0.5, 0.5], turning });
      let last = total(course);
      let rises = 0;
      course.observer = () => {
        const now = total(course);
        if (now > last * (1 + 1e-14)) rises += 1; // a step of one rounding may end at an event
        last = now;
      };
      const begin = last;
      expect(flyOn(course, 100)).toBe('ground');
      expect(rises).toBe(0);
      expect(last).toBeLessThan(0.2 * begin);
    }
  });
});
