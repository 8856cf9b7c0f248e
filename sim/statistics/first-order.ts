import chiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';

export interface FirstOrder {
  /** Share of the output's variance that the input's value alone explains; 0 where the estimate is negative. */
  readonly share: number;
  /** Variance of the conditional mean, in the output's unit squared; 0 where the estimate is negative. */
  readonly variance: number;
  /** Chance of a share at least as large if the input had no effect on the mean. */
  readonly pValue: number;
}

/** Bins enough for a smooth effect of one direction: the loss inside the bins is about 1 / bins^2 of the share. */
export const STANDARD_BINS = 20;

/**
 * First-order share of an input from given data: V(E[output | input]) / V(output), the conditional mean taken in bins
 * of equal counts along the input. Corrected for the scatter of the bin means, without which it is too high by about
 * (bins - 1)/n (1 - share): share = 1 - (within / (n - bins)) / (total / (n - 1)), sums of squares about the means.
 * The p-value takes between / (within / (n - bins)) as chi-square with bins - 1 degrees of freedom, good for many
 * flights in each bin. Ties in the input stay in the order given. Null under ten flights a bin or without variance.
 *
 * Sources: Plischke, Borgonovo and Smith, European Journal of Operational Research 226:536, 2013 (given data);
 * correction: epsilon squared of Kelley, PNAS 21:554, 1935 (cited from memory).
 */
export function firstOrder(
  input: ArrayLike<number>,
  output: ArrayLike<number>,
  bins: number = STANDARD_BINS,
): FirstOrder | null {
  const n = input.length;
  if (n < 10 * bins) return null;
  const order = Uint32Array.from({ length: n }, (_, i) => i).sort((a, b) => input[a] - input[b] || a - b);
  let mean = 0;
  for (let i = 0; i < n; i++) mean += output[i] / n;
  let total = 0;
  for (let i = 0; i < n; i++) total += (output[i] - mean) ** 2;
  if (!(total > 0)) return null;
  let between = 0;
  for (let bin = 0; bin < bins; bin++) {
    const from = Math.floor((bin * n) / bins);
    const to = Math.floor(((bin + 1) * n) / bins);
    let sum = 0;
    for (let i = from; i < to; i++) sum += output[order[i]] - mean;
    between += sum ** 2 / (to - from);
  }
  const within = Math.max(0, total - between) / (n - bins);
  const share = Math.max(0, 1 - (within * (n - 1)) / total);
  const pValue = within === 0 ? 0 : 1 - chiSquareCdf(between / within, bins - 1);
  return { share, variance: (share * total) / (n - 1), pValue };
}
