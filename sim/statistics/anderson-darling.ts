/**
 * The Anderson-Darling distance between samples and a distribution whose parameters were estimated from these samples,
 * with the critical values that hold then. Critical values for a distribution known beforehand are three times as high and
 * would pass almost anything.
 */

/**
 * A critical point of the modified statistic: the share `level` of samples that do come from the family lies above
 * `value`.
 */
export interface CriticalPoint {
  readonly level: number;
  readonly value: number;
}

/**
 * A2 = -n - (1/n) sum (2i - 1) (ln u_i + ln(1 - u_(n+1-i))), u = F(x) ascending (Anderson and Darling, Journal of the
 * American Statistical Association 49:765, 1954). Values of exactly 0 or 1 are kept off the ends.
 */
export function andersonDarling(ascending: ArrayLike<number>): number {
  const n = ascending.length;
  const held = (u: number) => Math.min(Math.max(u, 1e-300), 1 - 2 ** -53);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    sum += (2 * i + 1) * (Math.log(held(ascending[i])) + Math.log1p(-held(ascending[n - 1 - i])));
  }
  return -n - sum / n;
}

/**
 * Normal with mean and standard deviation estimated (n - 1 under the root): A2 (1 + 0.75/n + 2.25/n^2). Stephens,
 * Journal of the American Statistical Association 69:730, 1974; points from D'Agostino and Stephens, Goodness-of-Fit
 * Techniques, 1986, table 4.7. For a log-normal: of the logarithms.
 */
export function modifiedForNormal(statistic: number, n: number): number {
  return statistic * (1 + 0.75 / n + 2.25 / n ** 2);
}

export const NORMAL_POINTS: readonly CriticalPoint[] = [
  { level: 0.15, value: 0.561 },
  { level: 0.1, value: 0.631 },
  { level: 0.05, value: 0.752 },
  { level: 0.025, value: 0.873 },
  { level: 0.01, value: 1.035 },
];

/**
 * Weibull with shape and scale estimated by maximum likelihood: A2 (1 + 0.2/sqrt n). Stephens, Biometrika 64:583,
 * 1977, for the extreme-value law that its logarithm follows; D'Agostino and Stephens 1986, table 4.17 (from memory;
 * a test draws Weibull samples and counts how often each point is passed).
 */
export function modifiedForWeibull(statistic: number, n: number): number {
  return statistic * (1 + 0.2 / Math.sqrt(n));
}

export const WEIBULL_POINTS: readonly CriticalPoint[] = [
  { level: 0.25, value: 0.474 },
  { level: 0.1, value: 0.637 },
  { level: 0.05, value: 0.757 },
  { level: 0.025, value: 0.877 },
  { level: 0.01, value: 1.038 },
];

/** The strictest level at which the family is refused; null where it is refused at none of the points. */
export function refusedAt(modified: number, points: readonly CriticalPoint[]): number | null {
  const passed = points.filter(({ value }) => modified >= value);
  return passed.length === 0 ? null : Math.min(...passed.map(({ level }) => level));
}
