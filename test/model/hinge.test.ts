import { describe, expect, test } from 'vitest';
import { hingeByBench, hingeLever, shareTo, shareToRest, swingTime } from '../../sim/model/hinge.js';
import { expectRelative, expectWithin } from './near.js';

/** A rod of 6 g with a motor of 12 g, 85 mm long, about its end: m l^2/3 + M l^2, by hand. */
const INERTIA = (0.006 * 0.085 ** 2) / 3 + 0.012 * 0.085 ** 2;

describe('a constant torque', () => {
  test('opens an arm in sqrt(pi I/M): .102919 s for 1.0115e-4 kg m2 and .03 N m (computed)', () => {
    expectRelative(INERTIA, 1.0115e-4, 1e-9);
    expectWithin(swingTime(INERTIA, 0.03), 0.102919, 5e-7);
    // Uniform acceleration M/I through pi/2.
    expectWithin(0.5 * (0.03 / INERTIA) * swingTime(INERTIA, 0.03) ** 2, Math.PI / 2, 1e-12);
  });
});

describe('the bench', () => {
  test.each([
    ['slower than the spring: something lets go late', 0.4],
    ['as fast as the spring', 0.102919],
    ['faster: the arm is lighter', 0.05],
  ])('%s: catch and swing make the time on the bench', (_, bench) => {
    const { inertia, catchTime } = hingeByBench(INERTIA, 0.03, bench);
    expectWithin(catchTime + swingTime(inertia, 0.03), bench, 1e-12);
    expect(catchTime).toBeGreaterThanOrEqual(0);
    expect(inertia).toBeLessThanOrEqual(INERTIA);
    expect(bench > 0.11).toBe(inertia === INERTIA && catchTime > 0);
  });

  test('says an inertia of M t^2/pi where the spring is too slow', () => {
    expectRelative(hingeByBench(INERTIA, 0.03, 0.05).inertia, (0.03 * 0.05 ** 2) / Math.PI, 1e-12);
  });
});

test('the hinge is on the wall of the can, and an arm is 10 mm long at least', () => {
  expectWithin(hingeLever(0.066, 0.11), 0.077, 1e-12);
  expect(hingeLever(0.2, 0.08)).toBe(0.01);
});

describe('inside a step', () => {
  // a = 1.2 + f - f^3/5 over the step: a cubic is met exactly.
  const [a0, v0, a1, v1] = [1.2, 1, 2, 0.4];
  test('an arm comes to its end where the cubic does', () => {
    const f = shareTo(Math.PI / 2, 1, a0, v0, a1, v1);
    expectWithin(1.2 + f - f ** 3 / 5, Math.PI / 2, 1e-9);
    // Backwards: the same cubic run the other way, a = .1 - f + f^2/2.
    const g = shareTo(0, -1, 0.1, -1, -0.4, 0);
    expectWithin(0.1 - g + g ** 2 / 2, 0, 1e-9);
  });

  test('an arm comes to rest where its rate is zero', () => {
    // a = 0.3 f - 0.2 f^2: at rest at 3/4. Then mirrored.
    expectWithin(shareToRest(1, 0.5, 0.3, 0.6, -0.1), 0.75, 1e-9);
    expectWithin(shareToRest(-1, 0.5, -0.3, 0.4, 0.1), 0.75, 1e-9);
  });
});
