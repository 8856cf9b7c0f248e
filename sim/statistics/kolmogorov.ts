import { matrixProduct } from './products.js';
import { sortedValues } from './quantile.js';

/**
 * Kolmogorov-Smirnov distance: the largest distance between the empirical distribution of numbers in [0, 1] and the
 * uniform distribution.
 */
export function uniformDistance(uniforms: ArrayLike<number>): number {
  const sorted = sortedValues(uniforms);
  const n = sorted.length;
  let distance = 0;
  for (let i = 0; i < n; i++) distance = Math.max(distance, (i + 1) / n - sorted[i], sorted[i] - i / n);
  return distance;
}

/** Up to this number of values the law is computed exactly everywhere. */
const LAST_EXACT = 140;

/**
 * P(D >= d) for the two-sided one-sample Kolmogorov-Smirnov distance D of n independent uniform numbers.
 *
 * In the tail (n d^2 >= 4, above 140 numbers 2.2): twice the exact one-sided law, right to a relative 1e-6 or better.
 * Else up to 140 numbers: the exact matrix form; above: the asymptotic series of Pelz and Good, right to five digits.
 *
 * Sources: Marsaglia, Tsang and Wang, Journal of Statistical Software 8(18), 2003; Simard and L'Ecuyer, Journal of
 * Statistical Software 39(11), 2011 (which method where, and the errors); Pelz and Good, J. R. Statist. Soc. B 38:152,
 * 1976.
 */
export function kolmogorovPValue(d: number, n: number): number {
  if (n === 0 || n * d <= 0.5) return 1;
  if (d >= 1) return 0;
  const tail = n * d * d;
  if (tail >= (n <= LAST_EXACT ? 4 : 2.2)) return Math.min(1, 2 * oneSided(d, n));
  const below = n <= LAST_EXACT ? matrixForm(d, n) : pelzGood(d * Math.sqrt(n), n);
  return Math.min(1, Math.max(0, 1 - below));
}

/** P(D+ >= d) = d sum_j C(n, j) (d + j/n)^(j-1) (1 - d - j/n)^(n-j), j to n(1 - d): Smirnov's law, exact. */
function oneSided(d: number, n: number): number {
  let sum = 0;
  let logCombinations = 0;
  for (let j = 0; j <= n * (1 - d); j++) {
    const left = 1 - d - j / n;
    const power = left > 0 ? (n - j) * Math.log(left) : n === j ? 0 : Number.NEGATIVE_INFINITY;
    sum += Math.exp(logCombinations + (j - 1) * Math.log(d + j / n) + power);
    logCombinations += Math.log((n - j) / (j + 1));
  }
  return d * sum;
}

/** P(D < d) = n!/n^n (H^n)[k, k] with the matrix H of Durbin, size 2k - 1, k = ceil(n d). */
function matrixForm(d: number, n: number): number {
  const k = Math.ceil(n * d);
  const size = 2 * k - 1;
  const h = k - n * d;
  const matrix = new Float64Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      if (row - column + 1 < 0) continue;
      let value = 1;
      if (column === 0) value -= h ** (row + 1);
      if (row === size - 1) value -= h ** (size - column);
      if (row === size - 1 && column === 0) value += Math.max(0, 2 * h - 1) ** size;
      for (let factor = row - column + 1; factor > 1; factor--) value /= factor;
      matrix[row * size + column] = value;
    }
  }
  // The powers leave the range of doubles, and n!/n^n is about e^-n: both go in logarithms.
  const [element, elementLog] = powerElement(matrix, size, n, k - 1);
  let logScale = elementLog;
  for (let i = 1; i <= n; i++) logScale += Math.log(i / n);
  return element * Math.exp(logScale);
}

/** Element [at, at] of matrix^exponent as [value, natural logarithm of its scale]. */
function powerElement(matrix: Float64Array, size: number, exponent: number, at: number): [number, number] {
  let base = matrix;
  let baseLog = 0;
  let row: Float64Array = new Float64Array(size);
  row[at] = 1;
  let rowLog = 0;
  for (let left = exponent; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) {
      row = matrixProduct(row, base, 1, size);
      rowLog += baseLog + rescale(row);
    }
    base = matrixProduct(base, base, size, size);
    baseLog = 2 * baseLog + rescale(base);
  }
  return [row[at], rowLog];
}

/** Divides all values by the largest, in place, and returns the natural logarithm of the largest. */
function rescale(values: Float64Array): number {
  let largest = 0;
  for (const value of values) largest = Math.max(largest, value);
  for (let i = 0; i < values.length; i++) values[i] /= largest;
  return Math.log(largest);
}

/** Terms of the series that matter for z = d sqrt(n) up to 1.5. */
const TERMS = 20;

/** P(D < d) ~ K0(z) + K1(z)/n^(1/2) + K2(z)/n + K3(z)/n^(3/2), z = d sqrt(n): Pelz and Good 1976. */
function pelzGood(z: number, n: number): number {
  const [z2, z4, z6, z8] = [z ** 2, z ** 4, z ** 6, z ** 8];
  let [k0, k1, k2, k3] = [0, 0, 0, 0];
  let [k2Whole, k3Whole] = [0, 0];
  for (let term = 0; term < TERMS; term++) {
    const half = (Math.PI * (term + 0.5)) ** 2;
    const weight = 2 * Math.exp(-half / (2 * z2));
    k0 += weight;
    k1 += weight * (half - z2);
    k2 += weight * (6 * z6 + 2 * z4 + half * (2 * z4 - 5 * z2) + half ** 2 * (1 - 2 * z2));
    k3 +=
      weight *
      (half ** 3 * (5 - 30 * z2) + half ** 2 * (-60 * z2 + 212 * z4) + half * (135 * z4 - 96 * z6) - 30 * z6 - 90 * z8);
    const whole = (Math.PI * (term + 1)) ** 2;
    const wholeWeight = 2 * Math.exp(-whole / (2 * z2));
    k2Whole += wholeWeight * whole;
    k3Whole += wholeWeight * (3 * whole * z2 - whole ** 2);
  }
  const second = k2 / (72 * z ** 7) - k2Whole / (36 * z ** 3);
  const third = k3 / (6480 * z ** 10) + k3Whole / (216 * z6);
  return Math.sqrt(Math.PI / 2) * (k0 / z + k1 / (6 * z4) / Math.sqrt(n) + second / n + third / n ** 1.5);
}
