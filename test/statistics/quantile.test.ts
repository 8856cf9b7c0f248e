import { describe, expect, it } from 'vitest';
import { quantileOf, quantileRanks, sortedValues, spread } from '../../sim/statistics/quantile.js';

describe('ranks of the order-statistic interval', () => {
  // Recomputed from the binomial law with SciPy.
  it('are 469 to 532 for the median and 936 to 964 for the 95th percentile of 1000, at 95 %', () => {
    expect(quantileRanks(1000, 0.5, 0.95)).toEqual({ lower: 469, upper: 532 });
    expect(quantileRanks(1000, 0.95, 0.95)).toEqual({ lower: 936, upper: 964 });
  });

  // Closed form: ranks k + 1 and 20 - k hold the median of 20 unless k or fewer values lie on one side of it.
  it('are 6 to 15 for the median of 20 at 95 %: they hold it with 95.86 %, ranks 7 and 14 with 88.47 %', () => {
    expect(quantileRanks(20, 0.5, 0.95)).toEqual({ lower: 6, upper: 15 });
    const coefficients = [1, 20, 190, 1140, 4845, 15_504, 38_760];
    const held = (k: number) => 1 - (2 * coefficients.slice(0, k + 1).reduce((sum, one) => sum + one)) / 2 ** 20;
    expect(held(5)).toBeCloseTo(0.9586, 4);
    expect(held(6)).toBeCloseTo(0.8847, 4);
  });

  it('say null where no value of the sample bounds the quantile', () => {
    // The largest of n exceeds the p-quantile with 1 - p^n: 58 values do not reach 95 % for p = 0.95, 59 do.
    expect(quantileRanks(58, 0.95).upper).toBeNull();
    expect(quantileRanks(59, 0.95).upper).toBe(59);
    expect(quantileRanks(58, 0.05).lower).toBeNull();
    expect(quantileRanks(59, 0.05).lower).toBe(1);
    expect(quantileRanks(0, 0.5)).toEqual({ lower: null, upper: null });
  });
});

describe('spread', () => {
  // R: quantile(c(3,6,7,8,8,10,13,15,16,20), type = 7), from the definition by hand.
  it('interpolates at (n - 1) p', () => {
    const values = sortedValues([20, 3, 6, 7, 8, 8, 10, 13, 15, 16]);
    expect(quantileOf(values, 0.25)).toBe(7.25);
    expect(quantileOf(values, 0.5)).toBe(9);
    expect(quantileOf(values, 0.75)).toBe(14.5);
  });

  it('leaves out flights in which the event never came', () => {
    const found = spread(new Float32Array([Number.NaN, 1, 2, Number.NaN, 3]));
    expect(found.flights).toBe(3);
    expect(found.mean).toBe(2);
    expect(found.quantiles.map((quantile) => quantile.p)).toEqual([0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99]);
    expect(found.quantiles[3]).toEqual({ p: 0.5, value: 2, lower: null, upper: null });
  });

  it('of nothing has no quantiles and holds no NaN', () => {
    expect(spread([Number.NaN])).toEqual({ flights: 0, mean: 0, quantiles: [] });
  });

  it('of 1 to 1001 has the ranks as its ends', () => {
    const found = spread(Array.from({ length: 1001 }, (_, i) => 1001 - i));
    const median = found.quantiles[3];
    const ranks = quantileRanks(1001, 0.5);
    expect(median).toEqual({ p: 0.5, value: 501, lower: ranks.lower, upper: ranks.upper });
    // Normal approximation: 501 -+ 1.645 sqrt(1001)/2 = 475 to 527.
    expect(median.lower).toBeGreaterThanOrEqual(474);
    expect(median.lower).toBeLessThanOrEqual(476);
  });

  // NIST StRD, univariate summary statistics, NumAcc3: mean exactly 1000000.2.
  it('has the certified mean of NumAcc3', () => {
    const values = [1000000.2];
    for (let i = 0; i < 500; i++) values.push(1000000.1, 1000000.3);
    expect(Math.abs(spread(values).mean - 1000000.2)).toBeLessThan(1e-9);
  });
});
