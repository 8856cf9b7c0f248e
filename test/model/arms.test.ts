import { describe, expect, test } from 'vitest';
import { armMass, openArmsInertia } from '../../sim/model/arms.js';
import { expectWithin } from './near.js';

describe('opening arms', () => {
  test('add the inertia of four points moved from the wall of the can to the rotor centres', () => {
    // 500 g: four points of 25 g from 33 mm to 110 mm off the axis, 100 mm up: m r^2, by hand.
    const added = openArmsInertia(0.5, 0.066, 0.11, 0.1);
    expectWithin(added.axial, 4 * 0.025 * (0.11 ** 2 - 0.033 ** 2), 1e-12);
    // Across: half of the axial one (perpendicular axes) and the height.
    expectWithin(added.transverse, added.axial / 2 + 4 * 0.025 * 0.1 ** 2, 1e-12);
    // From the inertia back to the 25 g, and 1/20 of the mass where it says nothing.
    expectWithin(armMass(0.5, added.axial, 0.066, 0.11), 0.025, 1e-12);
    for (const nothing of [0, -1e-3, 1]) expect(armMass(0.5, nothing, 0.066, 0.11)).toBe(0.025);
    expect(armMass(0.5, 1e-3, 0.1, 0.05)).toBe(0.025);
  });
});
