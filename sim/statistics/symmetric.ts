/** Small symmetric matrices, such as the information about a handful of coefficients. */
import { choleskyFactor } from './cholesky.js';
import { dot } from './products.js';
import { solveWith } from './triangular-solve.js';

export type Matrix = readonly (readonly number[])[];

/** Inverse of a positive definite matrix and natural logarithm of its determinant, 2 sum ln L_ii; null where it is singular. */
export function inverseOf(matrix: Matrix): { readonly inverse: Matrix; readonly logDeterminant: number } | null {
  const size = matrix.length;
  const factor = choleskyFactor(matrix.flat(), size, 'refused');
  if (factor === null) return null;
  let logDeterminant = 0;
  for (let i = 0; i < size; i++) logDeterminant += 2 * Math.log(factor[i * size + i]);
  const inverse = matrix.map((_, unit) => {
    const column = new Float64Array(size);
    column[unit] = 1;
    return Array.from(solveWith(factor, column));
  });
  return { inverse, logDeterminant };
}

/** x' M x. */
export function quadraticForm(matrix: Matrix, x: readonly number[]): number {
  return matrix.reduce((sum, row, i) => sum + x[i] * dot(row, x), 0);
}
