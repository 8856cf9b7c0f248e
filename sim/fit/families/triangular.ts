/**
 * Fits a triangular law by maximum likelihood, with all three corners unknown, and tells what few samples leave open about
 * it.
 */
import seedrandom from 'seedrandom';
import { andersonDarling, type CriticalPoint } from '../../statistics/anderson-darling.js';
import { quantileOf, rangeOf95, sortedValues } from '../../statistics/quantile.js';

export interface TriangularFit {
  readonly from: number;
  readonly mode: number;
  readonly to: number;
  readonly logLikelihood: number;
}

/**
 * The triangular law of greatest likelihood. Given the ends a and b, the likeliest mode c is one of the samples: between
 * two samples the logarithm of the likelihood, -r ln(c - a) - (n - r) ln(b - c), is convex in c (Oliver, The American
 * Statistician 26:43, 1972; Johnson and Kotz, The Statistician 48:179, 1999; cited from memory). So each sample is taken
 * as the mode, with the ends that are likeliest then, and the likeliest law of all is kept. The least and the greatest
 * sample are not taken as modes: few samples are nearly always likeliest with a wedge that stops at one of these two (95
 * of 100 samples of 8 from a law with its mode in the middle), and the corners of the wedge lie farther from the true
 * corners. Only samples of two values have no other mode.
 *
 * The samples ascend and are not all equal.
 */
export function fitTriangular(ascending: Float64Array): TriangularFit {
  return fitWith(ascending, false);
}

/** The fit; with `quick` it passes over modes that, by Newton's promise, cannot become the likeliest. */
function fitWith(ascending: Float64Array, quick: boolean): TriangularFit {
  const n = ascending.length;
  const [least, most] = [ascending[0], ascending[n - 1]];
  const width = most - least;
  const z = ascending.map((x) => (x - least) / width);
  const distinct = [...z.keys()].filter((r) => r === 0 || z[r] > z[r - 1]);
  const inner = distinct.filter((r) => z[r] > 0 && z[r] < 1);
  const modes = inner.length > 0 ? inner : distinct;

  let best = { r: -1, from: -0.2, to: 1.2, value: Number.NEGATIVE_INFINITY };
  const take = (r: number) => {
    const found = seekEnds(z, r, best.from, best.to);
    if (found.value > best.value) best = { r, ...found };
  };
  if (quick && inner.length > FIRST_MODES) {
    const every = Math.ceil(modes.length / FIRST_MODES);
    modes.filter((_, place) => place % every === 0).forEach(take);
    const within = reachOfAll(z, best.from, best.to);
    for (const r of modes) if (within(r) > best.value) take(r);
  } else modes.forEach(take);
  return {
    from: least + width * best.from,
    mode: ascending[best.r],
    to: least + width * best.to,
    logLikelihood: best.value - n * Math.log(width),
  };
}

/** Modes tried before the ends are known well enough to pass over most of the others. */
const FIRST_MODES = 12;
/**
 * What a mode can still gain when its ends move, in squared Newton decrements; the gain is half a squared decrement where
 * ln L is quadratic. A factor of 2 passed over no mode that mattered in 4600 samples of 6 to 300 values; a factor of 1/2
 * did in 173 of them.
 */
const GAIN = 2;

/** Sums over the samples to one side of the mode, of their distances to the end there. */
interface Side {
  readonly count: number;
  readonly inverse: number;
  readonly square: number;
  readonly logs: number;
}

/**
 * ln L for samples from 0 to 1 with the mode z_r, A from the lower end to the mode and B from there to the upper end:
 * n ln(2/(A + B)) + sum_(i<r) ln((z_i - a)/A) + sum_(i>r) ln((b - z_i)/B),
 * with its slopes in ln A and ln B, and its curvatures there (minus the second derivatives; `cross` is plus).
 */
function slopesOf(n: number, below: Side, above: Side, rise: number, fall: number) {
  const part = rise / (rise + fall);
  const cross = n * part * (1 - part);
  const sided = (distance: number, { count, logs }: Side) => (count === 0 ? 0 : logs - count * Math.log(distance));
  return {
    value: n * Math.log(2 / (rise + fall)) + sided(rise, below) + sided(fall, above),
    slopeA: rise * below.inverse - below.count - n * part,
    slopeB: fall * above.inverse - above.count - n * (1 - part),
    curveA: rise * (rise * below.square - below.inverse) + cross,
    curveB: fall * (fall * above.square - above.inverse) + cross,
    cross,
  };
}

type Slopes = ReturnType<typeof slopesOf>;

/** Newton's step in ln A and ln B, and twice the gain that it promises. An end at distance 0 stays there. */
function stepOf({ slopeA, slopeB, curveA, curveB, cross }: Slopes, rise: number, fall: number) {
  const det = curveA * curveB - cross * cross;
  const stepA = rise === 0 ? 0 : fall === 0 ? slopeA / curveA : (curveB * slopeA + cross * slopeB) / det;
  const stepB = fall === 0 ? 0 : rise === 0 ? slopeB / curveB : (curveA * slopeB + cross * slopeA) / det;
  return { stepA, stepB, decrement: slopeA * stepA + slopeB * stepB };
}

/**
 * The likeliest ends for the mode z_r. ln L is concave in (ln A, ln B), because -ln(e^p + e^q) and ln(1 - d e^-p) are:
 * there is a single maximum, and Newton's steps, halved where they overshoot, find it. With the mode at the least sample
 * ln L falls with A, so that the lower end is this sample; likewise at the greatest sample.
 */
function seekEnds(z: Float64Array, r: number, startFrom: number, startTo: number) {
  const n = z.length;
  const mode = z[r];
  let rise = mode === 0 ? 0 : mode - Math.min(startFrom, -0.01);
  let fall = mode === 1 ? 0 : Math.max(startTo, 1.01) - mode;
  let here = slopesOf(n, ...sidesAt(z, r, rise, fall), rise, fall);
  for (let turn = 0; turn < 200; turn++) {
    const { stepA, stepB, decrement } = stepOf(here, rise, fall);
    if (!(decrement > 1e-15 * n)) break;
    let share = Math.min(1, 4 / Math.max(Math.abs(stepA), Math.abs(stepB)));
    for (; share > 1e-12; share /= 2) {
      const [a, b] = [rise * Math.exp(share * stepA), fall * Math.exp(share * stepB)];
      if ((a <= mode && a > 0) || (b <= 1 - mode && b > 0)) continue;
      const next = slopesOf(n, ...sidesAt(z, r, a, b), a, b);
      if (next.value < here.value + 1e-4 * share * decrement) continue;
      [rise, fall, here] = [a, b, next];
      break;
    }
    if (share <= 1e-12) break;
  }
  return { from: mode - rise, to: mode + fall, value: here.value };
}

function sidesAt(z: Float64Array, r: number, rise: number, fall: number): readonly [Side, Side] {
  const [from, to] = [z[r] - rise, z[r] + fall];
  return [
    rise === 0 ? sideOf(z, 0, 0, 0, 1) : sideOf(z, 0, r, -from, 1),
    fall === 0 ? sideOf(z, 0, 0, 0, 1) : sideOf(z, r + 1, z.length, to, -1),
  ];
}

/** Sums over z_first to z_(end - 1) of offset + sign z. */
function sideOf(z: Float64Array, first: number, end: number, offset: number, sign: number): Side {
  let [inverse, square, logs, product] = [0, 0, 0, 1];
  for (let i = first; i < end; i++) {
    const distance = offset + sign * z[i];
    const over = 1 / distance;
    inverse += over;
    square += over * over;
    product *= distance;
    // One logarithm for many factors, before their product leaves the range of a number.
    if (product < 1e-200 || product > 1e200) {
      logs += Math.log(product);
      product = 1;
    }
  }
  return { count: end - first, inverse, square, logs: logs + Math.log(product) };
}

/** The most that ln L is taken to reach with the mode z_r and fixed ends; running sums serve every mode. */
function reachOfAll(z: Float64Array, from: number, to: number): (r: number) => number {
  const n = z.length;
  const below = runningSums(z.map((one) => one - from));
  const above = runningSums(z.map((_, i) => to - z[n - 1 - i]));
  return (r) => {
    const [rise, fall] = [z[r] - from, to - z[r]];
    const slopes = slopesOf(n, below(r), above(n - 1 - r), rise, fall);
    return slopes.value + GAIN * stepOf(slopes, rise, fall).decrement;
  };
}

/** Sums over the first `count` distances, for every count. */
function runningSums(distances: Float64Array): (count: number) => Side {
  const n = distances.length;
  const [inverse, square, logs] = [new Float64Array(n + 1), new Float64Array(n + 1), new Float64Array(n + 1)];
  for (let i = 0; i < n; i++) {
    const over = 1 / distances[i];
    inverse[i + 1] = inverse[i] + over;
    square[i + 1] = square[i] + over * over;
    logs[i + 1] = logs[i] + Math.log(distances[i]);
  }
  return (count) => ({ count, inverse: inverse[count], square: square[count], logs: logs[count] });
}

/**
 * Anderson-Darling distance to a triangular law. A sample that is itself an end counts as at half a rank, 1/(2n): its own
 * distance would be infinite. Redrawn samples are treated alike, so that the comparison holds.
 */
export function triangularDistance(ascending: Float64Array, corners: Omit<TriangularFit, 'logLikelihood'>): number {
  const half = 0.5 / ascending.length;
  return andersonDarling(
    ascending.map((x) => {
      if (x <= corners.from) return half;
      return x >= corners.to ? 1 - half : triangularBelow(x, corners);
    }),
  );
}

function triangularBelow(x: number, { from, mode, to }: Omit<TriangularFit, 'logLikelihood'>): number {
  return x < mode ? (x - from) ** 2 / ((to - from) * (mode - from)) : 1 - (to - x) ** 2 / ((to - from) * (to - mode));
}

/** Times that samples of the same size are drawn from the fit and fitted again. */
const REDRAWN = 400;
/** Samples of more values than this are drawn half as many times. */
const MANY = 200;
const LEVELS = [0.1, 0.05, 0.025];

export interface TriangularSpread {
  /** 2.5, 50 and 97.5 % of what each corner may be. */
  readonly from: readonly [number, number, number];
  readonly mode: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  /** Points of the distance that the redrawn samples pass with the chance `level`. */
  readonly points: readonly CriticalPoint[];
  /** Share of redrawn samples that lie at least as far from their own fit, counted with the sample itself. */
  readonly pValue: number;
}

/**
 * No table holds for a triangular law with all three corners estimated: samples of the same size are drawn from the
 * fit, fitted again, and their Anderson-Darling distances and corners are compared (parametric bootstrap; corners
 * mirrored about the fit: Davison and Hinkley, Bootstrap Methods, 1997, section 5.2, cited from memory).
 */
export function triangularSpread(fit: TriangularFit, n: number, statistic: number): TriangularSpread {
  const random = seedrandom.alea(`triangular ${n}`);
  const times = n > MANY ? REDRAWN / 2 : REDRAWN;
  const corners = { from: new Float64Array(times), mode: new Float64Array(times), to: new Float64Array(times) };
  const distances = new Float64Array(times);
  const rising = (fit.mode - fit.from) / (fit.to - fit.from);
  for (let i = 0; i < times; i++) {
    const sample = Float64Array.from({ length: n }, () => {
      const u = random.double();
      return u < rising
        ? fit.from + Math.sqrt(u * (fit.to - fit.from) * (fit.mode - fit.from))
        : fit.to - Math.sqrt((1 - u) * (fit.to - fit.from) * (fit.to - fit.mode));
    }).sort();
    const again = fitWith(sample, true);
    distances[i] = triangularDistance(sample, again);
    for (const name of ['from', 'mode', 'to'] as const) corners[name][i] = 2 * fit[name] - again[name];
  }
  const ordered = sortedValues(distances);
  return {
    from: rangeOf95(corners.from),
    mode: rangeOf95(corners.mode),
    to: rangeOf95(corners.to),
    points: LEVELS.map((level) => ({ level, value: Number(quantileOf(ordered, 1 - level).toPrecision(3)) })),
    pValue: (distances.filter((one) => one >= statistic).length + 1) / (times + 1),
  };
}
