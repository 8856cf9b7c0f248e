import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { betaByMoments, betaQuantileOf, betaShareWithin } from '../../sim/statistics/beta-law.js';
import { betweenWorlds } from '../../sim/statistics/between-worlds.js';

describe('spread between worlds', () => {
  // Worked by hand: shares 0, 1/2, 1; S^2 = 1/4; scatter (0 + 1/4 + 0)/3/(2 - 1) = 1/12.
  it('takes the scatter inside the worlds off', () => {
    const found = betweenWorlds([0, 1, 2], 2);
    expect(found.mean).toBeCloseTo(0.5, 12);
    expect(found.variance).toBeCloseTo(1 / 4 - 1 / 12, 12);
  });

  it('is unbiased where all worlds are alike and where they follow a known law', () => {
    const random = seedrandom('worlds of the test');
    const studies = 400;
    const mean = { alike: 0, spread: 0 };
    for (let study = 0; study < studies; study++) {
      const alike = Array.from({ length: 100 }, () => countOf(random, 60, 0.04));
      mean.alike += betweenWorlds(alike, 60).variance / studies;
      // Uniform on 0.01..0.09: mean 0.05, variance 0.08^2/12.
      const spread = Array.from({ length: 100 }, () => countOf(random, 60, 0.01 + 0.08 * random.double()));
      mean.spread += betweenWorlds(spread, 60).variance / studies;
    }
    // One study scatters by about 1e-4 (alike) and 2e-4; 400 by a twentieth of it; three of those allowed.
    expect(Math.abs(mean.alike)).toBeLessThan(1.5e-5);
    expect(Math.abs(mean.spread - 0.08 ** 2 / 12)).toBeLessThan(3e-5);
  });

  it('gives the beta law with these moments, and none where there is none', () => {
    // Beta(2, 38): mean 0.05, variance 0.05 * 0.95 / 41.
    const law = betaByMoments({ mean: 0.05, variance: (0.05 * 0.95) / 41 });
    expect(law?.a).toBeCloseTo(2, 9);
    expect(law?.b).toBeCloseTo(38, 9);
    expect(betaByMoments({ mean: 0.05, variance: -1e-5 })).toBeNull();
    expect(betaByMoments({ mean: 0, variance: 0 })).toBeNull();
    expect(betaByMoments({ mean: 0.5, variance: 0.25 })).toBeNull();
  });

  it('reads shares and quantiles off the law', () => {
    // Beta(1, b): P(X <= x) = 1 - (1 - x)^b.
    expect(betaShareWithin({ a: 1, b: 19 }, 0.05)).toBeCloseTo(1 - 0.95 ** 19, 9);
    expect(betaQuantileOf({ a: 1, b: 19 }, 0.95)).toBeCloseTo(1 - 0.05 ** (1 / 19), 9);
  });
});

function countOf(random: seedrandom.PRNG, flights: number, probability: number): number {
  let count = 0;
  for (let i = 0; i < flights; i++) if (random.double() < probability) count += 1;
  return count;
}
