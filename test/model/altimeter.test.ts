import { describe, expect, test } from 'vitest';
import { barometricReading } from '../../sim/model/altimeter.js';
import { expectWithin } from './near.js';

describe('the called-out height', () => {
  test('is the true one on a standard day in still air', () => {
    expect(barometricReading(200, 0, 0, 288.15, 0, 0)).toBe(200);
  });

  test('adds the bias, and k V^2/(2 g): the dynamic pressure at 30 m/s is 46 m of air (computed)', () => {
    expectWithin(barometricReading(200, 0, 0, 288.15, -6, 0), 194, 1e-12);
    expectWithin(barometricReading(200, 30, 0, 288.15, 0, 1), 200 + 45.9, 0.02);
  });

  test('of a positive flow error reads high, so that the planned height is read lower down', () => {
    const trueHeight = (k: number) => 250 - (barometricReading(0, 30, 0, 288.15, 0, k) - 0);
    expect(trueHeight(0.12)).toBeLessThan(trueHeight(0));
  });

  test('reads low in warm air by dT/T, as a column of warm air is longer: hypsometric equation', () => {
    const [temperature, excess] = [303.15, 22.67];
    // A barometer tuned to the standard day turns a pressure step into height with the standard temperature.
    expectWithin(
      barometricReading(250, 0, excess, temperature, 0, 0),
      (250 * (temperature - excess)) / temperature,
      1e-12,
    );
    expect(barometricReading(250, 0, excess, temperature, 0, 0)).toBeLessThan(250);
    expect(barometricReading(250, 0, -20, 270, 0, 0)).toBeGreaterThan(250);
  });
});
