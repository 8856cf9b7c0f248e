/** That the numbers do not hang on the length of the steps. */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { figure, howMany } from '../in-full.js';
import { type Flown, flyAt, scenarioNamed } from './bench.js';

describe.each([
  ['burdock', 200, howMany(120, 400)],
  ['burdock-automatic', 120, howMany(40, 100)],
  ['burdock-late-arms', 200, howMany(40, 100)],
  ['teasel', 50, howMany(40, 100)],
] as const)('halving every step: %s at %d m', (name, height, N) => {
  const flown = scenarioNamed(name);
  const drawer = createDrawer(flown, 'steps');
  const [coarse, fine] = [createFlightModel(flown), createFlightModel(flown, { stepScale: 0.5 })];
  const pairs: (readonly [Flown, Flown])[] = [];
  for (let id = 0; id < N; id += 1) {
    const whole = flyAt(coarse, drawer.draw('explore', id), height);
    pairs.push([whole, flyAt(fine, drawer.draw('explore', id), height)]);
  }

  test('moves the touchdown speed by under 0.02 m/s in 95 % of flights', () => {
    const moved = pairs.map(([a, b]) => Math.abs(a.touchdown_speed - b.touchdown_speed)).sort((a, b) => a - b);
    figure(`${name}: touchdown speed moved by at most, m/s, in 95 %`, moved[Math.floor(0.95 * N)]);
    // Of few flights two standard deviations more may move further.
    const further = moved.filter((metres) => !(metres < 0.02)).length;
    expect(further).toBeLessThan(0.05 * N + howMany(2 * Math.sqrt(0.05 * 0.95 * N), 0));
  });

  test('flips at most one outcome', () => {
    const flipped = pairs.filter(([a, b]) => a.outcome !== b.outcome).length;
    figure(`${name}: outcomes flipped`, flipped, 'of', N);
    expect(flipped).toBeLessThanOrEqual(1);
  });

  test('leaves no flight numerical', () => {
    expect(pairs.filter(([a, b]) => a.outcome === 'numerical' || b.outcome === 'numerical')).toEqual([]);
  });
});
