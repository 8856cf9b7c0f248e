import { describe, expect, it } from 'vitest';
import { greatestEigenvalue } from '../../sim/statistics/greatest-eigenvalue.js';

/** All pairs of `size` quantities correlated alike. */
function alike(size: number, correlation: number): Float64Array {
  return Float64Array.from({ length: size * size }, (_, place) => (place % (size + 1) === 0 ? 1 : correlation));
}

describe('the greatest eigenvalue of a correlation matrix', () => {
  it('of two quantities is 1 + |r|, whichever the sign', () => {
    for (const r of [-1, -0.4, 0, 0.05, 0.9, 1])
      expect(greatestEigenvalue(alike(2, r))).toBeCloseTo(1 + Math.abs(r), Math.abs(r) < 0.1 ? 2 : 9);
  });

  it('of n quantities correlated alike is 1 + (n - 1) r', () => {
    for (const size of [1, 3, 6]) expect(greatestEigenvalue(alike(size, 0.5))).toBeCloseTo(1 + (size - 1) / 2, 9);
  });

  it('of independent quantities is 1', () => {
    expect(greatestEigenvalue(alike(4, 0))).toBe(1);
  });

  it('of a chain 1, r, 0 is 1 + r sqrt 2', () => {
    expect(greatestEigenvalue(Float64Array.of(1, 0.5, 0, 0.5, 1, 0.5, 0, 0.5, 1))).toBeCloseTo(1 + Math.SQRT1_2, 9);
  });
});
