/**
 * What becomes of a pivot (the part of a diagonal entry that the rows above leave over) that is zero up to rounding:
 * - 'refused': the matrix counts as singular and there is no factor;
 * - 'allowed': the pivot is 0, and so is the rest of its column; a pivot clearly under 0 leaves no factor;
 * - 'lifted': the pivot is raised to the least value that can be divided by, so that there is always a factor.
 */
export type ZeroPivot = 'refused' | 'allowed' | 'lifted';

/** A pivot under this share of its diagonal entry is rounding. */
const ROUNDING = 1e-12;
/** The least lifted pivot of a matrix whose diagonal entry is itself zero. */
const LEAST_PIVOT = 1e-18;

/**
 * Cholesky factor of a symmetric matrix M: the lower triangle L with L L' = M, both row by row in one array.
 *
 *   L_jj = sqrt(M_jj - sum_(k<j) L_jk^2),   L_ij = (M_ij - sum_(k<j) L_ik L_jk)/L_jj  for i > j.
 *
 * Only the lower triangle of M is read. Units: those of the square root of M. Null where `zeroPivot` says so.
 * Source: Golub and Van Loan, Matrix Computations, 4th ed. 2013, section 4.2 (cited from memory).
 */
export function choleskyFactor(matrix: ArrayLike<number>, size: number, zeroPivot: 'lifted'): Float64Array;
export function choleskyFactor(matrix: ArrayLike<number>, size: number, zeroPivot: ZeroPivot): Float64Array | null;
export function choleskyFactor(matrix: ArrayLike<number>, size: number, zeroPivot: ZeroPivot): Float64Array | null {
  const factor = new Float64Array(size * size);
  for (let i = 0; i < size; i++)
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i * size + j];
      for (let k = 0; k < j; k++) rest -= factor[i * size + k] * factor[j * size + k];
      const entry = i === j ? diagonalOf(rest, matrix[i * size + i], zeroPivot) : besideOf(rest, factor[j * size + j]);
      if (entry === null) return null;
      factor[i * size + j] = entry;
    }
  return factor;
}

function diagonalOf(pivot: number, entry: number, zeroPivot: ZeroPivot): number | null {
  if (zeroPivot === 'lifted') return Math.sqrt(Math.max(pivot, ROUNDING * Math.abs(entry) + LEAST_PIVOT));
  if (pivot > ROUNDING * entry) return Math.sqrt(pivot);
  return zeroPivot === 'allowed' && pivot >= -ROUNDING * entry ? 0 : null;
}

/** Beside a zero on the diagonal only zeros can stand. */
function besideOf(rest: number, diagonal: number): number | null {
  if (diagonal !== 0) return rest / diagonal;
  return Math.abs(rest) > Math.sqrt(ROUNDING) ? null : 0;
}
