/**
 * What the heights of a log leave open and no linear filter can carry as a state: the flow error of the barometer, which
 * multiplies the square of the speed, and, without a g-reading, when the motors took hold. Every pair of the two is tried
 * and weighted by its prior and by how likely it makes the heights (the marginal likelihood of a Kalman filter: Schweppe,
 * IEEE Transactions on Information Theory 11:61, 1965, cited from memory); the result is the mixture of all pairs.
 */
import { weightedMoments, weightsOf } from '../statistics/weighted.js';
import { type Course, logLikelihoodOf, type Prior, type Smoothed, type SmootherInput, smooth } from './smoother.js';

export interface Hypothesis {
  readonly flow: number;
  /** Logger's time; null where the log's readings tell it, or where there was none. */
  readonly throttleUp: number | null;
  /** How rough the braking is, as a factor, and by how much the drag helps it at first, g. */
  readonly braking: number;
  readonly dragging: number;
  readonly logPrior: number;
}

/** Flow errors are tried up to REACH standard deviations of the prior on either side, at FLOWS values. */
const REACH = 2.5;
const FLOWS = 11;

/** Values of a normal prior at even places, with the ln of their density up to a constant. */
export function flowsOf({ mean, sd }: Prior): readonly { readonly flow: number; readonly logPrior: number }[] {
  return Array.from({ length: FLOWS }, (_, i) => {
    const off = REACH * ((2 * i) / (FLOWS - 1) - 1);
    return { flow: mean + off * sd, logPrior: -0.5 * off ** 2 };
  });
}

/** Number of courses that are smoothed whole, each for an equal share of the weight. */
const STANDING = 24;

export interface Mixture {
  readonly smoothed: Smoothed;
  /** The throttle-up that goes with each drawn course, and its mean and standard deviation over all hypotheses. */
  readonly throttleUps: readonly (number | null)[];
  readonly throttleUp: Prior | null;
  readonly flow: Prior;
}

/**
 * Heights alone tell the flow error only as far as the assumed course of the fall and of the braking is true, and that course is
 * a stand-in: by its likelihood the flow error looked known to 0.08 and was off by 0.2 (flights of known truth). With `flowTold`
 * false each flow error keeps the weight of its prior; the log decides among the hypotheses that share it.
 */
export function mix(
  hypotheses: readonly Hypothesis[],
  inputOf: (one: Hypothesis) => SmootherInput,
  flowTold: boolean,
  courses: number,
  seed: string,
): Mixture {
  const likelihoods = hypotheses.map((one) => logLikelihoodOf(inputOf(one)));
  const best = new Map<number, number>();
  hypotheses.forEach(({ flow }, i) => {
    best.set(flow, Math.max(best.get(flow) ?? Number.NEGATIVE_INFINITY, likelihoods[i]));
  });
  const logs = Float64Array.from(
    hypotheses,
    ({ flow, logPrior }, i) => logPrior + likelihoods[i] - (flowTold ? 0 : (best.get(flow) ?? 0)),
  );
  const weights = weightsOf(logs);
  const standing = counts(weights, STANDING).flatMap((count, i) => (count > 0 ? [{ one: hypotheses[i], count }] : []));
  const drawn = counts(
    standing.map(({ count }) => count / STANDING),
    courses,
  );
  const made = standing.map(({ one, count }, i) => ({
    weight: count / STANDING,
    smoothed: smooth(inputOf(one), drawn[i], standing.length === 1 ? seed : `${seed} ${i}`),
  }));
  const momentsOf = (of: (one: Hypothesis) => number): Prior => weightedMoments(hypotheses.map(of), weights);
  const [height, speed] = (['height', 'speed'] as const).map((of) => mixed(made, of));
  return {
    smoothed: {
      mean: { height: height.mean, speed: speed.mean },
      sd: { height: height.sd, speed: speed.sd },
      courses: made.flatMap(({ smoothed }) => smoothed.courses),
    },
    throttleUps: standing.flatMap(({ one }, i) => new Array<number | null>(drawn[i]).fill(one.throttleUp)),
    throttleUp: hypotheses[0].throttleUp === null ? null : momentsOf(({ throttleUp }) => throttleUp ?? 0),
    flow: momentsOf(({ flow }) => flow),
  };
}

/** How many of `total` items each weight gets: evenly spaced marks among the sums of the weights (systematic sampling). */
function counts(weights: ArrayLike<number>, total: number): readonly number[] {
  let below = 0;
  return Array.from(weights, (weight) => {
    const before = Math.round(below * total);
    below += weight;
    return Math.round(below * total) - before;
  });
}

/** Mean and standard deviation of a mixture, node by node. */
function mixed(
  parts: readonly { readonly weight: number; readonly smoothed: Smoothed }[],
  of: keyof Course,
): { readonly mean: Float64Array; readonly sd: Float64Array } {
  const nodes = parts[0].smoothed.mean[of].length;
  const mean = new Float64Array(nodes);
  const sd = new Float64Array(nodes);
  for (let k = 0; k < nodes; k++) {
    for (const { weight, smoothed } of parts) mean[k] += weight * smoothed.mean[of][k];
    let variance = 0;
    for (const { weight, smoothed } of parts)
      variance += weight * (smoothed.sd[of][k] ** 2 + (smoothed.mean[of][k] - mean[k]) ** 2);
    sd[k] = Math.sqrt(variance);
  }
  return { mean, sd };
}
