import { describe, expect, test } from 'vitest';
import {
  gustCorrelation,
  gustIntensity,
  gustScales,
  meanWindSpeed,
  nextGust,
  readGustScales,
  readMeanWind,
  windAt20Feet,
} from '../../sim/model/wind.js';
import { expectRelative, expectWithin } from './near.js';

const FOOT = 0.3048;

function scalesAt(z: number) {
  return { ...gustScales(z, { horizontalLength: 0, verticalLength: 0, horizontalRatio: 0 }) };
}

describe('the mean wind', () => {
  // Computed from U10 (z/10)^(1/7) with U10 = 5 m/s.
  test.each([
    [2, 3.973],
    [10, 5],
    [50, 6.2925],
    [100, 6.9475],
    [300, 8.1281],
  ])('follows the power law: at %d m %d m/s', (z, speed) => {
    expectRelative(meanWindSpeed(5, 1 / 7, z), speed, 2e-5);
  });

  test.each([
    [0.1, 0.2171],
    [0.03, 0.1721],
  ])('has near 10 m the slope of the logarithmic law over a roughness of %d m with exponent %d', (z0, exponent) => {
    expectWithin(1 / Math.log(10 / z0), exponent, 5e-5); // p = 1/ln(10/z0), computed
    const slope = Math.log(meanWindSpeed(5, exponent, 10.1) / meanWindSpeed(5, exponent, 9.9)) / Math.log(10.1 / 9.9);
    expectWithin(slope, exponent, 1e-9);
  });

  test.each([0, 0.1, 1 / 7, 0.3, 0.6])('is read without a power function to 1e-3 of it, exponent %d', (exponent) => {
    for (let z = 0; z < 1000; z += 0.1313) {
      const exact = 5 * (Math.max(z, 0.1) / 10) ** exponent;
      expectRelative(readMeanWind(5, exponent, z), exact, 1.3e-3 * exponent + 1e-9);
    }
  });

  test('is held below 0.1 m, and at 20 ft is 0.932 of that at 10 m', () => {
    expect(meanWindSpeed(5, 1 / 7, 0)).toBe(meanWindSpeed(5, 1 / 7, 0.1));
    expectWithin(windAt20Feet(1, 1 / 7), 0.932, 5e-4); // computed: 0.6096^(1/7)
  });
});

describe('the Dryden gusts of MIL-F-8785C, low altitude form', () => {
  test('have at 100 FEET a scale of 505.169 ft and an intensity ratio of 1.715849 (read in a reprint)', () => {
    const scales = scalesAt(100 * FOOT);
    expectRelative(scales.horizontalLength / FOOT, 505.169, 1e-6);
    expectRelative(scales.verticalLength / FOOT, 100, 1e-12);
    expectRelative(scales.horizontalRatio, 1.715849, 1e-6);
  });

  test('have at 50 m a scale of 202.290 m and an intensity ratio of 1.593436 (computed from the formula in feet)', () => {
    const scales = scalesAt(50);
    expectRelative(scales.horizontalLength, 202.29, 3e-6);
    expectRelative(scales.verticalLength, 50, 1e-12);
    expectRelative(scales.horizontalRatio, 1.593436, 1e-6);
    // Metres put in the brackets where feet belong would give 310.8 m and 1.84.
    const slip = 0.177 + 0.000823 * 50;
    expect(Math.abs(scales.horizontalLength / (50 / slip ** 1.2) - 1)).toBeGreaterThan(0.1);
    expect(Math.abs(scales.horizontalRatio * slip ** 0.4 - 1)).toBeGreaterThan(0.1);
  });

  test('are read from a table to 2e-4 of the formula at every height', () => {
    const read = new Float64Array(3);
    for (let z = 0; z < 1000; z += 0.1313) {
      const { horizontalLength, verticalLength, horizontalRatio } = scalesAt(z);
      readGustScales(z, read);
      expectRelative(read[0] as number, horizontalLength, 2e-4);
      expectRelative(read[1] as number, verticalLength, 1e-12);
      expectRelative(read[2] as number, horizontalRatio, 2e-4);
    }
  });

  test('hold the values of 10 ft below it', () => {
    expect(scalesAt(0)).toEqual(scalesAt(10 * FOOT));
    expect(scalesAt(1).horizontalLength).toBe(scalesAt(10 * FOOT).horizontalLength);
  });

  test('are isotropic with one length of 1750 ft above 2000 ft, and continuous on the way there', () => {
    for (const feet of [2000, 3000]) {
      const { horizontalLength, verticalLength, horizontalRatio } = scalesAt(feet * FOOT);
      expectRelative(horizontalLength / FOOT, 1750, 1e-9);
      expectRelative(verticalLength / FOOT, 1750, 1e-9);
      expectRelative(horizontalRatio, 1, 1e-9);
    }
    const below = scalesAt(999.999 * FOOT);
    const above = scalesAt(1000.001 * FOOT);
    expectRelative(below.horizontalLength, above.horizontalLength, 1e-5);
    expectRelative(below.verticalLength, above.verticalLength, 1e-5);
    expectRelative(below.horizontalRatio, above.horizontalRatio, 1e-5);
  });

  test("have a vertical intensity of a tenth of the wind at 20 ft, times the day's factor", () => {
    expect(gustIntensity(6, 1.5)).toBeCloseTo(0.9, 12);
  });

  test('lose correlation as exp(-V dt/L): 0.99506879 at 50 m, 10 m/s, 0.1 s (computed)', () => {
    expectWithin(gustCorrelation(10, 0.1, scalesAt(50).horizontalLength), 0.99506879, 5e-9);
  });

  test.each([1e-4, 0.01, 0.1, 0.5, 0.6999, 0.7001, 3])('lose it so for every exponent, as %d', (exponent) => {
    expectRelative(gustCorrelation(10, exponent, 10), Math.exp(-exponent), 1e-8);
  });

  test('are filtered at an airspeed of at least 1 m/s', () => {
    expect(gustCorrelation(0, 0.1, 100)).toBe(gustCorrelation(1, 0.1, 100));
  });

  test('keep unit variance from step to step: a^2 + (1 - a^2) = 1', () => {
    const a = 0.9;
    expectWithin(nextGust(1, a, 0) ** 2 + nextGust(0, a, 1) ** 2, 1, 1e-12);
    expect(nextGust(1, a, 0)).toBe(a);
  });
});
