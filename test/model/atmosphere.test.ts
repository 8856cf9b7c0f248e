import { describe, expect, test } from 'vitest';
import {
  createDensityProfile,
  densityAt,
  fillDensityProfile,
  gasDensity,
  geopotentialHeight,
  siteDensity,
  soundSpeed,
  standardPressure,
  standardTemperature,
  temperatureExcess,
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
  // Computed from p/(287.05307 (T + dT)) with the standard pressure, at GEOPOTENTIAL heights.
  test.each([
    { h: 1000, excess: 20, density: 1.03794 },
    { h: 500, excess: 15, density: 1.10889 },
  ])('with a day $excess K warmer than standard has density $density at $h m', ({ h, excess, density }) => {
    expectRelative(gasDensity(standardPressure(h), standardTemperature(h) + excess), density, 5e-6);
    const elevation = (6_356_766 * h) / (6_356_766 - h); // the geometric height of that geopotential height
    const site = { elevation, temperature: standardTemperature(h) + excess, pressure: null };
    expectWithin(temperatureExcess(site), excess, 1e-9);
    expectRelative(siteDensity(site, 0), density, 5e-6);
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
