/**
 * Height and speed over time from a log, with their errors: a Kalman filter forwards and the smoother of Rauch, Tung
 * and Striebel (AIAA Journal 3:1445, 1965) backwards, then whole courses drawn at random from what both leave open
 * (Carter and Kohn, Biometrika 81:541, 1994; both cited from memory).
 *
 * The barometer reads y = z (1 - s) + zero where nothing streams past it: s the share by which it reads low in warm air,
 * zero its own. State: y and its rate u, error e of the assumed upward acceleration a (first-order Gauss-Markov), constant
 * error b of the g-meter, zero, and the difference d of s from what was expected, s0. In y the scale error multiplies the
 * known a alone, so that the equations are linear in what is unknown:
 *   y' = u,  u' = (1 - s0) (a + e + b) - d a,  reading = y + k (w^2 + h^2)/(2 g) + noise,  w = u/(1 - s)
 * The flow error k is a given number: as one more state it would multiply w^2, two unknowns whose product no linear filter
 * weighs rightly. The small k w^2/(2 g) is linearised about the prediction.
 */
import seedrandom from 'seedrandom';
import { GRAVITY } from '../../model/atmosphere.js';
import { STATES as MATRIX_STATES, multiply, rootOf, solveRight } from './matrix.js';

const [Y, U, E, B, ZERO, D] = [0, 1, 2, 3, 4, 5];
const STATES = MATRIX_STATES;
const SIZE = STATES * STATES;

export interface Prior {
  readonly mean: number;
  readonly sd: number;
}

export interface SmootherInput {
  readonly step: number;
  /** Upward acceleration assumed from each node to the next, m/s2. */
  readonly acceleration: Float64Array;
  /** Standard deviation of its slow error, m/s2, and of its noise over one step. */
  readonly accelerationError: Float64Array;
  readonly accelerationNoise: Float64Array;
  /** Time constant of the slow error at each node, s. */
  readonly errorTime: Float64Array;
  /** Barometric height at each node, NaN where there is none, with its noise. */
  readonly height: Float64Array;
  readonly heightNoise: number;
  /** Share of the dynamic pressure that the barometer reads as height, and the square of the sideways speed in it. */
  readonly flow: number;
  readonly sideways: Float64Array;
  readonly priors: {
    readonly height: Prior;
    readonly speed: Prior;
    readonly error: Prior;
    readonly bias: Prior;
    readonly zero: Prior;
    readonly scale: Prior;
  };
  /** Height known at the last node; null where the log ends in the air. */
  readonly last: Prior | null;
}

export interface Course {
  readonly height: Float64Array;
  readonly speed: Float64Array;
}

export interface Smoothed {
  /** Mean and standard deviation at each node; speed upwards. */
  readonly mean: Course;
  readonly sd: Course;
  /** Whole courses that agree with log and priors, each as likely as the other. */
  readonly courses: readonly Course[];
}

/** A filter run to the end: what it held at each node before and after the reading there. */
interface Filtered {
  readonly means: Float64Array;
  readonly covariances: Float64Array;
  readonly predictedMeans: Float64Array;
  readonly predicted: Float64Array;
}

export function smooth(input: SmootherInput, courses: number, seed: string): Smoothed {
  const nodes = input.height.length;
  const filtered: Filtered = {
    means: new Float64Array(nodes * STATES),
    covariances: new Float64Array(nodes * SIZE),
    predictedMeans: new Float64Array(nodes * STATES),
    predicted: new Float64Array(nodes * SIZE),
  };
  forwards(input, filtered);
  const gains = gainsOf(input, filtered);
  const back = backwards(nodes, filtered, gains);
  const mean = { height: new Float64Array(nodes), speed: new Float64Array(nodes) };
  const sd = { height: new Float64Array(nodes), speed: new Float64Array(nodes) };
  for (let k = 0; k < nodes; k++) {
    const m = back.means.subarray(k * STATES, (k + 1) * STATES);
    const p = back.covariances.subarray(k * SIZE, (k + 1) * SIZE);
    mean.height[k] = heightOf(m, input);
    mean.speed[k] = speedOf(m, input);
    const left = 1 - scaleOf(m, input);
    sd.height[k] = Math.sqrt(
      Math.max(0, varianceOf(p, { [Y]: 1 / left, [ZERO]: -1 / left, [D]: mean.height[k] / left })),
    );
    sd.speed[k] = Math.sqrt(Math.max(0, varianceOf(p, { [U]: 1 / left, [D]: mean.speed[k] / left })));
  }
  return { mean, sd, courses: courses === 0 ? [] : drawCourses(input, filtered, gains, courses, seed) };
}

function scaleOf(m: Float64Array, { priors }: SmootherInput): number {
  return Math.min(0.5, priors.scale.mean + m[D]);
}

function heightOf(m: Float64Array, input: SmootherInput): number {
  return (m[Y] - m[ZERO]) / (1 - scaleOf(m, input));
}

function speedOf(m: Float64Array, input: SmootherInput): number {
  return m[U] / (1 - scaleOf(m, input));
}

/** Variance of a sum of states with these factors. */
function varianceOf(p: Float64Array, factors: Readonly<Record<number, number>>): number {
  const entries = Object.entries(factors).map(([state, factor]) => [Number(state), factor] as const);
  let sum = 0;
  for (const [i, one] of entries) for (const [j, other] of entries) sum += one * other * p[i * STATES + j];
  return sum;
}

/** ln of the density of all heights given what is assumed: the sum of ln N(each; as the ones before predict it). */
export function logLikelihoodOf(input: SmootherInput): number {
  return forwards(input, null);
}

/** Runs the filter, keeps what it held where `kept` has room for it, and returns the ln of the density of the heights. */
function forwards(input: SmootherInput, kept: Filtered | null): number {
  const { priors, height, last } = input;
  const nodes = height.length;
  const [m, p] = [new Float64Array(STATES), new Float64Array(SIZE)];
  begin(m, p, priors);
  const row = new Float64Array(STATES);
  let logDensity = 0;
  for (let k = 0; k < nodes; k++) {
    if (k > 0) {
      const move = moveOf(input, k - 1);
      carried(m, 0, 1, move);
      const push = move.left * move.acceleration;
      m[Y] += (push * move.step ** 2) / 2;
      m[U] += push * move.step;
      spread(p, input, k - 1, move);
    }
    kept?.predictedMeans.set(m, k * STATES);
    kept?.predicted.set(p, k * SIZE);
    if (!Number.isNaN(height[k])) logDensity += readHeight(m, p, row, input, k);
    if (k === nodes - 1 && last !== null) {
      const left = 1 - priors.scale.mean;
      row.fill(0);
      row[Y] = 1;
      row[ZERO] = -1;
      logDensity += update(m, p, row, left * last.mean - (m[Y] - m[ZERO]), (left * last.sd) ** 2);
    }
    kept?.means.set(m, k * STATES);
    kept?.covariances.set(p, k * SIZE);
  }
  return logDensity;
}

/** y = z (1 - s) + zero and u = w (1 - s) go with the errors that are in them. */
function begin(m: Float64Array, p: Float64Array, { height, speed, error, bias, zero, scale }: SmootherInput['priors']) {
  const left = 1 - scale.mean;
  m[Y] = height.mean * left + zero.mean;
  m[U] = speed.mean * left;
  m[E] = error.mean;
  m[B] = bias.mean;
  m[ZERO] = zero.mean;
  const variance = (sd: number) => Math.max(Math.abs(sd), 1e-6) ** 2;
  const set = (i: number, j: number, value: number) => {
    p[i * STATES + j] = value;
    p[j * STATES + i] = value;
  };
  set(Y, Y, variance(height.sd * left) + variance(height.mean * scale.sd) + variance(zero.sd));
  set(Y, ZERO, variance(zero.sd));
  set(Y, D, -height.mean * variance(scale.sd));
  set(U, U, variance(speed.sd * left) + variance(speed.mean * scale.sd));
  set(U, D, -speed.mean * variance(scale.sd));
  set(Y, U, height.mean * speed.mean * variance(scale.sd));
  set(E, E, variance(error.sd));
  set(B, B, variance(bias.sd));
  set(ZERO, ZERO, variance(zero.sd));
  set(D, D, variance(scale.sd));
}

/** What moves the states from a node to the next. */
interface Move {
  readonly step: number;
  readonly acceleration: number;
  /** Share of the slow error that is left after the step. */
  readonly fading: number;
  /** 1 - s0 */
  readonly left: number;
}

function moveOf({ step, acceleration, errorTime, priors }: SmootherInput, k: number): Move {
  return { step, acceleration: acceleration[k], fading: Math.exp(-step / errorTime[k]), left: 1 - priors.scale.mean };
}

/** F m in place, without the known push; or F along a row or a column of states. */
function carried(m: Float64Array, place: number, stride: number, { step, acceleration, fading, left }: Move): void {
  const push = left * (m[place + E * stride] + m[place + B * stride]) - acceleration * m[place + D * stride];
  m[place + Y * stride] += step * m[place + U * stride] + (step ** 2 / 2) * push;
  m[place + U * stride] += step * push;
  m[place + E * stride] *= fading;
}

/** F P F' and the noise of the step, in place. */
function spread(p: Float64Array, input: SmootherInput, k: number, move: Move): void {
  const { step, fading } = move;
  for (let j = 0; j < STATES; j++) carried(p, j, STATES, move);
  for (let i = 0; i < STATES; i++) carried(p, i * STATES, 1, move);
  const noise = (input.accelerationNoise[k] * step) ** 2;
  p[Y * STATES + Y] += (noise * step ** 2) / 4 + 1e-8;
  p[Y * STATES + U] += (noise * step) / 2;
  p[U * STATES + Y] += (noise * step) / 2;
  p[U * STATES + U] += noise + 1e-8;
  p[E * STATES + E] += input.accelerationError[k] ** 2 * (1 - fading ** 2) + 1e-10;
}

function readHeight(m: Float64Array, p: Float64Array, row: Float64Array, input: SmootherInput, k: number) {
  const left = 1 - scaleOf(m, input);
  const speed = m[U] / left;
  row.fill(0);
  row[Y] = 1;
  row[U] = (input.flow * speed) / (GRAVITY * left);
  row[D] = (input.flow * speed ** 2) / (GRAVITY * left);
  const expected = m[Y] + (input.flow * (speed ** 2 + input.sideways[k])) / (2 * GRAVITY);
  return update(m, p, row, input.height[k] - expected, input.heightNoise ** 2);
}

const CROSS = new Float64Array(STATES);

/** One measurement, row . state + noise, that is off its expected value; in place. Returns the ln of its density. */
function update(m: Float64Array, p: Float64Array, row: Float64Array, off: number, variance: number): number {
  let total = variance;
  for (let i = 0; i < STATES; i++) {
    let sum = 0;
    for (let j = 0; j < STATES; j++) sum += p[i * STATES + j] * row[j];
    CROSS[i] = sum;
    total += row[i] * sum;
  }
  for (let i = 0; i < STATES; i++) {
    m[i] += (CROSS[i] * off) / total;
    for (let j = 0; j < STATES; j++) p[i * STATES + j] -= (CROSS[i] * CROSS[j]) / total;
  }
  return -0.5 * (Math.log(2 * Math.PI * total) + off ** 2 / total);
}

/** How far each state moves with the next one: P F' (predicted P)^-1. */
function gainsOf(input: SmootherInput, { covariances, predicted }: Filtered): readonly Float64Array[] {
  return Array.from({ length: input.height.length - 1 }, (_, k) => {
    const cross = covariances.slice(k * SIZE, (k + 1) * SIZE);
    const move = moveOf(input, k);
    for (let i = 0; i < STATES; i++) carried(cross, i * STATES, 1, move);
    return solveRight(cross, predicted.subarray((k + 1) * SIZE, (k + 2) * SIZE));
  });
}

function backwards(
  nodes: number,
  { means, covariances, predictedMeans, predicted }: Filtered,
  gains: readonly Float64Array[],
) {
  const smoothMeans = means.slice();
  const smoothCovariances = covariances.slice();
  for (let k = nodes - 2; k >= 0; k--) {
    const gain = gains[k];
    const difference = new Float64Array(SIZE);
    for (let i = 0; i < SIZE; i++)
      difference[i] = smoothCovariances[(k + 1) * SIZE + i] - predicted[(k + 1) * SIZE + i];
    const change = multiply(multiply(gain, difference), gain, true);
    for (let i = 0; i < SIZE; i++) smoothCovariances[k * SIZE + i] += change[i];
    for (let i = 0; i < STATES; i++) {
      for (let j = 0; j < STATES; j++) {
        const ahead = (k + 1) * STATES + j;
        smoothMeans[k * STATES + i] += gain[i * STATES + j] * (smoothMeans[ahead] - predictedMeans[ahead]);
      }
    }
  }
  return { means: smoothMeans, covariances: smoothCovariances };
}

function drawCourses(
  input: SmootherInput,
  { means, covariances, predictedMeans, predicted }: Filtered,
  gains: readonly Float64Array[],
  courses: number,
  seed: string,
): readonly Course[] {
  const nodes = input.height.length;
  const random = seedrandom.alea(`courses ${seed}`);
  // Two normal numbers from two uniform ones (Box and Muller, Annals of Mathematical Statistics 29:610, 1958).
  let spare = Number.NaN;
  const normal = () => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    const radius = Math.sqrt(-2 * Math.log(1 - random.double()));
    const angle = 2 * Math.PI * random.double();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
  const roots = Array.from({ length: nodes }, (_, k) => {
    const own = covariances.subarray(k * SIZE, (k + 1) * SIZE);
    if (k === nodes - 1) return rootOf(own);
    const taken = multiply(multiply(gains[k], predicted.subarray((k + 1) * SIZE, (k + 2) * SIZE)), gains[k], true);
    return rootOf(Float64Array.from(own, (one, i) => one - taken[i]));
  });
  return Array.from({ length: courses }, () => {
    const height = new Float64Array(nodes);
    const speed = new Float64Array(nodes);
    const noise = new Float64Array(STATES);
    let ahead = new Float64Array(STATES);
    for (let k = nodes - 1; k >= 0; k--) {
      const state = new Float64Array(STATES);
      for (let i = 0; i < STATES; i++) noise[i] = normal();
      for (let i = 0; i < STATES; i++) {
        let value = means[k * STATES + i];
        for (let j = 0; j <= i; j++) value += roots[k][i * STATES + j] * noise[j];
        if (k < nodes - 1)
          for (let j = 0; j < STATES; j++)
            value += gains[k][i * STATES + j] * (ahead[j] - predictedMeans[(k + 1) * STATES + j]);
        state[i] = value;
      }
      ahead = state;
      height[k] = heightOf(state, input);
      speed[k] = speedOf(state, input);
    }
    return { height, speed };
  });
}
