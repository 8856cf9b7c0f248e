/** What happened in a flight, as far as its log shows: ejection, throttle-up, arrest, touchdown. */
import type { FlightLog } from './read-log.js';

/** A moment of the flight in the logger's time, with the standard deviation of its error. */
export interface Moment {
  readonly time: number;
  readonly error: number;
}

export interface FlightEvents {
  readonly ejection: Moment | null;
  readonly throttleUp: Moment | null;
  readonly arrest: Moment | null;
  readonly touchdown: Moment | null;
  /** Reading at rest after the touchdown, gee; null where the log shows none. */
  readonly rest: number | null;
  /** False where neither a shock nor the beginning of the free fall shows in the readings: its time is then a guess. */
  readonly ejectionSeen: boolean;
  /** Largest reading between ejection and touchdown, apart from both. */
  readonly peak: number | null;
}

/** Step in which the log is looked at. */
const LOOK = 0.02;
/** What a soft landing or a fall may not reach in flight. */
const SHOCK = 3;
/** s from the ejection until the drag carries half the weight, for cans that fall at 25 to 40 m/s; and its error. */
const FREE_FALL = 2.6;
const UNSEEN = 0.8;
/** Seconds for which the reading stays high after the fall is stopped: a hand and motors need a moment to ease off. */
const BRAKING_ON = 0.2;
/** Free fall reads less than this, g. */
const FALLING = 0.6;

/** Readings at even times: the mean of the readings that fall into each step, NaN in a step without a reading. */
export function evenReadings(
  log: FlightLog,
  values: Float64Array,
  step: number,
  from: number,
  to: number,
): Float64Array {
  const count = Math.max(1, Math.ceil((to - from) / step) + 1);
  const sums = new Float64Array(count);
  const counts = new Float64Array(count);
  for (let i = 0; i < values.length; i++) {
    const place = Math.floor((log.time[i] - from) / step + 0.5);
    if (Number.isNaN(values[i]) || place < 0 || place >= count) continue;
    sums[place] += values[i];
    counts[place] += 1;
  }
  return sums.map((sum, i) => (counts[i] === 0 ? Number.NaN : sum / counts[i]));
}

/** Smallest step between different readings: how coarsely the log is rounded. */
export function roundingOf(values: Float64Array): number {
  const sorted = [...new Set(values.slice(0, 200_000))].filter((value) => !Number.isNaN(value)).sort((a, b) => a - b);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < sorted.length; i++) {
    const gap = sorted[i] - sorted[i - 1];
    if (gap > 1e-6 && gap < least) least = gap;
  }
  return Number.isFinite(least) ? least : 0;
}

interface Series {
  readonly values: Float64Array;
  /** Sums of values and of counts before each place, for means over any stretch. */
  readonly sums: Float64Array;
  readonly counts: Float64Array;
}

function seriesOf(values: Float64Array): Series {
  const sums = new Float64Array(values.length + 1);
  const counts = new Float64Array(values.length + 1);
  values.forEach((value, i) => {
    sums[i + 1] = sums[i] + (Number.isNaN(value) ? 0 : value);
    counts[i + 1] = counts[i] + (Number.isNaN(value) ? 0 : 1);
  });
  return { values, sums, counts };
}

/** Mean over the places from `a` to before `b`; NaN where there is none. */
function meanOver({ sums, counts, values }: Series, a: number, b: number): number {
  const [from, to] = [Math.max(0, Math.round(a)), Math.min(values.length, Math.round(b))];
  const count = to > from ? counts[to] - counts[from] : 0;
  return count === 0 ? Number.NaN : (sums[to] - sums[from]) / count;
}

const perSecond = (seconds: number) => Math.round(seconds / LOOK);

/** The rotors do not start at one moment: s by which the time that counts, their mean, may be off the time seen. */
const STARTS_APART = 0.1;

/** s by which a shock at the end of the flare may be taken for the contact. */
const CONTACT_EARLY = 0.05;

export function eventsFromReading(log: FlightLog, reading: Float64Array): FlightEvents {
  const start = log.time[0];
  const values = evenReadings(log, reading, LOOK, start, log.time[log.time.length - 1]);
  const series = seriesOf(values);
  const step = medianStep(log, reading);
  const error = Math.max(step, LOOK);
  const rounding = roundingOf(reading);
  const moment = (place: number, extra = 0): Moment => ({
    time: start + place * LOOK,
    error: Math.hypot(error / 2, extra),
  });

  const calm = restOf(series);
  const down = calm === null ? null : touchdownPlace(series, calm, Math.max(0.25, 2.5 * rounding));
  const rest = down === null ? null : calm;
  const end = down ?? values.length;
  const begun = ejectionPlace(series, end);
  if (begun === null)
    return {
      ejectionSeen: false,
      ejection: null,
      throttleUp: null,
      arrest: null,
      touchdown: down === null ? null : moment(down),
      rest,
      peak: null,
    };
  const { place: ejected, seen } = begun;
  const level = rest ?? 1;
  const up = throttlePlace(series, ejected, end, level, rounding);
  const arrest = up === null ? null : arrestPlace(series, up, end, level);
  return {
    ejection: moment(ejected, seen ? 0.02 : UNSEEN),
    ejectionSeen: seen,
    throttleUp: up === null ? null : moment(up - 1, STARTS_APART),
    arrest: arrest === null ? null : moment(arrest - perSecond(BRAKING_ON), 0.2),
    touchdown: down === null ? null : moment(down, CONTACT_EARLY),
    rest,
    peak: peakBetween(values, ejected + perSecond(0.3), end - perSecond(0.1)),
  };
}

function medianStep(log: FlightLog, values: Float64Array): number {
  const steps: number[] = [];
  let last = Number.NaN;
  for (let i = 0; i < values.length && steps.length < 2000; i++) {
    if (Number.isNaN(values[i])) continue;
    if (!Number.isNaN(last)) steps.push(log.time[i] - last);
    last = log.time[i];
  }
  return steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? LOOK;
}

/** The level of the last second, where it is still: a can that lies on the ground. */
function restOf(series: Series): number | null {
  const { values } = series;
  let last = values.length;
  while (last > 0 && Number.isNaN(values[last - 1])) last -= 1;
  const level = meanOver(series, last - perSecond(1), last);
  const span = values.subarray(Math.max(0, last - perSecond(1)), last).filter((value) => !Number.isNaN(value));
  const spread = Math.max(...span) - Math.min(...span);
  return span.length >= 5 && spread <= 0.3 && Math.abs(level - 1) < 0.4 ? level : null;
}

/** A contact is a shock of at least this much, over within a tenth of a second, g. */
const CONTACT = 0.6;

/**
 * The place of the last reading that differs from the reading at rest, if it belongs to a short shock. A long push before
 * it is the end of an arrest: then the log stops on the approach, which reads as calm as the ground.
 */
function touchdownPlace(series: Series, rest: number, margin: number): number | null {
  const { values } = series;
  for (let i = values.length - 1; i > 0; i--) {
    if (Number.isNaN(values[i]) || Math.abs(values[i] - rest) <= margin) continue;
    let begin = i;
    while (begin > 0 && i - begin < perSecond(0.12) && Math.abs((values[begin - 1] || rest) - rest) > margin)
      begin -= 1;
    const strongest = values.subarray(begin, i + 1).reduce((most, one) => Math.max(most, Math.abs(one - rest)), 0);
    const before = Math.abs(meanOver(series, i - perSecond(0.6), i - perSecond(0.15)) - rest);
    return strongest >= CONTACT && !(before > 0.4) ? begin : null;
  }
  return null;
}

/**
 * The place of the last shock before the free fall that comes before the long steady fall; without a shock, the place
 * where the reading drops.
 */
function ejectionPlace(series: Series, end: number): { readonly place: number; readonly seen: boolean } | null {
  const { values } = series;
  const third = perSecond(0.3);
  let lowFrom = -1;
  let lowTo = -1;
  for (let i = 0; i + third < end; i++) {
    if (!(meanOver(series, i, i + third) < FALLING)) continue;
    if (lowFrom === -1 || i - lowTo > perSecond(1)) {
      // A later stretch of free fall begins a flight anew, unless the steady fall has been reached in between.
      if (lowFrom !== -1 && steady(series, lowTo + third, Math.min(i, lowTo + perSecond(4)))) break;
      lowFrom = i;
    }
    lowTo = i;
  }
  if (lowFrom === -1) return null;
  let shock = -1;
  for (let i = Math.max(0, lowFrom - third - 5); i < lowTo; i++) if (values[i] >= SHOCK) shock = i;
  if (shock >= 0) {
    while (shock > 0 && values[shock - 1] >= SHOCK) shock -= 1;
    return { place: shock, seen: true };
  }
  let place = lowFrom;
  while (place < lowTo && !(values[place] < FALLING)) place += 1;
  // Let go from rest, the reading drops. A rocket that coasts reads as little as a can that falls: then the end of the
  // free fall, by when the drag carries half the weight, tells the beginning to a second.
  if (meanOver(series, lowFrom - perSecond(0.5), lowFrom - 1) > FALLING + 0.1) return { place, seen: true };
  return { place: Math.max(0, lowTo + third / 2 - perSecond(FREE_FALL)), seen: false };
}

/** Whether a second in the stretch reads about 1 g. */
function steady(series: Series, from: number, to: number): boolean {
  for (let i = from; i + perSecond(1) <= to; i += 5) {
    const mean = meanOver(series, i, i + perSecond(1));
    if (mean > 0.75 && mean < 1.4) return true;
  }
  return false;
}

/** The place where the reading steps up for good: thrust on top of the drag that carries the can already. */
function throttlePlace(series: Series, ejected: number, end: number, level: number, rounding: number): number | null {
  const window = perSecond(0.6);
  const rise = Math.max(0.2, 1.5 * rounding);
  for (let i = ejected + perSecond(1); i + window < end; i++) {
    const after = meanOver(series, i, i + window);
    const before = meanOver(series, i - perSecond(0.4), i - perSecond(0.05));
    if (!(after >= level + 0.15 && after - before >= rise)) continue;
    let best = i;
    let steepest = 0;
    for (let place = i; place < Math.min(i + window, end); place++) {
      const step = meanOver(series, place, place + 6) - meanOver(series, place - 6, place);
      if (step > steepest) {
        steepest = step;
        best = place;
      }
    }
    return best;
  }
  return null;
}

/** The place where the reading has come back to the reading of steady descent. */
function arrestPlace(series: Series, up: number, end: number, level: number): number | null {
  for (let i = up + perSecond(0.4); i + perSecond(0.4) <= end; i++) {
    if (
      meanOver(series, i, i + perSecond(0.15)) < level + 0.12 &&
      meanOver(series, i, i + perSecond(0.6)) < level + 0.12
    )
      return i;
  }
  return null;
}

function peakBetween(values: Float64Array, from: number, to: number): number | null {
  let peak = Number.NEGATIVE_INFINITY;
  for (let i = Math.max(0, from); i < Math.min(values.length, to); i++) if (values[i] > peak) peak = values[i];
  return Number.isFinite(peak) ? peak : null;
}
