/** What happened in a flight as far as barometric heights alone show it, and how noisy they are. */
import { evenReadings, type FlightEvents, type Moment, roundingOf } from './events.js';
import type { Known } from './known.js';
import type { FlightLog } from './read-log.js';

/** Noise hides the last metre above the ground: a touchdown is seen this early, s. */
const LATE = 0.5;
/** Seconds over which a barometric speed is taken. */
const SLOPE = 0.6;

/** Events from heights alone: half a second at best. */
export function eventsFromHeight(log: FlightLog, known: Known | null): FlightEvents {
  const heights = log.height as Float64Array;
  const step = 0.1;
  const values = filled(evenReadings(log, heights, step, log.time[0], log.time[log.time.length - 1]));
  const none: FlightEvents = {
    ejection: null,
    ejectionSeen: false,
    throttleUp: null,
    arrest: null,
    touchdown: null,
    rest: null,
    peak: null,
  };
  const reach = Math.round(SLOPE / step);
  const mean = (i: number) => {
    const [from, to] = [Math.max(0, i - 2), Math.min(values.length, i + 3)];
    let sum = 0;
    for (let j = from; j < to; j++) sum += values[j];
    return sum / (to - from);
  };
  const speed = (i: number) =>
    (mean(Math.max(0, i - reach)) - mean(Math.min(values.length - 1, i + reach))) /
    ((Math.min(values.length - 1, i + reach) - Math.max(0, i - reach)) * step);
  const speeds = values.map((_, i) => speed(i));
  const fastest = speeds.reduce((best, one, i) => (one > speeds[best] ? i : best), 0);
  if (!(speeds[fastest] > 3)) return none;
  const at = (i: number, error: number): Moment => ({ time: log.time[0] + i * step, error });
  // Backwards from the fast fall to where it began: still, or rising, or at the top.
  let began = fastest;
  while (began > 0 && speeds[began] > 2.5) began -= 1;
  const noise = noiseOf(log, heights, step);
  let touchdown = values.length - 1;
  const ground = meanOfLast(values, Math.round(2 / step));
  while (touchdown > 0 && values[touchdown] - ground < Math.max(1, 2.5 * noise)) touchdown -= 1;
  const rests = values.length - 1 - touchdown >= Math.round(1.5 / step);
  const limit = rests ? touchdown : values.length - 1;
  const slow = 6;
  let arrest = fastest;
  while (arrest < limit && speeds[arrest] > slow) arrest += 1;
  const stopped = arrest < limit - Math.round(1 / step);
  const braking = brakingFrom(log, heights, at(arrest, 0).time, at(began, 0).time, noise);
  const away = known === null ? 0 : known.ejectionSpeed.mean / 9.81;
  return {
    ...none,
    ejection: at(began - 2.5 / 9.81 / step + away / step, 0.5),
    throttleUp: stopped ? braking : null,
    arrest: stopped ? at(arrest, 0.5) : null,
    touchdown: rests ? at(touchdown + 1 + LATE / step, 0.7) : null,
  };
}

/** Stretch looked at before the arrest, s, and the part of the fall that is not steady yet. */
const BRAKING_SEEN = 10;
const UNSTEADY = 5;
const CORNER_LATE = 0.3;

/**
 * Where the braking begins: the corner of a straight line and a parabola, z = z0 - v (t - t0) + a max(0, t - t0)^2/2, by
 * least squares over the corner t0; its error from how fast the squares grow (one noise variance). The drag makes the
 * deceleration strongest at first, which draws the corner early by about a third of a second.
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
    const squares = cornerSquares(times, values, corner);
    tried.push({ corner, squares });
    if (squares < best.squares) best = { corner, squares };
  }
  if (Number.isNaN(best.corner)) return null;
  const scale = Math.max(noise ** 2, best.squares / Math.max(1, times.length - 4));
  const close = tried.filter(({ squares }) => squares <= best.squares + scale).map(({ corner }) => corner);
  const half = (Math.max(...close) - Math.min(...close)) / 2;
  return { time: best.corner + CORNER_LATE, error: Math.hypot(half, CORNER_LATE) };
}

/** What the best line and parabola with this corner leave, by the normal equations. */
function cornerSquares(times: readonly number[], values: readonly number[], corner: number): number {
  const basis = times.map((t) => [1, t - corner, Math.max(0, t - corner) ** 2 / 2]);
  const a = [0, 1, 2].map((i) =>
    [0, 1, 2, 3].map((j) => basis.reduce((sum, row, k) => sum + row[i] * (j === 3 ? values[k] : row[j]), 0)),
  );
  for (let i = 0; i < 3; i++) {
    for (let j = i + 1; j < 3; j++) {
      const factor = a[j][i] / a[i][i];
      for (let k = i; k < 4; k++) a[j][k] -= factor * a[i][k];
    }
  }
  const x = [0, 0, 0];
  for (let i = 2; i >= 0; i--)
    x[i] = (a[i][3] - a[i].reduce((sum, one, j) => (j > i && j < 3 ? sum + one * x[j] : sum), 0)) / a[i][i];
  return basis.reduce((sum, row, k) => sum + (values[k] - row[0] * x[0] - row[1] * x[1] - row[2] * x[2]) ** 2, 0);
}

function meanOfLast(values: Float64Array, count: number): number {
  const last = values.slice(-count);
  return last.reduce((sum, one) => sum + one, 0) / last.length;
}

/** Gaps bridged by straight lines, ends held. */
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

/** Noise of one barometric reading: from second differences, which a smooth fall leaves alone; at least its rounding. */
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
