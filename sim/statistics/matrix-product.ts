/**
 * Product of a matrix of some rows and a square matrix of `size` rows and columns, both row by row in one array:
 * (A B)_ij = sum_k A_ik B_kj, summed from k = 0 on.
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
