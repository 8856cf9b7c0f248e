import { describe, expect, it } from 'vitest';
import {
  clopperPearson,
  flightsForBound,
  flightsToSettle,
  proportion,
  verdictOf,
} from '../../sim/statistics/proportion.js';

describe('Clopper-Pearson interval', () => {
  // Newcombe, Statistics in Medicine 17:857, 1998, Table I, method 5, two-sided 95 %.
  it('reproduces the published values of Newcombe 1998 at 95 %', () => {
    expect(clopperPearson(81, 263, 0.95).lower).toBeCloseTo(0.25274, 5);
    expect(clopperPearson(81, 263, 0.95).upper).toBeCloseTo(0.36762, 5);
    expect(clopperPearson(0, 20, 0.95).lower).toBe(0);
    expect(clopperPearson(0, 20, 0.95).upper).toBeCloseTo(0.16843, 5);
  });

  // Recomputed from the formula with SciPy.
  it('gives 0.0036821 at 95 % for none in 1000', () => {
    expect(clopperPearson(0, 1000, 0.95).upper).toBeCloseTo(0.0036821, 7);
  });

  it('has the closed form 1 - 0.05^(1/n) where nothing or everything failed', () => {
    for (const flights of [1, 10, 8000, 1e6]) {
      const bound = 1 - 0.05 ** (1 / flights);
      expect(clopperPearson(0, flights).upper).toBeCloseTo(bound, 9);
      expect(clopperPearson(0, flights).lower).toBe(0);
      expect(clopperPearson(flights, flights).lower).toBeCloseTo(1 - bound, 9);
      expect(clopperPearson(flights, flights).upper).toBe(1);
    }
  });

  it('is mirrored when failures and successes change places', () => {
    for (const [count, flights] of [
      [1, 7],
      [40, 100],
      [123, 8000],
    ]) {
      const one = clopperPearson(count, flights);
      const other = clopperPearson(flights - count, flights);
      expect(one.lower).toBeCloseTo(1 - other.upper, 12);
      expect(one.upper).toBeCloseTo(1 - other.lower, 12);
    }
  });

  it('covers the true risk in at least 90 % of studies, summed exactly over all counts', () => {
    for (const risk of [0.003, 0.05, 0.2, 0.5]) {
      for (const flights of [20, 200]) {
        let covered = 0;
        let probability = (1 - risk) ** flights;
        for (let count = 0; count <= flights; count++) {
          const { lower, upper } = clopperPearson(count, flights);
          if (lower <= risk && risk <= upper) covered += probability;
          probability *= ((flights - count) / (count + 1)) * (risk / (1 - risk));
        }
        expect(covered).toBeGreaterThanOrEqual(0.9);
      }
    }
  });

  it('knows nothing without flights and refuses counts that cannot be', () => {
    expect(proportion(0, 0)).toEqual({ count: 0, flights: 0, estimate: 0, lower: 0, upper: 1 });
    expect(() => proportion(5, 4)).toThrow(RangeError);
    expect(() => proportion(Number.NaN, 4)).toThrow(RangeError);
  });
});

describe('verdict', () => {
  it('is within, above or not shown by the ends of the interval', () => {
    expect(verdictOf(proportion(0, 59), 0.05)).toBe('within');
    expect(verdictOf(proportion(0, 58), 0.05)).toBe('not shown');
    expect(verdictOf(proportion(100, 1000), 0.05)).toBe('above');
    expect(verdictOf(proportion(50, 1000), 0.05)).toBe('not shown');
  });
});

describe('flights needed', () => {
  // Recomputed from the formula with SciPy; 299 is ln 0.05 / ln 0.99 rounded up.
  it('is 299, 473 and 628 for a bound of 1 % with 0, 1 and 2 failures', () => {
    expect([0, 1, 2].map((failures) => flightsForBound(failures, 0.01))).toEqual([299, 473, 628]);
  });

  it('settles at the number it names and not a round of flights earlier', () => {
    expect(flightsToSettle(proportion(0, 100), 0.01)).toBe(299);
    for (const [count, flights] of [
      [4, 100],
      [14, 1000],
      [27, 1000],
    ]) {
      const needed = flightsToSettle(proportion(count, flights), 0.02);
      expect(needed).not.toBeNull();
      // Whole counts at the same rate: the next multiple of the denominator is settled, the one before is not.
      const rounds = Math.ceil((needed ?? 0) / flights);
      expect(verdictOf(proportion(count * rounds, flights * rounds), 0.02)).not.toBe('not shown');
      expect(verdictOf(proportion(count * (rounds - 1), flights * (rounds - 1)), 0.02)).toBe('not shown');
    }
  });

  it('is not said where the verdict is settled, the estimate is the limit, or nothing flew', () => {
    expect(flightsToSettle(proportion(0, 1000), 0.01)).toBeNull();
    expect(flightsToSettle(proportion(500, 1000), 0.01)).toBeNull();
    expect(flightsToSettle(proportion(10, 1000), 0.01)).toBeNull();
    expect(flightsToSettle(proportion(0, 0), 0.01)).toBeNull();
  });
});
