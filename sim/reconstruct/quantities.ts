/** The quantities of a flight with their ranges, from the courses that the log leaves open. */
import seedrandom from 'seedrandom';
import { standardNormalQuantile } from '../distributions/families/normal.js';
import { quantileOf, sortedValues } from '../statistics/quantile.js';
import type { Reconstruction } from './course.js';
import type { Moment } from './events.js';
import type { FlightLog } from './read-log.js';
import { type LogEvent, type LogQuantity, QUANTITIES, type QuantityName } from './result.js';
import type { Course } from './smoother.js';

/** A touchdown speed whose range is wider than this tells nothing. */
const WIDEST_TOUCHDOWN = 4;

/** 90 % of a normal law lies within this many standard deviations. */
const REACH = 1.645;

/** One course with its moments, all in s after ejection. */
interface Sample {
  readonly up: number | null;
  readonly arrest: number | null;
  readonly down: number | null;
  readonly height: (time: number) => number;
  readonly speed: (time: number) => number;
}

export function eventsOf({ events, start, step, smoothed, heightsHeld }: Reconstruction): readonly LogEvent[] {
  const named = [
    ['ejection', events.ejection],
    ['throttle-up', events.throttleUp],
    ['arrest', events.arrest],
    ['touchdown', events.touchdown],
  ] as const;
  return named.flatMap(([name, moment]) => {
    if (moment === null) return [];
    const time = moment.time - start;
    const height = !heightsHeld ? null : name === 'touchdown' ? 0 : valueAt(smoothed.mean.height, step, time);
    return [{ name, time, low: time - REACH * moment.error, high: time + REACH * moment.error, height }];
  });
}

export function quantitiesOf(
  log: FlightLog,
  made: Reconstruction,
  plannedHeight: number | null,
): readonly LogQuantity[] {
  const samples = samplesOf(made);
  const { events, heightsHeld } = made;
  const noHeights = 'heights float: the height at ejection or the touchdown is not known';
  const seen = (...needed: readonly (keyof typeof events)[]) => {
    const lacking = needed.filter((name) => events[name] === null);
    return lacking.length === 0
      ? null
      : `the log shows no ${lacking.map((name) => EVENT_NAMES[name] ?? name).join(' and no ')}`;
  };
  const up = seen('ejection', 'throttleUp');
  const stop = seen('throttleUp', 'arrest');
  const held = heightsHeld ? null : noHeights;
  const plan = plannedHeight === null ? 'no planned height was given' : null;
  const make = (
    name: QuantityName,
    lacking: string | null,
    of: (sample: Sample) => number,
    why: string,
  ): LogQuantity => (lacking === null ? ranged(name, samples.map(of), why) : unknown(name, lacking));
  const touchdown = seen('touchdown');
  return [
    make('throttle_up_time', up, ({ up: at }) => at ?? Number.NaN, 'after ejection'),
    make('throttle_up_height', up ?? held, (one) => one.height(one.up ?? 0), 'above ground'),
    make(
      'height_below_plan',
      up ?? held ?? plan,
      (one) => (plannedHeight ?? 0) - one.height(one.up ?? 0),
      'planned height less that of throttle-up',
    ),
    make(
      'delay',
      up ?? held ?? plan,
      (one) => (one.up ?? 0) - passing(one, plannedHeight ?? 0),
      'from passing the planned height to throttle-up',
    ),
    make('speed_at_throttle_up', up ?? held, fastest, 'downwards'),
    make(
      'mean_fall_speed',
      up ?? held,
      (one) => (one.height(0) - one.height(one.up ?? 0)) / (one.up ?? 1),
      'from ejection to throttle-up',
    ),
    make(
      'stopping_height',
      stop ?? held,
      (one) => one.height(one.up ?? 0) - one.height(one.arrest ?? 0),
      'from throttle-up to arrest',
    ),
    make('stopping_time', stop, (one) => (one.arrest ?? 0) - (one.up ?? 0), 'from throttle-up to arrest'),
    make('touchdown_time', seen('ejection', 'touchdown'), ({ down }) => down ?? Number.NaN, 'after ejection'),
    touchdownSpeed(log, touchdown ?? held, samples),
    peakOf(made),
  ];
}

const EVENT_NAMES: Readonly<Record<string, string>> = { throttleUp: 'throttle-up' };

function touchdownSpeed(log: FlightLog, lacking: string | null, samples: readonly Sample[]): LogQuantity {
  const name = 'touchdown_speed';
  if (lacking !== null) return unknown(name, lacking);
  if (log.height === null)
    return unknown(name, 'a g-meter alone reads 1 g at any steady speed; a barometric height would tell it');
  if (log.reading === null)
    return unknown(name, 'a barometric height alone smears the last second, in which the flare comes');
  const made = ranged(
    name,
    samples.map((one) => one.speed(Math.max(0, (one.down ?? 0) - 0.1))),
    'vertical, downwards',
  );
  const width = (made.high ?? 0) - (made.low ?? 0);
  return width <= WIDEST_TOUCHDOWN
    ? made
    : unknown(name, `the log leaves ${width.toFixed(1)} m/s open, more than a soft landing has`);
}

function peakOf({ events }: Reconstruction): LogQuantity {
  if (events.peak === null) return unknown('peak_reading', 'the log has no g-reading');
  const { peak } = events;
  return {
    name: 'peak_reading',
    unit: QUANTITIES.peak_reading,
    status: 'known',
    value: peak,
    low: peak,
    high: peak,
    why: 'largest between ejection and touchdown, as read',
    percentile: null,
  };
}

function unknown(name: QuantityName, why: string): LogQuantity {
  return {
    name,
    unit: QUANTITIES[name],
    status: 'not identifiable',
    value: null,
    low: null,
    high: null,
    why,
    percentile: null,
  };
}

function ranged(name: QuantityName, values: readonly number[], why: string): LogQuantity {
  const sorted = sortedValues(values);
  if (sorted.length < values.length / 2) return unknown(name, 'most courses that agree with the log do not show it');
  const [low, value, high] = [0.05, 0.5, 0.95].map((p) => quantileOf(sorted, p));
  return { name, unit: QUANTITIES[name], status: 'known', value, low, high, why, percentile: null };
}

/** Each drawn course with moments drawn within their errors. */
function samplesOf({ smoothed, step, start, events, throttleUps }: Reconstruction): readonly Sample[] {
  const random = seedrandom.alea('moments');
  const drawn = (moment: Moment | null): number | null => {
    if (moment === null) return null;
    const u = Math.min(Math.max(random.double(), 1e-9), 1 - 1e-9);
    return moment.time - start + moment.error * standardNormalQuantile(u, 1 - u);
  };
  return smoothed.courses.map((course, i) => {
    const ejected = drawn(events.ejection) ?? 0;
    const late = (events.ejection?.error ?? 0) === 0 ? 0 : ejected;
    const minus = (time: number | null) => (time === null ? null : time - late);
    return {
      up: minus(throttleUps === null ? drawn(events.throttleUp) : throttleUps[i]),
      arrest: minus(drawn(events.arrest)),
      down: minus(drawn(events.touchdown)),
      height: (time) => valueAt(course.height, step, time + late),
      speed: (time) => -valueAt(course.speed, step, time + late),
    };
  });
}

/** The larger of the speeds at the throttle-up and just before it, because the time of the throttle-up is not exact. */
function fastest({ up, speed }: Sample): number {
  return Math.max(speed(up ?? 0), speed((up ?? 0) - JUST_BEFORE));
}

const JUST_BEFORE = 0.1;

/** The time at which a course first comes under a height; NaN where it stays above. */
function passing(sample: Sample, height: number): number {
  const last = Math.max(sample.down ?? 0, sample.up ?? 0);
  for (let time = 0; time <= last; time += 0.05) {
    if (sample.height(time) > height) continue;
    return time;
  }
  return Number.NaN;
}

export function valueAt(values: Course['height'], step: number, time: number): number {
  const place = Math.min(Math.max(time / step, 0), values.length - 1);
  const left = Math.min(Math.floor(place), values.length - 2);
  return values[left] + (place - left) * (values[left + 1] - values[left]);
}
