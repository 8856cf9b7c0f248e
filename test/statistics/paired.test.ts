import { describe, expect, it } from 'vitest';
import { flightsForWidth, mcNemar, tangoInterval } from '../../sim/statistics/paired.js';

/** Fagerland, Lydersen and Laake, Statistics in Medicine 33:2850, 2014, table II. */
const FAGERLAND = { both: 1, onlyA: 1, onlyB: 7, neither: 12 };
/** Agresti and Min, Statistics in Medicine 24:729, 2005 (the counts from memory). */
const AGRESTI = { both: 53, onlyA: 16, onlyB: 8, neither: 9 };
const IDENTICAL = { both: 990, onlyA: 0, onlyB: 0, neither: 10 };

describe('exact McNemar test', () => {
  // Closed form: twice the sum of the binomial coefficients up to the smaller count, over 2^8 and 2^24.
  it('is the tail of a fair coin, doubled', () => {
    expect(mcNemar(FAGERLAND)).toBeCloseTo((2 * (1 + 8)) / 2 ** 8, 14);
    const coefficients = [1, 24, 276, 2024, 10_626, 42_504, 134_596, 346_104, 735_471];
    expect(mcNemar(AGRESTI)).toBeCloseTo((2 * coefficients.reduce((sum, one) => sum + one)) / 2 ** 24, 14);
  });

  it('is 1 without discordant pairs and where both sides are equal', () => {
    expect(mcNemar(IDENTICAL)).toBe(1);
    expect(mcNemar({ both: 0, onlyA: 6, onlyB: 6, neither: 9 })).toBe(1);
  });
});

/**
 * Tango's statistic at a difference, recomputed: the chance q of "only B" is where the likelihood of the four counts turns,
 * found by halving the sign of its derivative; the program solves the quadratic equation instead.
 */
function scoreAt(difference: number, { both, onlyA, onlyB, neither }: typeof FAGERLAND): number {
  const n = both + onlyA + onlyB + neither;
  let [low, high] = [Math.max(0, -difference), (1 - difference) / 2];
  for (let k = 0; k < 100; k += 1) {
    const q = (low + high) / 2;
    const rises = onlyA / (q + difference) + onlyB / q - (2 * (both + neither)) / (1 - 2 * q - difference) > 0;
    [low, high] = rises ? [q, high] : [low, q];
  }
  return (onlyA - onlyB - n * difference) / Math.sqrt(n * (2 * low + difference * (1 - difference)));
}

describe('Tango score interval', () => {
  // Fagerland and others, table V, as the validation programs of other implementations quote it.
  it('reproduces published limits', () => {
    const { lower, upper } = tangoInterval(FAGERLAND);
    expect(lower).toBeCloseTo(-0.517, 3);
    expect(upper).toBeCloseTo(-0.026, 3);
  });

  it('ends where the score statistic is 1.96 either way', () => {
    for (const counts of [FAGERLAND, AGRESTI]) {
      const { lower, upper } = tangoInterval(counts);
      expect(scoreAt(lower, counts)).toBeCloseTo(1.959963984540054, 9);
      expect(scoreAt(upper, counts)).toBeCloseTo(-1.959963984540054, 9);
    }
  });

  // Closed form without discordant pairs: n D / (1 - D) = z^2, so D = z^2/(n + z^2).
  it('keeps a width where all outcomes are identical', () => {
    const { lower, upper } = tangoInterval(IDENTICAL);
    const square = 1.959963984540054 ** 2;
    expect(upper).toBeCloseTo(square / (1000 + square), 12);
    expect(lower).toBeCloseTo(-upper, 12);
    expect(upper).toBeCloseTo(0.003827, 6);
  });

  it('is mirrored when A and B change places', () => {
    const here = tangoInterval({ both: 3, onlyA: 40, onlyB: 12, neither: 7945 });
    const there = tangoInterval({ both: 3, onlyA: 12, onlyB: 40, neither: 7945 });
    expect(here.lower).toBeCloseTo(-there.upper, 12);
    expect(here.upper).toBeCloseTo(-there.lower, 12);
  });

  it('ends at -1 and 1 where every pair is discordant the same way, and without pairs', () => {
    expect(tangoInterval({ both: 0, onlyA: 9, onlyB: 0, neither: 0 }).upper).toBe(1);
    expect(tangoInterval({ both: 0, onlyA: 0, onlyB: 9, neither: 0 }).lower).toBe(-1);
    expect(tangoInterval({ both: 0, onlyA: 0, onlyB: 0, neither: 0 })).toEqual({ lower: -1, upper: 1 });
  });
});

describe('pairs for a given width', () => {
  it('is 3.84 d / m^2 and makes the interval about that wide', () => {
    const counts = { both: 100, onlyA: 80, onlyB: 60, neither: 7760 };
    const needed = flightsForWidth(counts, 0.002) ?? 0;
    const times = needed / 8000;
    const { lower, upper } = tangoInterval({
      both: 100 * times,
      onlyA: 80 * times,
      onlyB: 60 * times,
      neither: 7760 * times,
    });
    expect((upper - lower) / 2).toBeLessThan(0.002);
    expect((upper - lower) / 2).toBeGreaterThan(0.0017);
  });

  it('is finite for identical outcomes and not said for a width of 0', () => {
    // d = 1 - 0.05^(1/1000) = 0.0029912; 3.8415 * 0.0029912 / 0.005^2 = 459.6.
    expect(flightsForWidth(IDENTICAL, 0.005)).toBe(460);
    expect(flightsForWidth(IDENTICAL, 0)).toBeNull();
  });
});
