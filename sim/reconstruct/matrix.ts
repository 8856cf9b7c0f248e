/** Square matrices of the smoother's size, row by row in one array. */
export const STATES = 6;

/** a b, or a b' with `turned`. */
export function multiply(a: Float64Array, b: Float64Array, turned = false): Float64Array<ArrayBuffer> {
  const c = new Float64Array(STATES * STATES);
  for (let i = 0; i < STATES; i++) {
    for (let j = 0; j < STATES; j++) {
      let sum = 0;
      for (let k = 0; k < STATES; k++) sum += a[i * STATES + k] * (turned ? b[j * STATES + k] : b[k * STATES + j]);
      c[i * STATES + j] = sum;
    }
  }
  return c;
}

/** Lower triangle L with L L' = p, after a touch of the diagonal that rounding may need. */
export function rootOf(p: Float64Array): Float64Array {
  const l = new Float64Array(STATES * STATES);
  for (let i = 0; i < STATES; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = p[i * STATES + j];
      for (let k = 0; k < j; k++) sum -= l[i * STATES + k] * l[j * STATES + k];
      l[i * STATES + j] =
        i === j ? Math.sqrt(Math.max(sum, 1e-12 * Math.abs(p[i * STATES + i]) + 1e-18)) : sum / l[j * STATES + j];
    }
  }
  return l;
}

/** a p^-1 for a symmetric p. */
export function solveRight(a: Float64Array, p: Float64Array): Float64Array {
  const l = rootOf(p);
  const x = new Float64Array(STATES * STATES);
  const row = new Float64Array(STATES);
  for (let r = 0; r < STATES; r++) {
    for (let i = 0; i < STATES; i++) {
      let sum = a[r * STATES + i];
      for (let k = 0; k < i; k++) sum -= l[i * STATES + k] * row[k];
      row[i] = sum / l[i * STATES + i];
    }
    for (let i = STATES - 1; i >= 0; i--) {
      let sum = row[i];
      for (let k = i + 1; k < STATES; k++) sum -= l[k * STATES + i] * x[r * STATES + k];
      x[r * STATES + i] = sum / l[i * STATES + i];
    }
  }
  return x;
}
