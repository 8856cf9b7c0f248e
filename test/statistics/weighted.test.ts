import { describe, expect, it } from 'vitest';
import {
  effectiveSize,
  weightedMoments,
  weightedQuantile,
  weightedRankCorrelation,
  weightsOf,
} from '../../sim/statistics/weighted.js';

const even = (n: number) => new Float64Array(n).fill(1 / n);

describe('weights', () => {
  it('sum to 1 in the ratios of their logarithms, however far those are from 0', () => {
    for (const shift of [0, -5000, 5000]) {
      const [a, b] = weightsOf(Float64Array.of(shift, shift + Math.log(3)));
      expect(a).toBeCloseTo(0.25, 11);
      expect(b).toBeCloseTo(0.75, 11);
    }
    expect([...weightsOf(new Float64Array(4).fill(Number.NEGATIVE_INFINITY))]).toEqual([0.25, 0.25, 0.25, 0.25]);
  });

  it('have an effective size: all of equal weight, one of one', () => {
    expect(effectiveSize(even(50))).toBeCloseTo(50, 9);
    expect(effectiveSize(Float64Array.of(1, 0, 0))).toBe(1);
    expect(effectiveSize(Float64Array.of(0.75, 0.25))).toBe(1.6);
  });
});

describe('of weighted values', () => {
  it('mean and standard deviation are those of values repeated as often as they weigh', () => {
    // 1, 1, 1, 5: mean 2, variance (3 x 1 + 9)/4 = 3.
    const { mean, sd } = weightedMoments([1, 5], [0.75, 0.25]);
    expect(mean).toBe(2);
    expect(sd).toBeCloseTo(Math.sqrt(3), 12);
  });

  it('quantiles are interpolated between the middles of the weights, and held beyond the ends', () => {
    // 1, 2, 3 stand at 1/6, 1/2, 5/6.
    const values = Float64Array.of(3, 1, 2);
    expect(weightedQuantile(values, even(3), 0.5)).toBe(2);
    expect(weightedQuantile(values, even(3), 1 / 3)).toBeCloseTo(1.5, 12);
    expect(weightedQuantile(values, even(3), 0.99)).toBe(3);
    expect(weightedQuantile(values, Float64Array.of(0, 1, 0), 0.5)).toBe(1);
  });

  it("rank correlation is 1 or -1 for any monotonic tie, and Spearman's 1 - 6 sum d^2/(n (n^2 - 1)) with equal weights", () => {
    const values = Float64Array.of(3, 1, 2);
    const along = (of: (x: number) => number) => weightedRankCorrelation(values, values.map(of), even(3));
    expect(along((x) => x ** 3)).toBeCloseTo(1, 12);
    expect(along((x) => -Math.exp(x))).toBeCloseTo(-1, 12);
    // Ranks 1 2 3 4 5 against 2 1 4 3 5: d^2 sums to 4, 1 - 24/120 = 0.8.
    expect(
      weightedRankCorrelation(Float64Array.of(1, 2, 3, 4, 5), Float64Array.of(2, 1, 4, 3, 5), even(5)),
    ).toBeCloseTo(0.8, 12);
    expect(weightedRankCorrelation(Float64Array.of(1), Float64Array.of(1), even(1))).toBe(0);
  });
});
