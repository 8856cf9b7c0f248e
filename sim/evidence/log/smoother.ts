/**
 * Height and speed over time from a log, with their errors: a Kalman filter forwards and the smoother of Rauch, Tung
 * and Striebel (AIAA Journal 3:1445, 1965) backwards, then whole courses drawn at random from what both leave open
 * (Carter and Kohn, Biometrika 81:541, 1994; both cited from memory).
 *
 * State: height z, upward speed w, error e of the assumed acceleration (first-order Gauss-Markov), constant error b of
 * the g-meter, zero error of the barometer, its flow error k, its scale error s.
 *   z' = w,  w' = a + e + b,  reading = z (1 - s) + zero + k w^2/(2 g) + noise, linearised about the last pass.
 */
import seedrandom from 'seedrandom';
import { multiply, rootOf, STATES, solveRight } from './matrix.js';

const [Z, W, E, B, ZERO, FLOW, SCALE] = [0, 1, 2, 3, 4, 5, 6];
const GRAVITY = 9.80665;

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
  readonly priors: {
    readonly height: Prior;
    readonly speed: Prior;
    readonly error: Prior;
    readonly bias: Prior;
    readonly zero: Prior;
    readonly flow: Prior;
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

const PASSES = 3;

export function smooth(input: SmootherInput, courses: number, seed: string): Smoothed {
  // Without a barometer nothing has to be linearised, and one pass does.
  const passes = input.height.some((one) => !Number.isNaN(one)) ? PASSES : 1;
  let about: Passed | null = null;
  for (let pass = 1; pass < passes; pass++) about = onePass(input, about, 0, seed);
  return onePass(input, about, courses, seed);
}

interface Passed extends Smoothed {
  readonly constants: { readonly flow: number; readonly scale: number };
}

function onePass(input: SmootherInput, about: Passed | null, courses: number, seed: string): Passed {
  const nodes = input.height.length;
  const size = STATES * STATES;
  const means = new Float64Array(nodes * STATES);
  const covariances = new Float64Array(nodes * size);
  const predictedMeans = new Float64Array(nodes * STATES);
  const predicted = new Float64Array(nodes * size);
  const { priors } = input;
  let m = Float64Array.from(
    [priors.height, priors.speed, priors.error, priors.bias, priors.zero, priors.flow, priors.scale],
    ({ mean }) => mean,
  );
  let p = new Float64Array(size);
  [priors.height, priors.speed, priors.error, priors.bias, priors.zero, priors.flow, priors.scale].forEach(
    ({ sd }, i) => {
      p[i * STATES + i] = Math.max(sd, 1e-6) ** 2;
    },
  );
  const transition = (k: number) => transitionOf(input.step, input.errorTime[k]);
  for (let k = 0; k < nodes; k++) {
    if (k > 0) {
      const f = transition(k - 1);
      m = moved(f, m, input.acceleration[k - 1], input.step);
      p = spread(f, p, input, k - 1);
    }
    predictedMeans.set(m, k * STATES);
    predicted.set(p, k * size);
    if (!Number.isNaN(input.height[k])) [m, p] = readHeight(m, p, input, about, k);
    if (k === nodes - 1 && input.last !== null) {
      const row = new Float64Array(STATES);
      row[Z] = 1;
      [m, p] = updated(m, p, row, input.last.mean, input.last.sd ** 2);
    }
    means.set(m, k * STATES);
    covariances.set(p, k * size);
  }
  const gains: Float64Array[] = [];
  for (let k = 0; k + 1 < nodes; k++) {
    const f = transition(k);
    const cross = multiply(covariances.subarray(k * size, (k + 1) * size), f, true);
    gains.push(solveRight(cross, predicted.subarray((k + 1) * size, (k + 2) * size)));
  }
  const back = backwards(nodes, means, covariances, predictedMeans, predicted, gains);
  const drawn =
    courses === 0 ? [] : drawCourses(nodes, means, covariances, predictedMeans, predicted, gains, courses, seed);
  const at = (k: number, i: number) => back.means[k * STATES + i];
  const pick = (i: number) => Float64Array.from({ length: nodes }, (_, k) => at(k, i));
  const error = (i: number) =>
    Float64Array.from({ length: nodes }, (_, k) => Math.sqrt(Math.max(0, back.covariances[k * size + i * STATES + i])));
  return {
    mean: { height: pick(Z), speed: pick(W) },
    sd: { height: error(Z), speed: error(W) },
    courses: drawn,
    constants: { flow: at(0, FLOW), scale: at(0, SCALE) },
  };
}

function transitionOf(step: number, errorTime: number): Float64Array {
  const f = new Float64Array(STATES * STATES);
  for (let i = 0; i < STATES; i++) f[i * STATES + i] = 1;
  f[Z * STATES + W] = step;
  f[Z * STATES + E] = step ** 2 / 2;
  f[Z * STATES + B] = step ** 2 / 2;
  f[W * STATES + E] = step;
  f[W * STATES + B] = step;
  f[E * STATES + E] = Math.exp(-step / errorTime);
  return f;
}

function moved(f: Float64Array, m: Float64Array, acceleration: number, step: number): Float64Array<ArrayBuffer> {
  const next = new Float64Array(STATES);
  for (let i = 0; i < STATES; i++) {
    let sum = 0;
    for (let j = 0; j < STATES; j++) sum += f[i * STATES + j] * m[j];
    next[i] = sum;
  }
  next[Z] += (acceleration * step ** 2) / 2;
  next[W] += acceleration * step;
  return next;
}

function spread(f: Float64Array, p: Float64Array, input: SmootherInput, k: number): Float64Array<ArrayBuffer> {
  const next = multiply(multiply(f, p), f, true);
  const { step } = input;
  const keep = Math.exp(-step / input.errorTime[k]);
  const noise = (input.accelerationNoise[k] * step) ** 2;
  next[Z * STATES + Z] += (noise * step ** 2) / 4 + 1e-8;
  next[Z * STATES + W] += (noise * step) / 2;
  next[W * STATES + Z] += (noise * step) / 2;
  next[W * STATES + W] += noise + 1e-8;
  next[E * STATES + E] += input.accelerationError[k] ** 2 * (1 - keep ** 2) + 1e-10;
  return next;
}

function readHeight(
  m: Float64Array<ArrayBuffer>,
  p: Float64Array<ArrayBuffer>,
  input: SmootherInput,
  about: Passed | null,
  k: number,
): [Float64Array<ArrayBuffer>, Float64Array<ArrayBuffer>] {
  const row = new Float64Array(STATES);
  const height = about === null ? input.height[k] : about.mean.height[k];
  const speed = about === null ? 0 : about.mean.speed[k];
  const { flow, scale } = about?.constants ?? { flow: input.priors.flow.mean, scale: input.priors.scale.mean };
  const pressure = speed ** 2 / (2 * GRAVITY);
  row[Z] = 1 - scale;
  row[W] = (flow * speed) / GRAVITY;
  row[ZERO] = 1;
  row[FLOW] = pressure;
  row[SCALE] = -height;
  const expected = height * (1 - scale) + flow * pressure;
  const linear = row[Z] * height + row[W] * speed + row[FLOW] * flow + row[SCALE] * scale;
  return updated(m, p, row, input.height[k] - expected + linear, input.heightNoise ** 2);
}

/** One measurement y = row . state + noise. */
function updated(
  m: Float64Array<ArrayBuffer>,
  p: Float64Array<ArrayBuffer>,
  row: Float64Array,
  y: number,
  variance: number,
): [Float64Array<ArrayBuffer>, Float64Array<ArrayBuffer>] {
  const cross = new Float64Array(STATES);
  let [total, fitted] = [variance, 0];
  for (let i = 0; i < STATES; i++) {
    for (let j = 0; j < STATES; j++) cross[i] += p[i * STATES + j] * row[j];
    total += row[i] * cross[i];
    fitted += row[i] * m[i];
  }
  const mean = m.map((one, i) => one + (cross[i] * (y - fitted)) / total);
  const covariance = p.slice();
  for (let i = 0; i < STATES; i++)
    for (let j = 0; j < STATES; j++) covariance[i * STATES + j] -= (cross[i] * cross[j]) / total;
  return [mean, covariance];
}

function backwards(
  nodes: number,
  means: Float64Array,
  covariances: Float64Array,
  predictedMeans: Float64Array,
  predicted: Float64Array,
  gains: readonly Float64Array[],
) {
  const size = STATES * STATES;
  const smoothMeans = means.slice();
  const smoothCovariances = covariances.slice();
  for (let k = nodes - 2; k >= 0; k--) {
    const gain = gains[k];
    const difference = new Float64Array(size);
    for (let i = 0; i < size; i++)
      difference[i] = smoothCovariances[(k + 1) * size + i] - predicted[(k + 1) * size + i];
    const change = multiply(multiply(gain, difference), gain, true);
    for (let i = 0; i < size; i++) smoothCovariances[k * size + i] += change[i];
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
  nodes: number,
  means: Float64Array,
  covariances: Float64Array,
  predictedMeans: Float64Array,
  predicted: Float64Array,
  gains: readonly Float64Array[],
  courses: number,
  seed: string,
): readonly Course[] {
  const size = STATES * STATES;
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
    const own = covariances.subarray(k * size, (k + 1) * size);
    if (k === nodes - 1) return rootOf(own);
    const taken = multiply(multiply(gains[k], predicted.subarray((k + 1) * size, (k + 2) * size)), gains[k], true);
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
      height[k] = state[Z];
      speed[k] = state[W];
    }
    return { height, speed };
  });
}
