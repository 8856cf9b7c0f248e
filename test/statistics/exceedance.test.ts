import { describe, expect, test } from 'vitest';
import { exceedance } from '../../sim/statistics/exceedance.js';
import { speedHistogram } from '../../sim/statistics/histogram.js';

describe('The exceedance of the touchdown speed', () => {
  test('ends in the flights beyond the last bin', () => {
    const speeds = { from: 0, width: 5, soft: [90, 0], hard: [0, 4], crash: [0, 3], beyond: [0, 0, 3] as const };
    expect(exceedance(speeds, 100)).toEqual([
      { speed: 0, share: 100 },
      { speed: 5, share: 10 },
      { speed: 10, share: 3 },
    ]);
  });

  test('of speeds drawn from an exponential law at even quantiles is exp(-v/mean) at every edge', () => {
    const n = 20_000;
    const mean = 6;
    const speed = Float64Array.from({ length: n }, (_, i) => -mean * Math.log(1 - (i + 0.5) / n));
    const outcome = speed.map((_, i) => i % 3);
    const points = exceedance(speedHistogram(outcome, speed), n);
    expect(points).toHaveLength(81);
    // A count of even quantiles is off by half a flight at most.
    for (const point of points)
      expect(Math.abs(point.share / 100 - Math.exp(-point.speed / mean))).toBeLessThanOrEqual(0.5 / n + 1e-12);
  });

  test('counts flights without a touchdown speed among those flown', () => {
    const speeds = speedHistogram([0, 2, 3, 2], [1, 8, Number.NaN, Number.NaN]);
    expect(exceedance(speeds, 4).slice(0, 3)).toEqual([
      { speed: 0, share: 50 },
      { speed: 0.5, share: 50 },
      { speed: 1, share: 50 },
    ]);
  });
});
