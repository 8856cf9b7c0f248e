/** Finds height and speed over time from a log and what is known besides. */
import { type Roughness, USUAL_FALL, USUAL_ROUGHNESS } from './blind.js';
import { eventsFromReading, type FlightEvents, type Moment } from './events.js';
import { eventsFromHeight } from './height-events.js';
import { flowsOf, type Hypothesis, mix } from './hypotheses.js';
import type { Known } from './known.js';
import type { FlightLog } from './read-log.js';
import { logLikelihoodOf, type Prior, type Smoothed, smooth } from './smoother.js';
import { type Grid, inputMaker } from './smoother-input.js';

/** Courses drawn for the ranges of quantities. */
const COURSES = 120;
const LEAST_STEP = 0.1;
const MOST_NODES = 3000;

export interface Reconstruction {
  readonly events: FlightEvents;
  /** Logger's time of the first node, and s from node to node. */
  readonly start: number;
  readonly step: number;
  readonly smoothed: Smoothed;
  /** s from the first node to the throttle-up in each drawn course, where it goes with the course; else null. */
  readonly throttleUps: readonly number[] | null;
  /** Flow error of the barometer as the log tells it, which takes heights and g-readings; null otherwise. */
  readonly flow: Prior | null;
  /** False where the height at ejection or at the ground is missing, so that heights float. */
  readonly heightsHeld: boolean;
}

/**
 * The courses that the log leaves open; `courses` of them are drawn for the ranges of quantities. Null where the log does
 * not show where the flight begins.
 */
export function reconstructCourse(log: FlightLog, known: Known, courses: number = COURSES): Reconstruction | null {
  const events =
    log.reading === null ? eventsFromHeight(log, known) : withHeight(log, eventsFromReading(log, log.reading));
  if (events.ejection === null) return null;
  const start = events.ejection.time;
  const end = events.touchdown?.time ?? log.time[log.time.length - 1];
  if (!(end - start > 1)) return null;
  const step = Math.max(LEAST_STEP, (end - start) / MOST_NODES);
  const nodes = Math.floor((end - start) / step + 1e-9) + 1;
  const spare = end - start - (nodes - 1) * step;
  const made = courseOf(log, known, events, { start, step, nodes, spare }, courses);
  return {
    ...made,
    events:
      log.height === null
        ? made.events
        : { ...made.events, arrest: arrestBySpeed(made.smoothed, made.events, start, step, known) },
    start,
    step,
    heightsHeld: log.height !== null || (known.ejectionHeight !== null && events.touchdown !== null),
  };
}

type Smoothly = Pick<Reconstruction, 'events' | 'smoothed' | 'throttleUps' | 'flow'>;

function courseOf(log: FlightLog, known: Known, events: FlightEvents, grid: Grid, courses: number): Smoothly {
  const make = inputMaker(log, known, events, grid);
  const seen = events.throttleUp?.time ?? null;
  const usual = { throttleUp: seen, fallSpeed: USUAL_FALL, rough: USUAL_ROUGHNESS };
  if (log.height === null)
    return { events, throttleUps: null, flow: null, smoothed: smooth(make({ ...usual, flow: 0 }), courses, log.file) };
  const flows = flowsOf(known.flowError);
  if (log.reading !== null) {
    const hypotheses = flows.map((one) => ({ ...one, throttleUp: null, braking: 1, dragging: 0 }));
    const { smoothed, flow } = mix(hypotheses, (one) => make({ ...usual, flow: one.flow }), true, courses, log.file);
    return { events, throttleUps: null, flow, smoothed };
  }
  const { start, step } = grid;
  const first = smooth(make({ ...usual, flow: known.flowError.mean }), 0, log.file);
  const steady = Math.floor(((seen ?? start + (grid.nodes - 1) * step) - 1 - start) / step);
  const fallSpeed = Math.max(5, -first.mean.speed[Math.max(1, steady)]);
  const times = seen === null || events.arrest === null ? [null] : timesTried(seen, events.arrest.time, grid);
  const near = times.filter((time) => time === null || Math.abs(time - (seen ?? 0)) < ROUGHLY);
  const likelihood = (throttleUp: number | null, rough: Roughness) =>
    logLikelihoodOf(make({ flow: known.flowError.mean, throttleUp, fallSpeed, rough }));
  const fall = likeliest(ROUGHNESSES, (one) =>
    Math.max(...near.map((time) => likelihood(time, { ...USUAL_ROUGHNESS, fall: one }))),
  );
  const approach =
    seen === null ? 1 : likeliest(ROUGHNESSES, (one) => likelihood(seen, { ...USUAL_ROUGHNESS, fall, approach: one }));
  const hypotheses: readonly Hypothesis[] = possible(times, (time) =>
    Math.max(
      ...[flows[2], flows[5], flows[8]].map(
        ({ flow, logPrior }) =>
          logPrior +
          logLikelihoodOf(make({ flow, throttleUp: time, fallSpeed, rough: { ...USUAL_ROUGHNESS, fall, approach } })),
      ),
    ),
  ).flatMap((throttleUp) =>
    (throttleUp === null ? [USUAL_ROUGHNESS] : BRAKINGS).flatMap(({ braking, dragging }) =>
      flows.map((one) => ({ ...one, throttleUp, braking, dragging })),
    ),
  );
  const { smoothed, throttleUps, throttleUp } = mix(
    hypotheses,
    ({ braking, dragging, ...one }) => make({ ...one, fallSpeed, rough: { fall, braking, approach, dragging } }),
    false,
    courses,
    log.file,
  );
  if (throttleUp === null) return { events, throttleUps: null, flow: null, smoothed };
  const error = Math.hypot(throttleUp.sd, TRIED_EACH / Math.sqrt(12));
  return {
    events: { ...events, throttleUp: { time: throttleUp.mean, error } },
    throttleUps: throttleUps.map((time) => (time ?? throttleUp.mean) - start),
    flow: null,
    smoothed,
  };
}

/** Factors of roughness that are tried, all equally likely beforehand. */
const ROUGHNESSES = [0.125, 0.25, 0.5, 1, 2];
const BRAKINGS = [
  { braking: 0.5, dragging: 0.1 },
  { braking: 0.5, dragging: 0.3 },
  { braking: 0.5, dragging: 0.5 },
  { braking: 1, dragging: 0.3 },
];
/** s by which the first guess of the throttle-up may be off while the roughness of the fall is sought. */
const ROUGHLY = 0.9;

/** A first look keeps the times that are within this distance of the best, in ln of the likelihood. */
const LEFT_BEHIND = 10;

function possible<T>(times: readonly T[], logLikelihood: (time: T) => number): readonly T[] {
  const logs = times.map(logLikelihood);
  const best = Math.max(...logs);
  return times.filter((_, i) => logs[i] > best - LEFT_BEHIND);
}

function likeliest(values: readonly number[], logLikelihood: (value: number) => number): number {
  const logs = values.map(logLikelihood);
  return values[logs.indexOf(Math.max(...logs))];
}

/** s between the throttle-ups tried, how far from the first guess they go and how near to the arrest. */
const TRIED_EACH = 0.2;
const TRIED_OFF = 2.5;
const NEAREST_ARREST = 0.8;

/** The throttle-ups tried lie on nodes, so that no step is half in the fall and half in the braking. */
function timesTried(guess: number, arrest: number, { start, step }: Grid): readonly number[] {
  const each = Math.max(1, Math.round(TRIED_EACH / step)) * step;
  const from = Math.max(guess - TRIED_OFF, start + 1);
  const to = Math.max(guess, Math.min(guess + TRIED_OFF, arrest - NEAREST_ARREST));
  return Array.from(
    { length: Math.floor((to - from) / each) + 1 },
    (_, i) => start + Math.round((from + i * each - start) / step) * step,
  );
}

/** The first time after the throttle-up at which the speed has come down to that of the approach. */
function arrestBySpeed(
  { mean, sd }: Smoothed,
  events: FlightEvents,
  start: number,
  step: number,
  { approachSpeed }: Known,
): Moment | null {
  if (events.throttleUp === null || events.arrest === null) return events.arrest;
  const first = Math.max(1, Math.round((events.throttleUp.time - start) / step));
  // A steady hand may hover just above that speed: a tenth above it the fall is over, if it does not come down in time.
  const slow = crossing(mean.speed, first, 1.1 * approachSpeed);
  if (slow === null) return events.arrest;
  const down = crossing(mean.speed, Math.floor(slow), approachSpeed);
  const soon = down !== null && (down - slow) * step < HOVER;
  const place = soon ? down : slow;
  const least = soon && events.rest !== null ? 0.05 : 0.2;
  return { time: start + place * step, error: Math.max(least, sd.speed[Math.ceil(place)] / BRAKING) };
}

/** s that the last tenth of the speed may take. */
const HOVER = 0.8;

/** First place from `first` on at which the fall speed is down to a value, linear between nodes. */
function crossing(upwards: Float64Array, first: number, speed: number): number | null {
  for (let k = Math.max(1, first); k < upwards.length; k++) {
    const [before, now] = [-upwards[k - 1], -upwards[k]];
    if (now > speed) continue;
    return k - 1 + (before > now ? Math.min(1, Math.max(0, (before - speed) / (before - now))) : 1);
  }
  return null;
}

/** Deceleration at the end of the arrest, m/s2: low where a weak craft comes out of its own wake; for the error of its time. */
const BRAKING = 2.5;

/** The events of a log: with both channels the g-meter tells them, and the barometer may tell what the g-meter misses. */
function withHeight(log: FlightLog, events: FlightEvents): FlightEvents {
  if (log.height === null || (events.ejection !== null && events.ejectionSeen)) return events;
  const other = eventsFromHeight(log, null);
  if (events.ejection !== null) return { ...events, ejection: other.ejection ?? events.ejection };
  return { ...events, ejection: other.ejection, throttleUp: other.throttleUp, arrest: other.arrest };
}
