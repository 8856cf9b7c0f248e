import { describe, expect, test } from 'vitest';
import { type Homing, wantedDescent, wantedLift, wantedTilt, yawAllowance } from '../../sim/model/approach.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { Slot } from '../../sim/model/scratch.js';
import { expectWithin } from './near.js';

const DEGREE = Math.PI / 180;

describe('the descent rate aimed at', () => {
  test('is the approach speed above the flare height and the touchdown speed below half of it, linear between', () => {
    const at = (z: number) => wantedDescent(z, 4, 1.2, 4);
    expect([50, 4, 2, 0].map(at)).toEqual([4, 4, 1.2, 1.2]);
    expectWithin(at(3), 2.6, 1e-12);
  });

  test('stays the approach speed without a flare', () => {
    expect(wantedDescent(0.5, 4, 1.2, 0)).toBe(4);
  });
});

describe('the hand on the throttle', () => {
  test('asks for lift in proportion to the rate error, within 5 m/s2', () => {
    expectWithin(wantedLift(1, 0.25, 0), 2, 1e-12);
    expectWithin(wantedLift(-1, 0.25, 0.3), -1.7, 1e-12);
    expect([wantedLift(30, 0.25, 0), wantedLift(-30, 0.25, 0)]).toEqual([5, -5]);
  });

  test('is gentler when slow: gain times response time at most a half', () => {
    expectWithin(wantedLift(1, 1, 0), 0.5, 1e-12);
  });
});

describe('the hand on the tilt', () => {
  const homing: Homing = {
    groundSpeedLimit: 6,
    largestTangent: Math.tan(15 * DEGREE),
    flareHeight: 4,
    speedErrorEast: 0.5,
    speedErrorNorth: -0.2,
  };
  const tilt = (
    x: number,
    y: number,
    z: number,
    vx: number,
    vy: number,
    changes: Partial<Homing> = {},
    allowed = 1,
  ) => {
    const w = new Float64Array(Slot.Size);
    wantedTilt(w, { ...homing, ...changes }, Float64Array.of(x, y, z, vx, vy, 0), allowed);
    return [w[Slot.TiltEast], w[Slot.TiltNorth]] as [number, number];
  };

  test('leans towards the landing point', () => {
    const [east, north] = tilt(3, -2, 100, 0, 0);
    expectWithin(east, (-0.3 * 3) / GRAVITY, 1e-12);
    expectWithin(north, (0.3 * 2) / GRAVITY, 1e-12);
  });

  test('leans only as far as the yaw rate allows', () => {
    const [east] = tilt(3, -2, 100, 0, 0, {}, 0.25);
    expectWithin(east, (0.25 * -0.3 * 3) / GRAVITY, 1e-12);
  });

  test('leans against the ground speed', () => {
    expectWithin(tilt(0, 0, 100, 1.5, 0)[0], -1.5 / GRAVITY, 1e-12);
  });

  test('flies back no faster than the ground speed limit, tilted no more than the tilt limit', () => {
    // At the limit towards the point, nothing more is asked for.
    expectWithin(Math.hypot(...tilt(300, 400, 100, -3.6, -4.8)), 0, 1e-12);
    expectWithin(Math.hypot(...tilt(300, 400, 100, 5, 5)), Math.tan(15 * DEGREE), 1e-12);
  });

  test('nulls the ground speed below the flare height, but for the error, and blends on the way', () => {
    expect(tilt(20, 20, 2, 0.5, -0.2).map(Math.abs)).toEqual([0, 0]);
    const [above] = tilt(3, 0, 8, 0, 0);
    const [below] = tilt(3, 0, 4, 0, 0);
    expectWithin(tilt(3, 0, 6, 0, 0)[0], (above + below) / 2, 1e-12);
  });

  test('gives up flying back between 80 and 90 deg/s of yaw', () => {
    expect([0, 79, -79].map((r) => yawAllowance(r * DEGREE))).toEqual([1, 1, 1]);
    expect([91, -400].map((r) => yawAllowance(r * DEGREE))).toEqual([0, 0]);
    expectWithin(yawAllowance(85 * DEGREE), 0.5, 1e-9);
  });
});
