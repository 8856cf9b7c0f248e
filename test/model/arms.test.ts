import { describe, expect, test } from 'vitest';
import { openArmsInertia, openness, opennessSlope } from '../../sim/model/arms.js';
import { expectWithin } from './near.js';

describe('opening arms', () => {
  test('go smoothly from folded to open, halfway in half the time, at rest at both ends', () => {
    expect([-1, 0, 0.5, 1, 2].map(openness)).toEqual([0, 0, 0.5, 1, 1]);
    expect([-1, 0, 1, 2].map(opennessSlope)).toEqual([0, 0, 0, 0]);
  });

  test.each([0.1, 0.35, 0.5, 0.8])('open at share %d of the time at the slope of how far they are open', (x) => {
    expectWithin(opennessSlope(x), (openness(x + 1e-5) - openness(x - 1e-5)) / 2e-5, 1e-8);
  });

  test('add the inertia of four points moved from the wall of the can to the rotor centres', () => {
    // 500 g: four points of 25 g from 33 mm to 110 mm off the axis, 100 mm up: m r^2, by hand.
    const added = openArmsInertia(0.5, 0.066, 0.11, 0.1);
    expectWithin(added.axial, 4 * 0.025 * (0.11 ** 2 - 0.033 ** 2), 1e-12);
    // Across: half of the axial one (perpendicular axes) and the height.
    expectWithin(added.transverse, added.axial / 2 + 4 * 0.025 * 0.1 ** 2, 1e-12);
  });
});
