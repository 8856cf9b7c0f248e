import { describe, expect, it } from 'vitest';
import { choleskyFactor } from '../../sim/statistics/cholesky.js';
import { matrixProduct, transposed } from '../../sim/statistics/products.js';
import { solveLower, solveUpper, solveWith } from '../../sim/statistics/triangular-solve.js';

/** Whole numbers throughout, so that every step can be followed by hand: L = [2 0 0; 6 1 0; -8 5 3]. */
const MATRIX = [4, 12, -16, 12, 37, -43, -16, -43, 98];
const FACTOR = [2, 0, 0, 6, 1, 0, -8, 5, 3];

describe('the Cholesky factor', () => {
  it('of a positive definite matrix is the triangle that gives the matrix back, whatever is done about zero pivots', () => {
    for (const zeroPivot of ['refused', 'allowed', 'lifted'] as const)
      expect([...(choleskyFactor(MATRIX, 3, zeroPivot) ?? [])]).toEqual(FACTOR);
    const factor = Float64Array.from(FACTOR);
    expect([...matrixProduct(factor, transposed(factor, 3), 3, 3)]).toEqual(MATRIX);
  });

  it('reads the lower triangle alone', () => {
    const lower = MATRIX.map((value, place) => (place % 3 > Math.floor(place / 3) ? Number.NaN : value));
    expect([...choleskyFactor(lower, 3, 'lifted')]).toEqual(FACTOR);
  });

  it('of a singular matrix is refused, has a zero on its diagonal or is lifted, as asked', () => {
    // (1, 1, 2)' (1, 1, 2) and one independent entry.
    const singular = [1, 1, 2, 1, 1, 2, 2, 2, 5];
    expect(choleskyFactor(singular, 3, 'refused')).toBeNull();
    expect([...(choleskyFactor(singular, 3, 'allowed') ?? [])]).toEqual([1, 0, 0, 1, 0, 0, 2, 0, 1]);
    const lifted = choleskyFactor(singular, 3, 'lifted');
    expect(lifted[4]).toBeCloseTo(1e-6, 12);
    const back = matrixProduct(lifted, transposed(lifted, 3), 3, 3);
    back.forEach((value, place) => {
      expect(value).toBeCloseTo(singular[place], 10);
    });
  });

  it('is lifted even of a matrix of zeros', () => {
    expect([...choleskyFactor([0, 0, 0, 0], 2, 'lifted')]).toEqual([1e-9, 0, 0, 1e-9]);
  });

  it('of a matrix with a negative eigenvalue is refused where a singular one is allowed too', () => {
    // Eigenvalues 3 and -1; and a pivot of exactly 0 with an entry of 1/2 below it.
    expect(choleskyFactor([1, 2, 2, 1], 2, 'allowed')).toBeNull();
    expect(choleskyFactor([1, 1, 0, 1, 1, 0.5, 0, 0.5, 1], 3, 'allowed')).toBeNull();
  });
});

describe('the equations of a triangle', () => {
  const factor = Float64Array.from(FACTOR);

  it('have the solution that gives the right-hand side back', () => {
    // L (1, 2, 3)' = (2, 8, 11)', L' (1, 2, 3)' = (-10, 17, 9)', M (1, 2, 3)' = (-20, -43, 192)'.
    expect([...solveLower(factor, Float64Array.of(2, 8, 11))]).toEqual([1, 2, 3]);
    expect([...solveUpper(factor, Float64Array.of(-10, 17, 9))]).toEqual([1, 2, 3]);
    expect([...solveWith(factor, Float64Array.of(-20, -43, 192))]).toEqual([1, 2, 3]);
  });

  it('are solved in place, also in a row of a larger array', () => {
    const rows = Float64Array.of(0, 0, 0, 2, 8, 11);
    solveLower(factor, rows.subarray(3));
    expect([...rows]).toEqual([0, 0, 0, 1, 2, 3]);
  });
});
