import { describe, expect, test } from 'vitest';
import { geopotentialRise, type Site, sitePressure } from '../../sim/model/atmosphere.js';
import { barometricReading, formulaHeight, readingScale, readingSlope } from '../../sim/model/barometer.js';
import { expectRelative, expectWithin } from './near.js';

const WARM: Site = { elevation: 1180, temperature: 303.15, pressure: null };
const FORMULAS = ['standard atmosphere', 'fixed sea level', 'temperature corrected'] as const;

describe('what an altimeter makes of the pressure', () => {
  test('by the data sheet: 256.2106 m at .97 of the pressure on the ground, whatever that is (computed from 44330 and .1903)', () => {
    for (const pressure of [101_325, 88_000]) {
      const site = { ...WARM, pressure };
      expectWithin(formulaHeight('fixed sea level', site, 0.97 * pressure), 256.2106, 5e-5);
    }
  });

  // Computed from the pressures of the warm column, 87 931.917 and 85 483.655 Pa; corrected: the geopotential difference.
  test.each([
    ['standard atmosphere', 231.2109],
    ['fixed sea level', 237.574],
    ['temperature corrected', 249.8974],
  ] as const)('250 m over a site at 1180 m and 30 degC, by %s, is %d m', (formula, height) => {
    expectWithin(formulaHeight(formula, WARM, sitePressure(WARM, 250)), height, 5e-5);
  });

  test('is the true height on a standard day at sea level, but for the roundings of the data sheet', () => {
    const site = { elevation: 0, temperature: 288.15, pressure: null };
    for (const formula of FORMULAS)
      expectRelative(
        formulaHeight(formula, site, sitePressure(site, 300)),
        geopotentialRise(0, 300),
        formula === 'fixed sea level' ? 2e-4 : 1e-9,
      );
  });

  test.each(FORMULAS)('by %s goes with the geopotential height: within 2 mm over a kilometre', (formula) => {
    for (const site of [WARM, { elevation: 0, temperature: 263.15, pressure: null }, { ...WARM, pressure: 86_000 }])
      for (let z = 0; z <= 1000; z += 50) {
        const shown = readingScale(formula, site) * geopotentialRise(site.elevation, z);
        expectWithin(formulaHeight(formula, site, sitePressure(site, z)), shown, 0.003);
      }
  });

  test('reads low in warm air and high in cold, the standard formula by the ratio of the temperatures', () => {
    const standard = 288.15 - 0.0065 * geopotentialRise(0, 1180);
    expectRelative(readingScale('standard atmosphere', WARM), standard / 303.15, 1e-9);
    const cold = { ...WARM, temperature: 270 };
    expect(readingScale('standard atmosphere', cold)).toBeGreaterThan(1);
    expect(readingScale('temperature corrected', cold)).toBe(1);
  });

  test('shows a metre above the ground as the slope says: a geopotential metre is .03713 % more at 1180 m (r0 = 6 356 766 m)', () => {
    const slope = (6_356_766 / 6_357_946) ** 2;
    for (const formula of FORMULAS)
      expectRelative(readingSlope(formula, WARM), slope * readingScale(formula, WARM), 1e-6);
  });
});

describe('the reading', () => {
  test('adds the bias, and k V^2/(2 g): the dynamic pressure at 30 m/s is 45.887 m of air (computed)', () => {
    expectWithin(barometricReading(200, 0, 1, -6, 0), 194, 1e-12);
    expectWithin(barometricReading(200, 30, 1, 0, 1), 245.887, 5e-4);
    expectWithin(barometricReading(200, 20, 0.9, 3, -0.5), 180 + 3 - 10.197, 5e-4);
  });

  test('of a positive flow error is high, so that the planned height is read lower down', () => {
    const riseAtPlan = (k: number) => 250 - barometricReading(0, 30, 1, 0, k);
    expect(riseAtPlan(0.12)).toBeLessThan(riseAtPlan(0));
  });
});
