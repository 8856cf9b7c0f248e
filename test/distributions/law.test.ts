import lognormalQuantile from '@stdlib/stats-base-dists-lognormal-quantile';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import triangularQuantile from '@stdlib/stats-base-dists-triangular-quantile';
import weibullQuantile from '@stdlib/stats-base-dists-weibull-quantile';
import fc from 'fast-check';
import { mean, quantileSorted, variance } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import type { Distribution, UncertainValue } from '../../sim/distributions/distribution.js';
import {
  createLaw,
  LEAST_UNIFORM,
  MOST_UNIFORM,
  quantile,
  quantileOf,
  settle,
  shareWithinBounds,
} from '../../sim/distributions/law.js';
import { fixed, unmeasured, varies } from '../draws/scenario.js';

const INFINITE = [null, null] as const;

/** Asserts the value at each quantile, to a relative difference. */
function expectQuantiles(value: UncertainValue, pairs: readonly (readonly [number, number])[], relative: number): void {
  for (const [u, expected] of pairs) {
    const difference = Math.abs(quantileOf(value, u) - expected);
    expect(difference / Math.max(Math.abs(expected), 1e-6), `at ${u}`).toBeLessThan(relative);
  }
}

describe('published values', () => {
  // Recomputed from the formulas with SciPy and mpmath.
  const table: readonly (readonly [string, Distribution, readonly (number | null)[], readonly number[]])[] = [
    ['normal', { family: 'normal', mean: 0, sd: 1 }, INFINITE, [-3.09023230616781, 0, 1.95996398454005]],
    ['log-normal', { family: 'log-normal', median: 1, spread: 0.25 }, INFINITE, [0.4618301590738, 1, 1.63230152286668]],
    [
      'triangular',
      { family: 'triangular', from: 0, mode: 3, to: 10 },
      INFINITE,
      [0.17320508075688, 4.08392021690038, 8.6771243444677],
    ],
    [
      'Weibull',
      { family: 'weibull', shape: 2, scale: 1 },
      INFINITE,
      [0.03163068658096, 0.83255461115769, 1.92064558263984],
    ],
    [
      'beta',
      { family: 'beta', a: 2, b: 5, from: 0, to: 1 },
      INFINITE,
      [0.00825549278774, 0.26444998329566, 0.64123457899767],
    ],
    ['uniform', { family: 'uniform', from: -2, to: 6 }, INFINITE, [-1.992, 2, 5.8]],
    [
      'normal cut to [-1, 2]',
      { family: 'normal', mean: 0, sd: 1 },
      [-1, 2],
      [-0.99662267153484, 0.17116391801782, 1.71453783507106],
    ],
  ];
  for (const [name, distribution, bounds, [low, middle, high]] of table)
    test(`quantiles of the ${name} distribution at 0.001, 0.5 and 0.975`, () => {
      const pairs = [[0.001, low] as const, [0.5, middle] as const, [0.975, high] as const];
      expectQuantiles(varies(distribution, bounds), pairs, 1e-12);
    });

  // Recomputed with mpmath at 60 digits: bounds so far out that 1 - F(bound) is lost in the rounding of F(bound).
  const farTails: readonly (readonly [string, Distribution, readonly (number | null)[], readonly number[]])[] = [
    [
      'normal over 8 standard deviations',
      { family: 'normal', mean: 0, sd: 1 },
      [8, null],
      [8.00012319264934, 8.08491100739154, 8.81065276092076],
    ],
    [
      'normal from -9 to -8 standard deviations',
      { family: 'normal', mean: 0, sd: 1 },
      [-9, -8],
      [-8.79196358661889, -8.08488889901816, -8.00012317028908],
    ],
    [
      'log-normal from 3 to 4 medians',
      { family: 'log-normal', median: 1, spread: 0.25 },
      [3, 4],
      [3.00016259016455, 3.11287444529731, 3.9441286397451],
    ],
    [
      'Weibull over 6 scales',
      { family: 'weibull', shape: 2, scale: 1 },
      [6, null],
      [6.00008337444852, 6.05748687002786, 6.55040115405019],
    ],
    [
      'triangular in its last ten-thousandth',
      { family: 'triangular', from: 0, mode: 3, to: 10 },
      [9.999, null],
      [9.99900050012506, 9.99929289321881, 9.99996837722339],
    ],
    [
      'beta over 0.95',
      { family: 'beta', a: 2, b: 5, from: 0, to: 1 },
      [0.95, null],
      [0.95001009173863, 0.95652167364818, 0.98752095600152],
    ],
  ];
  for (const [name, distribution, bounds, [low, middle, high]] of farTails)
    test(`a cut in the far tail keeps its digits: ${name}`, () => {
      const pairs = [[0.001, low] as const, [0.5, middle] as const, [0.999, high] as const];
      expectQuantiles(varies(distribution, bounds), pairs, 1e-11);
    });

  test('the normal distribution cut to [-1, 2] has mean 0.2296371791 and variance 0.5197625392', () => {
    // Sampled at the midpoints of n equal cells of u: a quadrature, so there is no luck in it (SciPy truncnorm.stats).
    const law = createLaw(varies({ family: 'normal', mean: 0, sd: 1 }, [-1, 2]));
    const values = Array.from({ length: 20_000 }, (_, i) => quantile(law, (i + 0.5) / 20_000));
    expect(mean(values)).toBeCloseTo(0.2296371791, 7);
    expect(variance(values)).toBeCloseTo(0.5197625392, 7);
  });

  test('k failures in n trials give the Jeffreys posterior', () => {
    // 0/10: mean 0.0454545, 95 % [.0000479, .217196]; 1/30: [.003620, .145418], recomputed with SciPy.
    const none = varies({ family: 'trials', trials: 10, failures: 0 });
    expectQuantiles(
      none,
      [
        [0.025, 4.78904332e-5],
        [0.975, 0.217196268],
      ],
      1e-8,
    );
    expectQuantiles(
      varies({ family: 'trials', trials: 30, failures: 1 }),
      [
        [0.025, 0.00362046],
        [0.975, 0.14541778],
      ],
      1e-5,
    );
    const law = createLaw(none);
    const values = Array.from({ length: 20_000 }, (_, i) => quantile(law, (i + 0.5) / 20_000));
    // The upper tail is long: the quadrature itself is 6e-7 off.
    expect(mean(values)).toBeCloseTo(0.5 / 11, 5);
  });
});

describe('against an independent implementation', () => {
  const grid = Array.from({ length: 999 }, (_, i) => (i + 1) / 1000);
  const references: readonly (readonly [Distribution, (u: number) => number])[] = [
    [{ family: 'normal', mean: 3, sd: 0.5 }, (u) => normalQuantile(u, 3, 0.5)],
    [{ family: 'log-normal', median: 4, spread: 0.7 }, (u) => lognormalQuantile(u, Math.log(4), 0.7)],
    [{ family: 'triangular', from: -1, mode: 7, to: 8 }, (u) => triangularQuantile(u, -1, 8, 7)],
    [{ family: 'weibull', shape: 0.8, scale: 6 }, (u) => weibullQuantile(u, 0.8, 6)],
  ];
  for (const [distribution, reference] of references)
    test(`${distribution.family} agrees with @stdlib`, () => {
      const value = varies(distribution);
      expectQuantiles(
        value,
        grid.map((u) => [u, reference(u)]),
        1e-11,
      );
    });

  test('samples agree with quantile type 7 of simple-statistics, equal values included', () => {
    const values = [0.31, 0.4, 0.4, 0.4, 0.52, 0.7, 1.9];
    expectQuantiles(
      varies({ family: 'samples', values }),
      grid.map((u) => [u, quantileSorted(values, u)]),
      1e-12,
    );
  });
});

describe('laws of every family', () => {
  const distributions: readonly Distribution[] = [
    { family: 'normal', mean: 3, sd: 2 },
    { family: 'log-normal', median: 0.2, spread: 0.6 },
    { family: 'uniform', from: -1, to: 2 },
    { family: 'triangular', from: 0, mode: 0, to: 4 },
    { family: 'triangular', from: 0, mode: 3, to: 4 },
    { family: 'triangular', from: 0, mode: 4, to: 4 },
    { family: 'beta', a: 0.4, b: 3, from: -2, to: 6 },
    { family: 'weibull', shape: 1, scale: 3 },
    { family: 'weibull', shape: 0.3, scale: 0.01 },
    { family: 'samples', values: [1, 1, 2, 5, 5, 5, 9] },
    { family: 'samples', values: [4] },
    { family: 'trials', trials: 240, failures: 0 },
    { family: 'trials', trials: 3, failures: 3 },
  ];
  const anyUniform = fc.double({ min: LEAST_UNIFORM, max: MOST_UNIFORM, noNaN: true });

  for (const distribution of distributions) {
    const name = JSON.stringify(distribution);

    test(`no uniform number gives NaN or infinity: ${name}`, () => {
      for (const bounds of [INFINITE, [0.5, null], [null, 1.5], [0.5, 1.5], [1e3, null], [null, -1e3]]) {
        const law = createLaw(varies(distribution, bounds));
        for (const u of [LEAST_UNIFORM, 2 ** -53, 1e-12, 0.5, 1 - 1e-12, MOST_UNIFORM])
          expect(quantile(law, u), `${u} in ${bounds}`).toSatisfy(Number.isFinite);
      }
    });

    test(`a larger uniform number never gives a smaller value, and bounds hold: ${name}`, () => {
      fc.assert(
        fc.property(anyUniform, anyUniform, fc.double({ min: -3, max: 9, noNaN: true }), (one, other, atLeast) => {
          const whole = createLaw(varies(distribution));
          const cut = createLaw(varies(distribution, [atLeast, atLeast + 1]));
          for (const law of [whole, cut])
            expect(quantile(law, Math.min(one, other))).toBeLessThanOrEqual(quantile(law, Math.max(one, other)));
          expect(quantile(cut, one)).toBeGreaterThanOrEqual(atLeast);
          expect(quantile(cut, one)).toBeLessThanOrEqual(atLeast + 1);
        }),
        { numRuns: 200, seed: 1 },
      );
    });

    test(`the probability under a value is the quantile it came from: ${name}`, () => {
      const { family, parameters } = createLaw(varies(distribution));
      for (let u = 0.01; u < 1; u += 0.01) {
        const x = family.quantile(u, 1 - u, parameters);
        // Where a value has probability of its own, u lies between P(X < x) and P(X <= x).
        expect(family.below(x, parameters)).toBeLessThan(u + 1e-9);
        expect(1 - family.above(x, parameters)).toBeGreaterThan(u - 1e-9);
      }
    });
  }
});

describe('bounds', () => {
  test('that leave everything change nothing', () => {
    const free = varies({ family: 'weibull', shape: 2, scale: 3 });
    const bounded = varies({ family: 'weibull', shape: 2, scale: 3 }, [0, null]);
    expectQuantiles(
      bounded,
      [0.01, 0.3, 0.99].map((u) => [u, quantileOf(free, u)]),
      1e-15,
    );
  });

  test('that a number cannot tell from no probability at all give the nearer bound', () => {
    expect(quantileOf(varies({ family: 'normal', mean: 0, sd: 1 }, [50, null]), 0.5)).toBe(50);
    expect(quantileOf(varies({ family: 'normal', mean: 0, sd: 1 }, [50, 60]), 0.5)).toBe(50);
    expect(quantileOf(varies({ family: 'normal', mean: 0, sd: 1 }, [null, -50]), 0.5)).toBe(-50);
    expect(quantileOf(varies({ family: 'uniform', from: 0, to: 1 }, [3, 4]), 0.5)).toBe(3);
  });

  test('keep equal measured values that stand on them', () => {
    // Type 7 places 1, 1, 1, 2, 3 at 0, 1/4, 1/2, 3/4, 1: half of the probability is at 1, a quarter from 1 to 2.
    const value = varies({ family: 'samples', values: [1, 1, 1, 2, 3] }, [1, 2]);
    expect(quantileOf(value, 0.6)).toBe(1);
    expect(quantileOf(value, 5 / 6)).toBeCloseTo(1.5, 12);
    expect(shareWithinBounds(value)).toBeCloseTo(0.75, 12);
    // Of 1, 2, 3, 4, 4 a quarter of the probability is at 4.
    const high = varies({ family: 'samples', values: [1, 2, 3, 4, 4] }, [4, null]);
    expect(shareWithinBounds(high)).toBeCloseTo(0.25, 12);
    expect(quantileOf(high, 0.01)).toBe(4);
  });

  test('have the share of the distribution inside them reported', () => {
    const normal: Distribution = { family: 'normal', mean: 0, sd: 1 };
    // 68.27 %, 95.45 % of a normal distribution within one and two standard deviations: any table.
    expect(shareWithinBounds(varies(normal))).toBe(1);
    expect(shareWithinBounds(varies(normal, [-1, 1]))).toBeCloseTo(0.6826894921, 9);
    expect(shareWithinBounds(varies(normal, [null, 2]))).toBeCloseTo(0.9772498681, 9);
    expect(shareWithinBounds(varies(normal, [9, null]))).toBeCloseTo(0, 12);
    expect(shareWithinBounds(varies(normal, [9, null]))).toBeGreaterThan(0);
    expect(shareWithinBounds(varies({ family: 'uniform', from: 0, to: 1 }, [2, 3]))).toBe(0);
  });
});

describe('parameters that are themselves unmeasured', () => {
  test('stand at their medians where only the input is asked for', () => {
    const median = unmeasured({ family: 'log-normal', median: 1.2, spread: 0.3 });
    expect(quantileOf(varies({ family: 'log-normal', median, spread: 0.4 }), 0.5)).toBeCloseTo(1.2, 12);
    expect(quantileOf(fixed(3), 0.9)).toBe(3);
  });

  test('are put in order when they were drawn out of range', () => {
    const drawn: readonly (readonly [Distribution, readonly number[]])[] = [
      [{ family: 'normal', mean: 1, sd: 1 }, [1, -0.3]],
      [{ family: 'log-normal', median: 1, spread: 1 }, [-1, -1]],
      [{ family: 'uniform', from: 0, to: 1 }, [2, 1]],
      [{ family: 'triangular', from: 0, mode: 1, to: 2 }, [0, 3, 2]],
      [{ family: 'triangular', from: 0, mode: 1, to: 2 }, [4, 3, 2]],
      [{ family: 'beta', a: 1, b: 1, from: 0, to: 1 }, [-1, 0, 3, 2]],
      [{ family: 'weibull', shape: 1, scale: 1 }, [0, -1]],
    ];
    for (const [distribution, parameters] of drawn)
      for (const bounds of [INFINITE, [0.5, 1.5]]) {
        const law = createLaw(varies(distribution, bounds));
        law.parameters.set(parameters);
        settle(law);
        for (const u of [LEAST_UNIFORM, 0.1, 0.5, 0.9, MOST_UNIFORM])
          expect(quantile(law, u), `${distribution.family} ${parameters}`).toSatisfy(Number.isFinite);
      }
  });
});
