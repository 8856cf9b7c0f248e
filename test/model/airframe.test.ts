import { describe, expect, test } from 'vitest';
import {
  type Airframe,
  airLoad,
  cylinderInertia,
  endDragCoefficient,
  sideDragCoefficient,
  terminalSpeed,
} from '../../sim/model/airframe.js';
import { Slot } from '../../sim/model/scratch.js';
import { expectRelative, expectWithin } from './near.js';

const RHO = 1.225;
const DIAMETER = 0.066;
const LENGTH = 0.115;
const CD_SIDE = 0.66;
const CD_END = 0.85;
const END_AREA = (Math.PI * DIAMETER ** 2) / 4;

const can: Airframe = {
  diameter: DIAMETER,
  length: LENGTH,
  middle: 0,
  sideDrag: CD_SIDE * DIAMETER,
  endDrag: CD_END * END_AREA,
  slenderArea: 0,
  tumbleFloor: 0,
  armX: 0.08,
  armHeight: 0.1,
};

type Three = readonly [number, number, number];

function streamOf(air: Three, turn: Three = [0, 0, 0], open = 1): Float64Array {
  const w = new Float64Array(Slot.Size);
  w[Slot.Density] = RHO;
  w.set(air, Slot.AirX);
  w.set(turn, Slot.TurnX);
  w[Slot.Openness] = open;
  return w;
}

const loadIn = (w: Float64Array): number[] => [...w.subarray(Slot.ForceX, Slot.ForceX + 6)];

const NO_ARMS = new Float64Array(4);

/** Fx, Fy, Fz, Mx, My, Mz on the can. */
function loadOf(air: Three, turn: Three = [0, 0, 0], body: Partial<Airframe> = {}, open = 1): number[] {
  const w = streamOf(air, turn, open);
  airLoad(w, { ...can, ...body }, NO_ARMS, 0);
  return loadIn(w);
}

/** Velocity through the air at an angle to the axis, in the x-z plane. */
const at = (speed: number, angle: number): Three => [speed * Math.sin(angle), 0, speed * Math.cos(angle)];

describe("drag coefficients of a cylinder (Matthews, Aeronautical Engineer's Data Book, 2002, fig. 5.13, p. 95)", () => {
  test.each([
    [1, 0.63],
    [2, 0.68],
    [5, 0.74],
    [10, 0.82],
    [3.5, 0.71],
    [0.5, 0.63],
    [20, 0.82],
  ])('broadside, at length over diameter %d: %d', (slenderness, cd) => {
    expectWithin(sideDragCoefficient(slenderness), cd, 1e-12);
  });

  test.each([
    [1, 0.91],
    [2, 0.85],
    [4, 0.87],
    [7, 0.99],
    [5.5, 0.93],
    [0.5, 0.91],
    [9, 0.99],
  ])('end on, at length over diameter %d: %d', (slenderness, cd) => {
    expectWithin(endDragCoefficient(slenderness), cd, 1e-12);
  });
});

describe('cross-flow drag', () => {
  const q30 = 0.5 * RHO * 30 ** 2;

  test.each([0.2, 0.7, 1.2, 2, 2.9, -0.4])(
    'splits at %d rad into sin|sin| across and cos|cos| along the axis',
    (angle) => {
      const [fx, fy, fz] = loadOf(at(30, angle)) as [number, number, number];
      expectWithin(fx, -q30 * CD_SIDE * DIAMETER * LENGTH * Math.sin(angle) * Math.abs(Math.sin(angle)), 1e-12);
      expectWithin(fz, -q30 * CD_END * END_AREA * Math.cos(angle) * Math.abs(Math.cos(angle)), 1e-12);
      expect(fy + 0).toBe(0);
    },
  );

  test('so takes energy along the path as |sin|^3 and |cos|^3, and lets a tilted can glide by the difference', () => {
    const angle = 0.6;
    const air = at(30, angle);
    const [fx, , fz] = loadOf(air) as [number, number, number];
    const along = -(fx * air[0] + fz * air[2]) / 30;
    const sides = CD_SIDE * DIAMETER * LENGTH * Math.sin(angle) ** 3;
    expectRelative(along, q30 * (sides + CD_END * END_AREA * Math.cos(angle) ** 3), 1e-12);
    // Across the path, towards the side to which the leading end points.
    const glide = fx * Math.cos(angle) - fz * Math.sin(angle);
    expectRelative(
      glide,
      q30 *
        Math.sin(angle) *
        Math.cos(angle) *
        (CD_END * END_AREA * Math.cos(angle) - CD_SIDE * DIAMETER * LENGTH * Math.sin(angle)),
      1e-12,
    );
  });

  test('damps the turning in a stream by rho Cd D u L^3/12: 2.029e-4 N m s at 30 m/s (computed)', () => {
    const small = 1e-3;
    const about = (turn: Three) => loadOf([30, 0, 0], turn);
    expectRelative(RHO * CD_SIDE * DIAMETER * 30 * (LENGTH ** 3 / 12), 2.029e-4, 2e-4);
    expectRelative(-(about([0, small, 0])[4] as number) / small, 2.029e-4, 2e-4);
    // Turning about the stream itself moves the strips across it: half as strong.
    expectRelative(-(about([small, 0, 0])[3] as number) / small, 2.029e-4 / 2, 2e-4);
  });

  test('damps the turning without a stream by rho Cd D L^4 w^2/64, to 4.5 % with four points', () => {
    // Closed form of the integral of |s|^3; its kink at the middle costs the four-point rule this much.
    const w = 20;
    const exact = (RHO * CD_SIDE * DIAMETER * LENGTH ** 4 * w ** 2) / 64;
    expectRelative(-(loadOf([0, 0, 0], [w, 0, 0])[3] as number), exact, 0.045);
    expectRelative(-(loadOf([0, 0, 0], [0, w, 0])[4] as number), exact, 0.045);
  });

  test('acts at the middle of the can: above the centre of mass it turns the top back against the motion', () => {
    const up = 0.02;
    const load = loadOf([30, 0, 0], [0, 0, 0], { middle: up });
    expectRelative(load[4] as number, up * (load[0] as number), 1e-12);
  });

  test('is the same whichever way the can has turned about its axis', () => {
    const turned = (angle: number) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const body = { slenderArea: 0.65 * END_AREA, middle: 0.01 };
      return loadOf([20 * c, 20 * s, -15], [3 * c - 2 * s, 3 * s + 2 * c, 1], body);
    };
    const straight = turned(0);
    const other = turned(0.7);
    const size = (load: number[], k: number) => Math.hypot(load[k] as number, load[k + 1] as number);
    expectRelative(size(other, 0), size(straight, 0), 1e-12);
    expectRelative(size(other, 3), size(straight, 3), 1e-12);
    expectRelative(other[2] as number, straight[2] as number, 1e-12);
  });
});

describe('the slender-body term (Allen and Perkins 1951: q A sin 2a cos(a/2))', () => {
  const slender = (angle: number) => {
    const none = { sideDrag: 0, endDrag: 0, slenderArea: END_AREA };
    return loadOf(at(30, angle), [0, 0, 0], none);
  };

  test.each([0.1, 0.5, 1, 1.5])('has at %d rad that size, across the can, at the leading end', (a) => {
    const size = 0.5 * RHO * 30 ** 2 * END_AREA * Math.sin(2 * a) * Math.cos(a / 2);
    const [fx, , fz, , my] = slender(a) as [number, number, number, number, number];
    expectRelative(fx, -size, 1e-12); // against the motion across the can
    expect(fz + 0).toBe(0);
    expectRelative(my, (-size * LENGTH) / 2, 1e-12); // moving along +z, the leading end is the top
  });

  test('vanishes end on and broadside on', () => {
    expect(slender(0).map(Math.abs)).toEqual([0, 0, 0, 0, 0, 0]);
    for (const value of slender(Math.PI / 2)) expectWithin(value, 0, 1e-15);
  });

  test.each([0.3, 1.2, Math.PI - 0.3, Math.PI - 1.2])(
    'turns a bare can that moves at %d rad to its axis further from the stream',
    (angle) => {
      // A positive moment about y turns z towards x. The angle between axis and motion in x > 0 grows up to a right angle
      // when z turns away from x (below a right angle), or towards it (above).
      const moment = slender(angle)[4] as number;
      expect(Math.sign(moment)).toBe(angle < Math.PI / 2 ? -1 : 1);
    },
  );
});

describe('the driven tumble', () => {
  const floor = 1;
  const moment = (w: number, open: number) => loadOf([30, 0, 0], [0, w, 0], { tumbleFloor: floor }, open)[4] as number;

  test('feeds the tumble at the floor rate with what the damping takes', () => {
    expectWithin(moment(floor, 0), 0, 0.002 * 2.029e-4);
    expect(moment(floor / 2, 0)).toBeGreaterThan(0);
    expect(moment(2 * floor, 0)).toBeLessThan(0);
  });

  test('is there only while the arms are folded', () => {
    expectRelative(moment(floor, 1), -2.029e-4, 2e-3);
  });

  test('starts nothing by itself', () => {
    expectWithin(moment(0, 0), 0, 1e-15);
  });
});

describe('drag areas on arms', () => {
  const onArms = (air: Three, turn: Three, areas = [1e-3, 1e-3, 1e-3, 1e-3]) => {
    const w = streamOf(air, turn);
    airLoad(w, { ...can, sideDrag: 0, endDrag: 0 }, Float64Array.from(areas), 0);
    return { load: loadIn(w) };
  };

  test('pull against the motion and turn the top back: F = -rho S |u| u/2 at 100 mm', () => {
    const { load } = onArms([3, 0, -4], [0, 0, 0]);
    expectRelative(load[0] as number, -0.5 * RHO * 4e-3 * 5 * 3, 1e-12);
    expectRelative(load[2] as number, 0.5 * RHO * 4e-3 * 5 * 4, 1e-12);
    expectRelative(load[4] as number, 0.1 * (load[0] as number), 1e-12);
  });

  test('each meet their own stream: v = u + w x P', () => {
    const [turnX, turnY, turnZ] = [2, 1, 3];
    const corners = [
      [0.08, 0.08],
      [-0.08, 0.08],
      [-0.08, -0.08],
      [0.08, -0.08],
    ] as const;
    corners.forEach(([x, y], rotor) => {
      const areas = corners.map((_, i) => (i === rotor ? 1e-3 : 0));
      const { load } = onArms([1, -2, -10], [turnX, turnY, turnZ], areas);
      // (wx, wy, wz) x (x, y, 0.1), by hand.
      const u = [1 + turnY * 0.1 - turnZ * y, -2 + turnZ * x - turnX * 0.1, -10 + turnX * y - turnY * x] as const;
      const force = u.map((part) => -0.5 * RHO * 1e-3 * Math.hypot(...u) * part) as [number, number, number];
      const [fx, fy, fz] = force;
      const moment = [y * fz - 0.1 * fy, 0.1 * fx - x * fz, x * fy - y * fx];
      [...force, ...moment].forEach((value, k) => {
        expectWithin(load[k] as number, value, 1e-12);
      });
    });
  });

  const turns: readonly (readonly [Three])[] = [[[5, 0, 0]], [[0, 5, 0]], [[0, 0, 5]], [[3, -2, 4]]];
  test.each(turns)('take energy from a turning can: M . w < 0 at w = %j', (turn) => {
    const { load } = onArms([0, 0, 0], turn);
    const power = turn.reduce((sum, w, i) => sum + w * (load[3 + i] as number), 0);
    expect(power).toBeLessThan(0);
  });

  test('meet the wash of their rotors with a share: u + (0, 0, n v_h), forces at the rotor centre', () => {
    const share = 0.3;
    const w = streamOf([3, -1, -4], [0, 0, 0]);
    w[Slot.Wash2] = 15;
    airLoad(w, { ...can, sideDrag: 0, endDrag: 0 }, Float64Array.from([0, 1e-3, 0, 0]), share);
    const drag = (u: Three) => u.map((part) => -0.5 * RHO * 1e-3 * Math.hypot(...u) * part) as [number, number, number];
    const [dry, wet] = [drag([3, -1, -4]), drag([3, -1, 11])];
    const [fx, fy, fz] = dry.map((part, i) => (1 - share) * part + share * wet[i]) as [number, number, number];
    const moment = [0.08 * fz - 0.1 * fy, 0.1 * fx + 0.08 * fz, -0.08 * fy - 0.08 * fx];
    [fx, fy, fz, ...moment].forEach((value, k) => {
      expectWithin(loadIn(w)[k] as number, value, 1e-12);
    });
  });

  test('turn the can towards the side where an arm is missing its area', () => {
    // Falling (stream upwards) without arm 1 at (+, +): the other arms hold up the far side, so the top leans to (+, +).
    const { load } = onArms([0, 0, -20], [0, 0, 0], [0, 1e-3, 1e-3, 1e-3]);
    expect(load[3]).toBeLessThan(0); // about -x: towards +y
    expect(load[4]).toBeGreaterThan(0); // about +y: towards +x
  });
});

test('a solid cylinder of 0.5 kg, 66 x 115 mm has inertias 2.7225e-4 and 6.8717e-4 kg m2 (computed)', () => {
  const { axial, transverse } = cylinderInertia(0.5, 0.066, 0.115);
  expectRelative(axial, 2.7225e-4, 1e-6);
  expectRelative(transverse, 6.8717e-4, 5e-6);
});

test('the terminal speed balances weight and drag', () => {
  const v = terminalSpeed(0.5, 9.80665, RHO, 0.004);
  expectRelative(0.5 * RHO * 0.004 * v ** 2, 0.5 * 9.80665, 1e-12);
});

test('arms on their way count by the areas that they have then, whatever the share o of their inertia', () => {
  const areas = new Float64Array([1e-3, 2e-3, 3e-3, 4e-3]);
  const forceZ = (open: number) => {
    const w = streamOf([0, 0, -20], [0, 0, 0], open);
    airLoad(w, { ...can, endDrag: 0 }, areas, 0);
    return w[Slot.ForceZ];
  };
  expectRelative(forceZ(0.3), 0.5 * RHO * 1e-2 * 20 ** 2, 1e-12);
  expect(forceZ(1)).toBe(forceZ(0.3));
});
