/** What happened in a flight as far as barometric heights alone show it, and how noisy they are. */

import { GRAVITY } from '../model/atmosphere.js';
import { evenReadings, type FlightEvents, type Moment, roundingOf } from './events.js';
import { type Known, NOTHING_KNOWN } from './known.js';
import type { FlightLog } from './read-log.js';

/** A speed that the noise of slopes cannot reach on an approach, m/s, and how fast it then still falls, m/s2. */
const SLOW = 6;
const SLOWING = 5;
/** Seconds over which a barometric speed is taken. */
const SLOPE = 0.6;

/** Finds the events from heights alone, to half a second at best. */
export function eventsFromHeight(log: FlightLog, known: Known | null): FlightEvents {
  const heights = log.height as Float64Array;
  const step = 0.1;
  const raw = filled(evenReadings(log, heights, step, log.time[0], log.time[log.time.length - 1]));
  const flow = flowShown(raw, step, (known ?? NOTHING_KNOWN).flowError.mean);
  const values = raw.map((height, i) => height - flow[i]);
  const none: FlightEvents = {
    ejection: null,
    ejectionSeen: false,
    throttleUp: null,
    arrest: null,
    touchdown: null,
    rest: null,
    peak: null,
  };
  const speeds = fallSpeeds(values, step);
  const noise = noiseOf(log, heights, step);
  const touchdown = touchdownFrom(log, heights, noise);
  const limit = touchdown === null ? values.length - 1 : Math.round((touchdown.time - log.time[0]) / step);
  // The noise of a can at rest may look fast as well.
  const fastest = speeds.reduce((best, one, i) => (i <= limit && one > speeds[best] ? i : best), 0);
  if (!(speeds[fastest] > 3)) return none;
  const at = (i: number, error: number): Moment => ({ time: log.time[0] + i * step, error });
  // Backwards from the fast fall to where it began: still, or rising, or at the top.
  let began = fastest;
  while (began > 0 && speeds[began] > 2.5) began -= 1;
  let arrest = fastest;
  while (arrest < limit && speeds[arrest] > SLOW) arrest += 1;
  const stopped = arrest < limit - Math.round(1 / step);
  const braking = brakingFrom(log, withoutFlow(log, heights, flow, step), at(arrest, 0).time, at(began, 0).time, noise);
  const away = known === null ? 0 : known.ejectionSpeed.mean / 9.81;
  return {
    ...none,
    ejection: at(began - 2.5 / 9.81 / step + away / step, 0.5),
    throttleUp: stopped ? braking : null,
    arrest: stopped ? at(arrest + Math.max(0, SLOW - (known?.approachSpeed ?? SLOW)) / SLOWING / step, 0.3) : null,
    touchdown,
  };
}

/** Fall speed in m/s at each of the even heights, over `SLOPE` before and after. */
function fallSpeeds(values: Float64Array, step: number): Float64Array {
  const reach = Math.round(SLOPE / step);
  const last = values.length - 1;
  const mean = (i: number) => {
    const [from, to] = [Math.max(0, i - 2), Math.min(values.length, i + 3)];
    let sum = 0;
    for (let j = from; j < to; j++) sum += values[j];
    return sum / (to - from);
  };
  return values.map((_, i) => {
    const [from, to] = [Math.max(0, i - reach), Math.min(last, i + reach)];
    return (mean(from) - mean(to)) / ((to - from) * step);
  });
}

/**
 * Metres that the stream at the vents adds to each of the even readings, k V^2/(2 g) with k as far as it is known. A reading
 * that suction has raised falls by V (1 + k a/g) while the can slows down with a, which would pass for a longer fall. The
 * fall speed comes from the readings without what was found the time before, three times over.
 */
function flowShown(raw: Float64Array, step: number, k: number): Float64Array {
  let shown = new Float64Array(raw.length);
  for (let pass = 0; pass < 3; pass++) {
    const speeds = fallSpeeds(
      raw.map((height, i) => height - shown[i]),
      step,
    );
    shown = speeds.map((speed) => (k * Math.max(0, speed) ** 2) / (2 * GRAVITY));
  }
  return shown;
}

/** The readings of the log less what the stream adds to them, linear between the even places. */
function withoutFlow(log: FlightLog, heights: Float64Array, flow: Float64Array, step: number): Float64Array {
  return heights.map((height, i) => {
    const place = Math.min((log.time[i] - log.time[0]) / step, flow.length - 1);
    const before = Math.min(Math.floor(place), flow.length - 2);
    return height - flow[before] - (place - before) * (flow[before + 1] - flow[before]);
  });
}

/** Stretch looked at before the arrest, s, and the part of the fall that is not steady yet. */
const BRAKING_SEEN = 10;
const UNSTEADY = 5;
const CORNER_LATE = 0.3;

/**
 * Finds where the braking begins: the corner t0 of a straight line and a parabola, z = z0 - v (t - t0) + a max(0, t -
 * t0)^2/2, by least squares; the error of t0 comes from how fast the squares grow (by one noise variance). The drag makes
 * the deceleration strongest at first, which draws the corner early by about a third of a second.
 */
function brakingFrom(
  log: FlightLog,
  heights: Float64Array,
  arrest: number,
  began: number,
  noise: number,
): Moment | null {
  const from = Math.max(arrest - BRAKING_SEEN, began + Math.min(UNSTEADY, (arrest - began) / 3));
  const [times, values] = [[], []] as number[][];
  for (let i = 0; i < heights.length; i++) {
    if (Number.isNaN(heights[i]) || log.time[i] < from || log.time[i] > arrest - 0.3) continue;
    times.push(log.time[i]);
    values.push(heights[i]);
  }
  if (times.length < 8) return null;
  let best = { corner: Number.NaN, squares: Number.POSITIVE_INFINITY };
  const tried: { readonly corner: number; readonly squares: number }[] = [];
  for (let corner = from + 0.5; corner < arrest - 0.8; corner += 0.05) {
    const { squares } = bestSum(
      times.map((t) => [1, t - corner, Math.max(0, t - corner) ** 2 / 2]),
      values,
    );
    tried.push({ corner, squares });
    if (squares < best.squares) best = { corner, squares };
  }
  if (Number.isNaN(best.corner)) return null;
  const scale = Math.max(noise ** 2, best.squares / Math.max(1, times.length - 4));
  const close = tried.filter(({ squares }) => squares <= best.squares + scale).map(({ corner }) => corner);
  const half = (Math.max(...close) - Math.min(...close)) / 2;
  return { time: best.corner + CORNER_LATE, error: Math.hypot(half, CORNER_LATE) };
}

/**
 * Linear least squares by the normal equations and Gaussian elimination: the factors of the columns, and the sum of
 * squares that their best sum leaves of the values. Columns that depend on each other give NaN or huge factors.
 */
function bestSum(rows: readonly (readonly number[])[], values: readonly number[]) {
  const size = rows[0].length;
  const a = Array.from({ length: size }, (_, i) =>
    Array.from({ length: size + 1 }, (_, j) =>
      rows.reduce((sum, row, k) => sum + row[i] * (j === size ? values[k] : row[j]), 0),
    ),
  );
  for (let i = 0; i < size; i++) {
    for (let j = i + 1; j < size; j++) {
      const factor = a[j][i] / a[i][i];
      for (let k = i; k <= size; k++) a[j][k] -= factor * a[i][k];
    }
  }
  const x = new Array<number>(size).fill(0);
  for (let i = size - 1; i >= 0; i--)
    x[i] = (a[i][size] - a[i].reduce((sum, one, j) => (j > i && j < size ? sum + one * x[j] : sum), 0)) / a[i][i];
  const squares = rows.reduce(
    (sum, row, k) => sum + (values[k] - row.reduce((fit, one, i) => fit + one * x[i], 0)) ** 2,
    0,
  );
  return { factors: x, squares };
}

/** Stretch above the ground that is looked at, m or times the noise; readings at rest that a touchdown needs, s. */
const SEEN_ABOVE = 6;
const SEEN_NOISE = 6;
const RESTING = 1.5;

/**
 * Finds when the heights come to rest: before the touchdown t0 they are h0 + v (t0 - t) + a (t0 - t)^2/2 with v and a not
 * negative, after it h0. Every t0 is tried by least squares and weighted by how likely it makes the readings.
 */
function touchdownFrom(log: FlightLog, heights: Float64Array, noise: number): Moment | null {
  const end = log.time[log.time.length - 1];
  const [times, values] = [[], []] as number[][];
  for (let i = 0; i < heights.length; i++) {
    if (Number.isNaN(heights[i])) continue;
    times.push(log.time[i]);
    values.push(heights[i]);
  }
  const from = times.findIndex((time) => time >= end - RESTING);
  if (from < 6 || times.length - from < 5) return null;
  const rest = values.slice(from).sort((a, b) => a - b);
  const ground = rest[Math.floor(rest.length / 2)];
  const margin = Math.max(SEEN_ABOVE, SEEN_NOISE * noise);
  // The last three readings in a row that are well above the ground: one alone may be noise.
  let first = from;
  while (first >= 2 && ![0, 1, 2].every((back) => values[first - back] > ground + margin)) first -= 1;
  const seen = { times: times.slice(Math.max(0, first - 2)), values: values.slice(Math.max(0, first - 2)) };
  if (seen.times.length < 8 || seen.times[0] > end - RESTING) return null;
  const tried: { readonly time: number; readonly squares: number }[] = [];
  for (let time = seen.times[1]; time <= end; time += 0.05)
    tried.push({ time, squares: restSquares(seen.times, seen.values, time) });
  const least = tried.reduce((best, { squares }) => Math.min(best, squares), Number.POSITIVE_INFINITY);
  const variance = Math.max(noise ** 2, least / (seen.times.length - 4));
  const weights = tried.map(({ squares }) => Math.exp((least - squares) / (2 * variance)));
  const total = weights.reduce((sum, one) => sum + one, 0);
  const mean = tried.reduce((sum, { time }, i) => sum + (weights[i] * time) / total, 0);
  const spread = tried.reduce((sum, { time }, i) => sum + (weights[i] * (time - mean) ** 2) / total, 0);
  return mean > end - RESTING ? null : { time: mean, error: Math.max(0.1, Math.sqrt(spread)) };
}

function restSquares(times: readonly number[], values: readonly number[], touchdown: number): number {
  const before = times.map((t) => Math.max(0, touchdown - t));
  const whole = bestSum(
    before.map((t) => [1, t, t ** 2 / 2]),
    values,
  );
  const [, speed, braking] = whole.factors;
  if (speed >= 0 && braking >= 0) return whole.squares;
  const steady = bestSum(
    before.map((t) => [1, t]),
    values,
  );
  const flared = bestSum(
    before.map((t) => [1, t ** 2 / 2]),
    values,
  );
  if (braking < 0 && steady.factors[1] >= 0) return steady.squares;
  return flared.squares;
}

/** The values with gaps bridged by straight lines and both ends held. */
function filled(values: Float64Array): Float64Array {
  const result = values.slice();
  let last = -1;
  for (let i = 0; i < result.length; i++) {
    if (Number.isNaN(values[i])) continue;
    for (let j = last + 1; j < i; j++)
      result[j] = last === -1 ? values[i] : values[last] + ((values[i] - values[last]) * (j - last)) / (i - last);
    last = i;
  }
  for (let j = last + 1; j < result.length; j++) result[j] = last === -1 ? 0 : values[last];
  return result;
}

/**
 * Noise of a barometric reading from second differences, which a smooth fall leaves alone; at least the noise of its
 * rounding.
 */
export function noiseOf(log: FlightLog, values: Float64Array, step: number): number {
  const kept: number[] = [];
  const times: number[] = [];
  for (let i = 0; i < values.length && kept.length < 50_000; i++) {
    if (Number.isNaN(values[i]) || (times.length > 0 && log.time[i] - times[times.length - 1] < step)) continue;
    kept.push(values[i]);
    times.push(log.time[i]);
  }
  const sizes: number[] = [];
  for (let i = 1; i + 1 < kept.length; i++) {
    const share = (times[i] - times[i - 1]) / (times[i + 1] - times[i - 1]);
    sizes.push(Math.abs(kept[i] - kept[i - 1] - share * (kept[i + 1] - kept[i - 1])));
  }
  sizes.sort((a, b) => a - b);
  // The median of |x - (a + c)/2| of three equal normal readings is 0.8260 of their standard deviation.
  const median = sizes.length === 0 ? 1 : sizes[Math.floor(sizes.length / 2)];
  return Math.max(0.3, median / 0.826, roundingOf(values) / Math.sqrt(12));
}
