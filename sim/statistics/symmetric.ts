/** Small symmetric matrices, such as the information about a handful of coefficients. */

export type Matrix = readonly (readonly number[])[];

/** A pivot under this share of its diagonal entry is rounding: the matrix is taken as singular. */
const ROUNDING = 1e-12;

/** Inverse and natural logarithm of the determinant of a positive definite matrix, by Cholesky; null where it is not. */
export function inverseOf(matrix: Matrix): { readonly inverse: Matrix; readonly logDeterminant: number } | null {
  const size = matrix.length;
  const factor = matrix.map(() => new Array<number>(size).fill(0));
  let logDeterminant = 0;
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i][j];
      for (let k = 0; k < j; k++) rest -= factor[i][k] * factor[j][k];
      if (i !== j) factor[i][j] = rest / factor[j][j];
      else {
        if (!(rest > ROUNDING * matrix[i][i])) return null;
        factor[i][i] = Math.sqrt(rest);
        logDeterminant += Math.log(rest);
      }
    }
  const columns = matrix.map((_, unit) => solve(factor, unit));
  return { inverse: columns, logDeterminant };
}

/** The solution x of L L' x = e, the unit vector with this place. */
function solve(factor: Matrix, unit: number): number[] {
  const size = factor.length;
  const x = Array.from({ length: size }, (_, i) => (i === unit ? 1 : 0));
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) x[i] -= factor[i][k] * x[k];
    x[i] /= factor[i][i];
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) x[i] -= factor[k][i] * x[k];
    x[i] /= factor[i][i];
  }
  return x;
}

/** x' M x. */
export function quadraticForm(matrix: Matrix, x: readonly number[]): number {
  return matrix.reduce((sum, row, i) => sum + x[i] * dot(row, x), 0);
}

export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
