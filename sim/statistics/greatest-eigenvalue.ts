/** Steps of the iteration; the error left is about (second greatest/greatest)^(2 x steps). */
const STEPS = 60;

/**
 * Greatest eigenvalue of a correlation matrix, which is given row by row in one array; it is at least 1, the mean of all
 * eigenvalues. Power iteration: v <- M v/|M v|, eigenvalue = |M v|/|v|. The start has the components sqrt(2)^i + i/10:
 * power iteration never finds an eigenvector orthogonal to its start, and this start is orthogonal to no eigenvector that
 * equal correlations among a few quantities give.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 7.3.1 (cited from memory).
 */
export function greatestEigenvalue(matrix: Float64Array): number {
  const size = Math.sqrt(matrix.length);
  let vector = Array.from({ length: size }, (_, i) => Math.SQRT2 ** i + 0.1 * i);
  let greatest = 1;
  for (let step = 0; step < STEPS; step++) {
    const next = vector.map((_, i) => vector.reduce((sum, component, j) => sum + matrix[i * size + j] * component, 0));
    greatest = Math.hypot(...next) / Math.hypot(...vector);
    const length = Math.hypot(...next);
    vector = next.map((component) => component / length);
  }
  return Math.max(1, greatest);
}
