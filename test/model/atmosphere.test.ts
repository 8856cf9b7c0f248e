import { describe, expect, test } from 'vitest';
import {
  createDensityProfile,
  densityAt,
  fillDensityProfile,
  gasDensity,
  geopotentialHeight,
  siteDensity,
  sitePressure,
  soundSpeed,
  standardPressure,
  standardTemperature,
} from '../../sim/model/atmosphere.js';
import { expectRelative, expectWithin } from './near.js';

/** U.S. Standard Atmosphere 1976, Table I, by geometric height (read in a reprint; its pressures are cut off). */
const USSA_1976 = [
  { z: 0, temperature: 288.15, pressure: 101325, density: 1.225 },
  { z: 1000, temperature: 281.651, pressure: 89876, density: 1.1117 },
  { z: 2000, temperature: 275.154, pressure: 79501, density: 1.0066 },
  { z: 3000, temperature: 268.659, pressure: 70121, density: 0.90925 },
  { z: 5000, temperature: 255.676, pressure: 54048, density: 0.73643 },
];

describe('the standard atmosphere', () => {
  test.each(USSA_1976)('has the published temperature, pressure and density at $z m', (row) => {
    const h = geopotentialHeight(row.z);
    const temperature = standardTemperature(h);
    const pressure = standardPressure(h);
    expectWithin(temperature, row.temperature, 6e-4); // three decimals are printed
    expectRelative(pressure, row.pressure, 1e-4);
    expectRelative(gasDensity(pressure, temperature), row.density, 1e-4);
  });

  test('carries sound at 340.294 m/s at sea level (U.S. Standard Atmosphere 1976, Table III; from memory)', () => {
    expectWithin(soundSpeed(288.15), 340.294, 5e-4);
  });

  test('is written over the geopotential height: 11 km there lie 19 m higher in metres (same source, definition)', () => {
    expectWithin(geopotentialHeight(11_019.1), 11_000, 0.1);
  });
});

describe('a site', () => {
  // Computed from p = p_s ((T_s - 0.0065 h)/T_s)^5.255876 and p/(287.05307 T), h GEOPOTENTIAL metres above sea level.
  test.each([
    { h: 0, excess: 20, pressure: 101_325, density: 1.145492 },
    { h: 500, excess: 15, pressure: 95_744.38, density: 1.1121789 },
    { h: 1000, excess: 20, pressure: 90_584.373, density: 1.0461351 },
    { h: 3000, excess: 20, pressure: 71_861.965, density: 0.867292 },
  ])('at sea level, $excess K warmer than standard, has these at $h m', ({ h, excess, pressure, density }) => {
    const site = { elevation: 0, temperature: 288.15 + excess, pressure: null };
    const height = (6_356_766 * h) / (6_356_766 - h); // the geometric height of that geopotential height
    expectRelative(sitePressure(site, height), pressure, 1e-8);
    expectRelative(siteDensity(site, height), density, 5e-7);
  });

  test('at 1180 m and 30 degC has 85 483.655 Pa and .987635 kg/m3 250 m up: .23 % over standard pressure (computed)', () => {
    const site = { elevation: 1180, temperature: 303.15, pressure: null };
    expectRelative(sitePressure(site, 0), 87_931.917, 1e-8);
    expectRelative(sitePressure(site, 250), 85_483.655, 1e-8);
    expectRelative(siteDensity(site, 250), 0.987635, 5e-7);
    expectRelative(sitePressure(site, 250) / standardPressure(geopotentialHeight(1430)), 85_483.655 / 85_288.222, 1e-8);
  });

  test.each([
    [253.15, null],
    [288.15, 99_000],
    [308.15, null],
  ])('at %d K has air that carries its own weight: dp/dz = -rho g, at g of the height', (temperature, pressure) => {
    const site = { elevation: 1180, temperature, pressure };
    for (const z of [0, 300, 1500]) {
      const slope = (sitePressure(site, z + 1) - sitePressure(site, z - 1)) / 2;
      const share = (6_356_766 / (6_356_766 + 1180 + z)) ** 2;
      expectRelative(slope, -siteDensity(site, z) * 9.80665 * share, 1e-6);
    }
  });

  test.each(USSA_1976)('on a standard day has the published pressure and density at $z m above sea level', (row) => {
    for (const elevation of [0, 500]) {
      const temperature = standardTemperature(geopotentialHeight(elevation));
      const site = { elevation, temperature, pressure: null };
      expectRelative(sitePressure(site, row.z - elevation), row.pressure, 1e-4);
      expectRelative(siteDensity(site, row.z - elevation), row.density, 1e-4);
    }
  });

  test('with a measured pressure has density p/(R T) at the ground, and the standard ratio of pressures above it', () => {
    const site = { elevation: 1180, temperature: 303.15, pressure: 87_000 };
    expectRelative(siteDensity(site, 0), 87_000 / (287.05307 * 303.15), 1e-12);
    const standard = { ...site, pressure: null };
    expectRelative(
      siteDensity(site, 900) / siteDensity(site, 0),
      siteDensity(standard, 900) / siteDensity(standard, 0),
      1e-12,
    );
  });

  test.each([
    { elevation: -430, temperature: 318.15, pressure: null, top: 500 },
    { elevation: 1180, temperature: 303.15, pressure: null, top: 820 },
    { elevation: 1180, temperature: 253.15, pressure: 90_000, top: 820 },
    { elevation: 6000, temperature: 263.15, pressure: null, top: 5000 },
  ])('keeps its density profile within 1e-5 of the exact one, at $elevation m up to $top m', ({ top, ...site }) => {
    const profile = createDensityProfile();
    fillDensityProfile(profile, site, top);
    let worst = 0;
    for (let z = 0; z <= top; z += 7)
      worst = Math.max(worst, Math.abs(densityAt(profile, z) / siteDensity(site, z) - 1));
    expect(worst).toBeLessThan(1e-5);
  });
});
