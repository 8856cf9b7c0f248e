/** Products of vectors and of matrices, which are held row by row in one array. */

/** Scalar product of two vectors, summed from the first component on. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

/**
 * Product of a matrix of some rows and a square matrix of `size` rows and columns, with sums from k = 0 on:
 * (A B)_ij = sum_k A_ik B_kj.
 */
export function matrixProduct(left: Float64Array, right: Float64Array, rows: number, size: number): Float64Array {
  const result = new Float64Array(rows * size);
  for (let row = 0; row < rows; row++) {
    for (let inner = 0; inner < size; inner++) {
      const factor = left[row * size + inner];
      if (factor === 0) continue;
      for (let column = 0; column < size; column++) {
        result[row * size + column] += factor * right[inner * size + column];
      }
    }
  }
  return result;
}

/** A square matrix with rows and columns exchanged. */
export function transposed(matrix: Float64Array, size: number): Float64Array {
  return matrix.map((_, place) => matrix[(place % size) * size + Math.floor(place / size)]);
}
