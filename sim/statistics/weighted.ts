/** Numbers that count by weights, such as the values of an input in worlds that explain a log well or badly. */

/** Weights that sum to 1, from their natural logarithms up to a common constant; all alike where every weight is 0. */
export function weightsOf(logs: Float64Array): Float64Array {
  const most = logs.reduce((best, log) => Math.max(best, log), Number.NEGATIVE_INFINITY);
  if (most === Number.NEGATIVE_INFINITY) return new Float64Array(logs.length).fill(1 / logs.length);
  const weights = logs.map((log) => Math.exp(log - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => weight / total);
}

/**
 * Effective sample size (sum w)^2/sum w^2 of weights that sum to 1: how many values of equal weight have a mean with the
 * same scatter. Source: Kish, Survey Sampling, 1965 (cited from memory).
 */
export function effectiveSize(weights: Float64Array): number {
  return 1 / weights.reduce((sum, weight) => sum + weight ** 2, 0);
}

/** Weighted mean sum w x and standard deviation sqrt(sum w (x - mean)^2), in the unit of the values; weights sum to 1. */
export function weightedMoments(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
): { readonly mean: number; readonly sd: number } {
  let mean = 0;
  for (let i = 0; i < values.length; i++) mean += weights[i] * values[i];
  let variance = 0;
  for (let i = 0; i < values.length; i++) variance += weights[i] * (values[i] - mean) ** 2;
  return { mean, sd: Math.sqrt(variance) };
}

/**
 * Weighted quantile: each value stands at the share of the weight below it and half of its own, and the quantile is
 * interpolated linearly between neighbours; beyond the first and the last value it is held.
 */
export function weightedQuantile(values: ArrayLike<number>, weights: ArrayLike<number>, p: number): number {
  const { order, shares } = weightedRanks(values, weights);
  let [lastShare, lastValue] = [0, values[order[0]]];
  for (const i of order) {
    if (shares[i] >= p) {
      const step = shares[i] - lastShare;
      return step > 0 ? lastValue + ((p - lastShare) / step) * (values[i] - lastValue) : values[i];
    }
    [lastShare, lastValue] = [shares[i], values[i]];
  }
  return lastValue;
}

/** Spearman's rank correlation, each rank the share of the weight below a value and half of its own; 0 without spread. */
export function weightedRankCorrelation(a: Float64Array, b: Float64Array, weights: Float64Array): number {
  const [x, y] = [weightedRanks(a, weights).shares, weightedRanks(b, weights).shares];
  const [mx, my] = [weightedMoments(x, weights), weightedMoments(y, weights)];
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i] * (x[i] - mx.mean) * (y[i] - my.mean);
  return mx.sd > 0 && my.sd > 0 ? sum / (mx.sd * my.sd) : 0;
}

/** Indices of the values in ascending order, and for each value the share of the weight below it and half of its own. */
function weightedRanks(values: ArrayLike<number>, weights: ArrayLike<number>) {
  const order = Array.from(values, (_, i) => i).sort((p, q) => values[p] - values[q]);
  const shares = new Float64Array(values.length);
  let below = 0;
  for (const i of order) {
    shares[i] = below + weights[i] / 2;
    below += weights[i];
  }
  return { order, shares };
}
