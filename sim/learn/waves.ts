/**
 * Further worlds near what the logs say. Few of the worlds drawn from what is held plausible explain several logs well; so
 * later waves are drawn where the earlier waves point, and each world is weighted by the ratio of the density it should
 * have come from to the density it did come from (importance sampling). The latter density is the mixture of all waves in
 * their shares (deterministic mixture: Owen & Zhou, Journal of the American Statistical Association 95:135, 2000; Cornuet
 * et al., Scandinavian Journal of Statistics 39:798, 2012, both cited from memory). The first wave is the plausible worlds
 * themselves, so that the ratio is never over the number of all worlds to the worlds of the first wave, wherever a
 * proposal misses.
 *
 * Worlds live in normal scores: independent standard normal numbers, a score for each unmeasured input.
 */
import { bisect } from '../statistics/bisect.js';
import { choleskyFactor } from '../statistics/cholesky.js';
import { dot } from '../statistics/products.js';
import { solveUpper, solveWith } from '../statistics/triangular-solve.js';
import { effectiveSize, weightsOf } from '../statistics/weighted.js';
import { correlationOf, errorVariances, type Observation, type WorldSummaries, worldMeans } from './weigh.js';

/** Logs that show the same quantities, with the values of these quantities in all flights. */
export interface LogGroup {
  readonly values: readonly Float64Array[];
  readonly logs: readonly (readonly Observation[])[];
}

/** A normal law of scores: its mean, and the Cholesky factor L of its precision L L', row by row. */
export interface Proposal {
  readonly mean: Float64Array;
  readonly root: Float64Array;
}

/**
 * Proposals take the logs as if their information were this many times less: a proposal that is too wide wastes less than
 * a proposal that is too narrow.
 */
const WIDER = 1.5;
/** A fit of straight lines rests on this many effective worlds for each score, and on at least LEAST_WORLDS. */
const WORLDS_A_SCORE = 5;
const LEAST_WORLDS = 200;

/**
 * Where the logs point: the exact posterior if each world's mean were linear in its scores, m = a + B x + r, with a, B and
 * the covariance R of r fitted to the worlds flown (R holds the scatter of means of few flights). For K logs the
 * deviations have the covariance [k = l] (S + E_k) + R, and the precision is I + H/1.5, with H = B' C^-1 B summed over
 * logs. The fit is local: worlds count by a power of their weights that leaves enough effective worlds.
 */
export function proposalFrom(
  groups: readonly LogGroup[],
  each: number,
  scores: readonly Float64Array[],
  logWeights: Float64Array,
): Proposal {
  const size = scores[0].length;
  const weights = tempered(logWeights, Math.max(LEAST_WORLDS, WORLDS_A_SCORE * size));
  const precision = new Float64Array(size * size);
  const pull = new Float64Array(size);
  for (const group of groups) addInformation(group, each, scores, weights, precision, pull);
  // The peak by the whole information, the width by a part of it.
  const peak = solveWith(choleskyFactor(plusOne(precision, size, 1), size, 'lifted'), pull);
  return { mean: peak, root: choleskyFactor(plusOne(precision, size, 1 / WIDER), size, 'lifted') };
}

/** Adds one group's B' C^-1 B and B' C^-1 (y - a). */
function addInformation(
  { values, logs }: LogGroup,
  each: number,
  scores: readonly Float64Array[],
  weights: Float64Array,
  precision: Float64Array,
  pull: Float64Array,
): void {
  const size = scores[0].length;
  const seen = values.length;
  const summaries: WorldSummaries = { worlds: scores.length, each, values };
  const { means, pooled } = worldMeans(summaries);
  const { intercept, slopes, residual } = straightLines(scores, means, weights, seen);
  const errors = errorVariances(logs, correlationOf(pooled, seen));
  const whole = seen * logs.length;
  const covariance = new Float64Array(whole * whole);
  for (let row = 0; row < whole; row++) {
    const [k, i] = [Math.floor(row / seen), row % seen];
    for (let column = 0; column < whole; column++) {
      const [l, j] = [Math.floor(column / seen), column % seen];
      covariance[row * whole + column] = residual[i * seen + j] + (k === l ? pooled[i * seen + j] : 0);
    }
    covariance[row * whole + row] += errors[k][i];
  }
  const root = choleskyFactor(covariance, whole, 'lifted');
  const stacked = (of: (i: number, k: number) => number) =>
    Float64Array.from({ length: whole }, (_, row) => of(row % seen, Math.floor(row / seen)));
  const off = stacked((i, k) => logs[k][i].value - intercept[i]);
  const columns = Array.from({ length: size }, (_, p) => stacked((i) => slopes[i][p]));
  const solved = columns.map((column) => solveWith(root, column.slice()));
  for (let p = 0; p < size; p++) {
    pull[p] += dot(solved[p], off);
    for (let q = 0; q < size; q++) precision[p * size + q] += dot(solved[p], columns[q]);
  }
}

/**
 * Weighted least squares of each quantity's world means on the scores, about their weighted mean. Slopes are held towards
 * 0 as by a further world of the same spread (ridge regression), because worlds near the logs lie close together.
 */
function straightLines(
  scores: readonly Float64Array[],
  means: readonly (Float64Array | null)[],
  weights: Float64Array,
  seen: number,
) {
  const size = scores[0].length;
  const terms = size + 1;
  const normal = new Float64Array(terms * terms);
  const right = Array.from({ length: seen }, () => new Float64Array(terms));
  const count = effectiveSize(weights);
  const row = new Float64Array(terms);
  const centre = new Float64Array(size);
  let weighed = 0;
  scores.forEach((score, world) => {
    if (means[world] === null) return;
    for (let p = 0; p < size; p++) centre[p] += weights[world] * score[p];
    weighed += weights[world];
  });
  for (let p = 0; p < size; p++) centre[p] /= Math.max(weighed, 1e-300);
  scores.forEach((score, world) => {
    const mean = means[world];
    if (mean === null) return;
    row[0] = 1;
    for (let p = 0; p < size; p++) row[p + 1] = score[p] - centre[p];
    const weight = weights[world] * count;
    for (let p = 0; p < terms; p++) {
      for (let q = 0; q <= p; q++) normal[p * terms + q] += weight * row[p] * row[q];
      for (let i = 0; i < seen; i++) right[i][p] += weight * row[p] * mean[i];
    }
  });
  for (let p = 1; p < terms; p++) normal[p * terms + p] *= 1 + 1 / count;
  const root = choleskyFactor(normal, terms, 'lifted');
  const fits = right.map((one) => {
    const fit = solveWith(root, one);
    fit[0] -= dot(fit.subarray(1), centre);
    return fit;
  });
  const residual = new Float64Array(seen * seen);
  let total = 0;
  scores.forEach((score, world) => {
    const mean = means[world];
    if (mean === null) return;
    const off = fits.map((fit, i) => mean[i] - fit[0] - dot(fit.subarray(1), score));
    for (let i = 0; i < seen; i++)
      for (let j = 0; j < seen; j++) residual[i * seen + j] += weights[world] * off[i] * off[j];
    total += weights[world];
  });
  return {
    intercept: fits.map((fit) => fit[0]),
    slopes: fits.map((fit) => fit.subarray(1)),
    residual: residual.map((one) => one / Math.max(total, 1e-300)),
  };
}

/**
 * The weights raised to the greatest power from 0 to 1 that leaves `least` effective worlds; at power 0 all worlds count
 * alike.
 */
function tempered(logWeights: Float64Array, least: number): Float64Array {
  const raised = (power: number) =>
    weightsOf(logWeights.map((one) => (power === 0 ? 0 : Math.max(power * one, -1e300))));
  const isWide = (power: number) => effectiveSize(raised(power)) >= least;
  return raised(isWide(1) ? 1 : bisect({ fails: 1, holds: 0 }, isWide, { halvings: 40 }).holds);
}

/** Turns a standard normal vector x into a draw from the proposal: mean + L'^-1 x. */
export function movedScores({ mean, root }: Proposal, natural: Float64Array): Float64Array {
  return solveUpper(root, natural.slice()).map((score, i) => score + mean[i]);
}

/** Natural logarithm of the proposal's density over the standard normal density. */
export function logDensityRatio({ mean, root }: Proposal, scores: Float64Array): number {
  const size = mean.length;
  let log = 0;
  for (let i = 0; i < size; i++) {
    let across = 0;
    for (let k = i; k < size; k++) across += root[k * size + i] * (scores[k] - mean[k]);
    log += Math.log(root[i * size + i]) + (scores[i] ** 2 - across ** 2) / 2;
  }
  return log;
}

/** A wave of worlds; the first wave has no proposal. */
export interface Wave {
  readonly worlds: number;
  readonly proposal: Proposal | null;
}

/** Natural logarithm of the plausible density over the density of the mixture of all waves, for each world. */
export function logCorrections(scores: readonly Float64Array[], waves: readonly Wave[]): Float64Array {
  const total = waves.reduce((sum, { worlds }) => sum + worlds, 0);
  return Float64Array.from(scores, (score) => {
    const logs = waves.map(
      ({ worlds, proposal }) => Math.log(worlds / total) + (proposal === null ? 0 : logDensityRatio(proposal, score)),
    );
    const most = Math.max(...logs);
    return -most - Math.log(logs.reduce((sum, one) => sum + Math.exp(one - most), 0));
  });
}

function plusOne(information: Float64Array, size: number, share: number): Float64Array {
  return information.map((one, place) => share * one + (place % (size + 1) === 0 ? 1 : 0));
}
