/**
 * Systems of linear equations by the lower triangle L of a Cholesky factor, row by row in one array. Each function puts
 * the solution in the place of the right-hand side and returns it.
 *
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 3.1 (cited from memory).
 */

/** L x = b, from the first row on: x_i = (b_i - sum_(k<i) L_ik x_k)/L_ii. */
export function solveLower(factor: Float64Array, x: Float64Array): Float64Array {
  const size = x.length;
  for (let i = 0; i < size; i++) {
    let rest = x[i];
    for (let k = 0; k < i; k++) rest -= factor[i * size + k] * x[k];
    x[i] = rest / factor[i * size + i];
  }
  return x;
}

/** L' x = b, from the last row back: x_i = (b_i - sum_(k>i) L_ki x_k)/L_ii. */
export function solveUpper(factor: Float64Array, x: Float64Array): Float64Array {
  const size = x.length;
  for (let i = size - 1; i >= 0; i--) {
    let rest = x[i];
    for (let k = i + 1; k < size; k++) rest -= factor[k * size + i] * x[k];
    x[i] = rest / factor[i * size + i];
  }
  return x;
}

/** L L' x = b. */
export function solveWith(factor: Float64Array, x: Float64Array): Float64Array {
  return solveUpper(factor, solveLower(factor, x));
}
