import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { fitWeibull } from '../../sim/fit/families/weibull.js';
import {
  andersonDarling,
  modifiedForNormal,
  modifiedForWeibull,
  NORMAL_POINTS,
  refusedAt,
  WEIBULL_POINTS,
} from '../../sim/statistics/anderson-darling.js';

function normalDistance(values: readonly number[]): number {
  const n = values.length;
  const mean = values.reduce((sum, x) => sum + x, 0) / n;
  const sd = Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (n - 1));
  return andersonDarling([...values].sort((a, b) => a - b).map((x) => normalCdf(x, mean, sd)));
}

function weibullDistance(values: Float64Array): number {
  const { shape, scale } = fitWeibull(values);
  return andersonDarling(
    values
      .slice()
      .sort()
      .map((x) => -Math.expm1(-((x / scale) ** shape))),
  );
}

/** Share of 3000 samples of 20 that pass a point, with the binomial scatter of 3000 in the tolerance. */
function shareAbove(distance: () => number, point: number): number {
  let above = 0;
  for (let i = 0; i < 3000; i++) if (distance() >= point) above += 1;
  return above / 3000;
}

describe('the Anderson-Darling distance', () => {
  it('of ten values to their own normal is .14111', () => {
    // Computed independently from the formula with scipy.stats.anderson.
    expect(normalDistance([10.2, 9.8, 10.5, 9.9, 10.1, 10.4, 9.7, 10.0, 10.3, 10.6])).toBeCloseTo(0.14111, 5);
  });

  it('of the uniform ranks is the least there is, and finite at the ends', () => {
    expect(andersonDarling([0.5])).toBeCloseTo(-1 + 2 * Math.log(2), 12);
    expect(Number.isFinite(andersonDarling([0, 1]))).toBe(true);
  });

  it('with the published points refuses a normal sample as often as they say', () => {
    const random = seedrandom.alea('normal points');
    const draw = () => {
      const u = random.double();
      return standardNormalQuantile(u, 1 - u);
    };
    const distance = () => modifiedForNormal(normalDistance(Array.from({ length: 20 }, draw)), 20);
    for (const { level, value } of NORMAL_POINTS.filter(({ level: one }) => one >= 0.05)) {
      expect(Math.abs(shareAbove(distance, value) - level)).toBeLessThan(4 * Math.sqrt((level * (1 - level)) / 3000));
    }
  });

  it('with the published points refuses a Weibull sample as often as they say', () => {
    const random = seedrandom.alea('weibull points');
    const sample = () => Float64Array.from({ length: 20 }, () => (-Math.log(1 - random.double())) ** 0.5);
    const distance = () => modifiedForWeibull(weibullDistance(sample()), 20);
    for (const { level, value } of WEIBULL_POINTS.filter(({ level: one }) => one === 0.1 || one === 0.05)) {
      expect(Math.abs(shareAbove(distance, value) - level)).toBeLessThan(4 * Math.sqrt((level * (1 - level)) / 3000));
    }
  });

  it('is judged by the strictest level passed', () => {
    expect(refusedAt(0.5, NORMAL_POINTS)).toBeNull();
    expect(refusedAt(0.752, NORMAL_POINTS)).toBe(0.05);
    expect(refusedAt(2, NORMAL_POINTS)).toBe(0.01);
  });
});
