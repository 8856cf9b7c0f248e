/**
 * How well each plausible world explains what was observed: the summaries of a world's flights are taken as normal
 * with the mean and the spread of the flights flown in it (a synthetic likelihood: Wood, Nature 466:1102, 2010).
 */
import { choleskyFactor } from '../statistics/cholesky.js';
import { greatestEigenvalue } from '../statistics/greatest-eigenvalue.js';
import { solveLower } from '../statistics/triangular-solve.js';
import { effectiveSize, weightsOf } from '../statistics/weighted.js';

/** One number that a log shows, with the standard deviation of its error. */
export interface Observation {
  readonly value: number;
  readonly error: number;
}

/** Summaries of flights: for each quantity the value of each flight, world after world, NaN where it never came. */
export interface WorldSummaries {
  readonly worlds: number;
  readonly each: number;
  readonly values: readonly Float64Array[];
}

/** The spread pooled over all worlds counts as much as this many flights, against the few flights of a world itself. */
const POOLED = 25;

interface Moments {
  /** Number of flights in which every quantity came. */
  readonly count: number;
  readonly mean: Float64Array;
  /** Sums of products of deviations, row by row. */
  readonly products: Float64Array;
}

/** Each world's logarithm of the likelihood of one log. */
export function logLikelihoods(summaries: WorldSummaries, observed: readonly Observation[]): Float64Array {
  return jointLogLikelihoods(summaries, [observed]);
}

/**
 * Logarithm of each world's likelihood of K logs that show the same quantities: ln N(y - m; 0, C) of the deviations of all
 * logs from the world's mean, and K ln of the share of the world's flights in which the quantities came at all. Between
 * log k and log l, C = [k = l] (S + E_k) - c S with c = 1/n.
 *
 * Why less c S: m is the mean of n flights and has the error N(0, S/n), the same for all logs. This error is already in m,
 * drawn anew with each world; so the normal density of covariance C, averaged over the error, is the likelihood of the
 * true mean, exactly where S is known (the unbiased estimate of a normal density: Ghurye & Olkin, Annals of Mathematical
 * Statistics 40:1261, 1969, cited from memory). With S alone the error would count once too often, with S (1 + 1/n) twice.
 * Where K is over n/2, c = 1/(2K): wider than exact, but C stays positive.
 *
 * S has the correlations pooled over all worlds and standard deviations between the pooled and the world's own, because 25
 * flights alone tell a spread to a seventh only. E_k is the square of the log's errors times the greatest eigenvalue of
 * these correlations: errors of quantities that say the same thing go together, and counted as independent they would
 * average out (two equal quantities, greatest eigenvalue 2, weigh as a single quantity).
 */
export function jointLogLikelihoods(
  summaries: WorldSummaries,
  logs: readonly (readonly Observation[])[],
): Float64Array {
  const { worlds, each } = summaries;
  const moments = Array.from({ length: worlds }, (_, world) => momentsOf(summaries, world));
  const size = summaries.values.length;
  const pooled = pooledCovariance(moments, size);
  const correlation = correlationOf(pooled, size);
  const errors = errorVariances(logs, correlation);
  const whole = size * logs.length;
  return Float64Array.from(moments, ({ count, mean, products }) => {
    if (count === 0) return Number.NEGATIVE_INFINITY;
    const sd = Array.from({ length: size }, (_, i) => {
      const own = products[i * size + i];
      return Math.sqrt((POOLED * pooled[i * size + i] + own) / (POOLED + count - 1));
    });
    const known = Math.min(1 / count, 1 / (2 * logs.length));
    const covariance = new Float64Array(whole * whole);
    for (let row = 0; row < whole; row++) {
      const [k, i] = [Math.floor(row / size), row % size];
      for (let column = 0; column < whole; column++) {
        const [l, j] = [Math.floor(column / size), column % size];
        covariance[row * whole + column] = ((k === l ? 1 : 0) - known) * correlation[i * size + j] * sd[i] * sd[j];
      }
      covariance[row * whole + row] += errors[k][i];
    }
    const off = logs.flatMap((log) => log.map(({ value }, i) => value - mean[i]));
    return logNormalDensity(off, covariance) + logs.length * Math.log((count + 0.5) / (each + 1));
  });
}

/** Variances of the errors of each log's quantities, raised by the greatest eigenvalue of the correlations. */
export function errorVariances(
  logs: readonly (readonly Observation[])[],
  correlation: Float64Array,
): readonly (readonly number[])[] {
  const together = greatestEigenvalue(correlation);
  return logs.map((log) => log.map(({ error }) => together * Math.max(error, 1e-9) ** 2));
}

/** Correlations of a covariance matrix; 0 with a quantity that never varies. */
export function correlationOf(covariance: Float64Array, size: number): Float64Array {
  return covariance.map((one, place) => {
    const [i, j] = [Math.floor(place / size), place % size];
    const scale = Math.sqrt(covariance[i * size + i] * covariance[j * size + j]);
    return i === j ? 1 : scale > 0 ? one / scale : 0;
  });
}

/** Mean of each quantity over the flights of a world, and the covariance within worlds pooled over all of them. */
export function worldMeans(summaries: WorldSummaries): {
  readonly means: readonly (Float64Array | null)[];
  readonly pooled: Float64Array;
} {
  const moments = Array.from({ length: summaries.worlds }, (_, world) => momentsOf(summaries, world));
  return {
    means: moments.map(({ count, mean }) => (count === 0 ? null : mean)),
    pooled: pooledCovariance(moments, summaries.values.length),
  };
}

function momentsOf({ each, values }: WorldSummaries, world: number): Moments {
  const size = values.length;
  const mean = new Float64Array(size);
  const products = new Float64Array(size * size);
  let count = 0;
  for (let flight = world * each; flight < (world + 1) * each; flight++) {
    if (values.some((one) => Number.isNaN(one[flight]))) continue;
    count += 1;
    const off = values.map((one, i) => one[flight] - mean[i]);
    for (let i = 0; i < size; i++) mean[i] += off[i] / count;
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++) products[i * size + j] += off[i] * (values[j][flight] - mean[j]);
  }
  return { count, mean, products };
}

function pooledCovariance(moments: readonly Moments[], size: number): Float64Array {
  const pooled = new Float64Array(size * size);
  let freedom = 0;
  for (const { count, products } of moments) {
    if (count < 2) continue;
    freedom += count - 1;
    for (let i = 0; i < pooled.length; i++) pooled[i] += products[i];
  }
  return pooled.map((one) => one / Math.max(1, freedom));
}

/** ln N(off; 0, covariance) = -(n ln 2 pi)/2 - sum_i (ln L_ii + x_i^2/2), L the covariance's Cholesky factor, L x = off. */
function logNormalDensity(off: readonly number[], covariance: Float64Array): number {
  const size = off.length;
  const root = choleskyFactor(covariance, size, 'lifted');
  const scaled = solveLower(root, Float64Array.from(off));
  let log = -0.5 * size * Math.log(2 * Math.PI);
  for (let i = 0; i < size; i++) log -= Math.log(root[i * size + i]) + 0.5 * scaled[i] ** 2;
  return log;
}

/** Effective number of worlds, from the natural logarithms of their weights; 0 where every weight is 0. */
export function effectiveWorlds(logWeights: Float64Array): number {
  return logWeights.some((log) => log > Number.NEGATIVE_INFINITY) ? effectiveSize(weightsOf(logWeights)) : 0;
}
