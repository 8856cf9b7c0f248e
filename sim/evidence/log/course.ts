/** From a log and what is known besides to height and speed over time. */
import { evenReadings, eventsFromReading, type FlightEvents, type Moment, roundingOf } from './events.js';
import { eventsFromHeight, noiseOf } from './height-events.js';
import type { Known } from './known.js';
import type { FlightLog } from './read-log.js';
import { type Prior, type Smoothed, smooth } from './smoother.js';

const GRAVITY = 9.80665;
/** Courses drawn for the ranges of quantities. */
const COURSES = 120;
const LEAST_STEP = 0.1;
const MOST_NODES = 3000;
/** Readings this soon after ejection belong to its charge. */
const CHARGE = 0.15;

export interface Reconstruction {
  readonly events: FlightEvents;
  /** Logger's time of the first node, and s from node to node. */
  readonly start: number;
  readonly step: number;
  readonly smoothed: Smoothed;
  /** False where the height at ejection or at the ground is missing, so that heights float. */
  readonly heightsHeld: boolean;
}

/** Null where the log does not show where the flight begins. `courses` are drawn for the ranges of quantities. */
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
  const smoothed = smooth(inputOf(log, known, events, { start, step, nodes, spare }), courses, log.file);
  return {
    events: log.height === null ? events : { ...events, arrest: arrestBySpeed(smoothed, events, start, step, known) },
    start,
    step,
    heightsHeld: log.height !== null || (known.ejectionHeight !== null && events.touchdown !== null),
    smoothed,
  };
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

/** Deceleration at the end of the arrest, m/s2; a guess on the low side, for the error of its time. */
const BRAKING = 5;

interface Grid {
  readonly start: number;
  readonly step: number;
  readonly nodes: number;
  /** s from the last node to the touchdown. */
  readonly spare: number;
}

function inputOf(log: FlightLog, known: Known, events: FlightEvents, grid: Grid) {
  const { start, step, nodes, spare } = grid;
  const fine = log.reading === null ? null : stretchMeans(log, log.reading, grid);
  const bias = events.rest === null ? 0 : events.rest - 1;
  const rounding = log.reading === null ? 0 : roundingOf(log.reading);
  const acceleration = new Float64Array(nodes);
  const accelerationError = new Float64Array(nodes);
  const accelerationNoise = new Float64Array(nodes);
  const errorTime = new Float64Array(nodes);
  for (let k = 0; k < nodes; k++) {
    const reading = fine === null ? Number.NaN : fine[k];
    const blind = Number.isNaN(reading) || (reading - bias > 3 && k * step < CHARGE);
    const upwards = upwardShare(k * step, known.sideSpeed);
    const guess = blindGuess(k * step, start + k * step, events);
    acceleration[k] = (blind ? guess.mean : (reading - bias) * upwards - 1) * GRAVITY;
    const error = blind ? guess : directionError(start + k * step, events, 0.7 * (1 - upwards) * reading);
    accelerationError[k] = error.size * GRAVITY;
    errorTime[k] = error.time;
    accelerationNoise[k] = blind ? 0.3 * GRAVITY : Math.max(0.03, rounding / Math.sqrt(12)) * GRAVITY;
  }
  const offset = known.sensorOffset ?? 0;
  return {
    step,
    acceleration,
    accelerationError,
    accelerationNoise,
    errorTime,
    height: log.height === null ? new Float64Array(nodes).fill(Number.NaN) : nodeMeans(log, log.height, grid),
    heightNoise: log.height === null ? 1 : noiseOf(log, log.height, step),
    priors: {
      height: startHeight(log, known, start),
      speed: {
        ...known.ejectionSpeed,
        sd: Math.hypot(known.ejectionSpeed.sd, GRAVITY * (events.ejection?.error ?? 0)),
      },
      error: { mean: 0, sd: (log.reading === null ? 0.3 : 0.15) * GRAVITY },
      bias:
        log.reading === null
          ? { mean: 0, sd: 1e-3 }
          : { mean: 0, sd: zeroUncertainty(events.rest, rounding, offset) * GRAVITY },
      zero: zeroOf(log, events),
      flow: known.flowError,
      scale: known.scaleError,
    },
    last: events.touchdown === null ? null : groundAt(spare, events.touchdown.error),
  } as const;
}

/** At the last node the ground is a fraction of a step away. */
function groundAt(spare: number, timeError: number): Prior {
  return { mean: 2 * spare, sd: 0.5 + 5 * spare + 2 * timeError };
}

/**
 * Upward acceleration where no reading tells it, in g, with its error and how long that lasts: the drag builds up in the
 * first seconds, then the fall is steady, thrust brakes by about half a g, and the approach is steady again.
 */
function blindGuess(sinceEjection: number, now: number, { throttleUp, arrest }: FlightEvents) {
  const near = (moment: Moment | null) => moment !== null && Math.abs(now - moment.time) < 2 * moment.error + 0.2;
  if (near(throttleUp) || near(arrest)) return { mean: 0.3, size: 0.6, time: 0.5 };
  if (throttleUp === null || now < throttleUp.time)
    return { mean: -Math.exp(-sinceEjection / 2.5), size: 0.06 + 0.3 * Math.exp(-sinceEjection / 3), time: 1.5 };
  if (arrest !== null && now > arrest.time) return { mean: 0, size: 0.12, time: 0.7 };
  return { mean: 0.6, size: 0.4, time: 2 };
}

/**
 * Share of the specific force that points up, early in the fall: drag points against the velocity through the air, which
 * begins sideways and turns down as the can gathers speed. Rough: it falls freely up to 25 m/s and loses its sideways
 * speed with a time constant of 6 s.
 */
function upwardShare(sinceEjection: number, sideSpeed: number): number {
  const down = Math.min(GRAVITY * Math.max(sinceEjection, 0.05), 25);
  return down / Math.hypot(down, sideSpeed * Math.exp(-sinceEjection / 6));
}

/**
 * Slow error of the upward acceleration taken from the size of the specific force, in g: large while the sideways speed
 * of the ejection lasts and while the can rights itself, small in the steady fall and on the approach.
 */
function directionError(now: number, { throttleUp, arrest }: FlightEvents, sideways: number) {
  if (throttleUp !== null && now > throttleUp.time - 0.3 && now < throttleUp.time + 1.2)
    return { size: 0.25, time: 0.4 };
  if (throttleUp !== null && now >= throttleUp.time && (arrest === null || now < arrest.time + 0.5))
    return { size: 0.08, time: 0.7 };
  if (arrest !== null && now >= arrest.time) return { size: 0.03, time: 0.7 };
  return { size: 0.03 + sideways, time: 1 };
}

/** Standard deviation of the constant error that is left of a g-meter, in g. */
function zeroUncertainty(rest: number | null, rounding: number, offset: number): number {
  const unseen = rest === null ? 0.08 : 0.015;
  // A turning of 200 deg/s at the sensor's distance from the centre of mass reads as this much.
  const turning = (offset * 3.5 ** 2) / GRAVITY / 4;
  return Math.hypot(unseen, rounding / 5, turning);
}

function startHeight(log: FlightLog, known: Known, start: number): Prior {
  if (known.ejectionHeight !== null) return known.ejectionHeight;
  if (log.height === null) return { mean: 500, sd: 500 };
  const near = log.time.findIndex((time, i) => time >= start && !Number.isNaN((log.height as Float64Array)[i]));
  return { mean: near === -1 ? 500 : log.height[near], sd: 200 };
}

/** What the barometer reads on the ground; its own noise where it was seen at rest there. */
function zeroOf(log: FlightLog, events: FlightEvents): Prior {
  if (log.height === null || events.touchdown === null) return { mean: 0, sd: 8 };
  const from = events.touchdown.time + 0.3;
  const rest = log.height.filter((value, i) => log.time[i] >= from && !Number.isNaN(value));
  if (rest.length < 5) return { mean: 0, sd: 8 };
  return { mean: rest.reduce((sum, one) => sum + one, 0) / rest.length, sd: 0.4 };
}

/** Means of the readings between each node and the next. */
function stretchMeans(log: FlightLog, values: Float64Array, { start, step, nodes }: Grid): Float64Array {
  return evenReadings(log, values, step, start + step / 2, start + (nodes - 0.5) * step).slice(0, nodes);
}

function nodeMeans(log: FlightLog, values: Float64Array, { start, step, nodes }: Grid): Float64Array {
  return evenReadings(log, values, step, start, start + (nodes - 1) * step).slice(0, nodes);
}

/** With both channels the g-meter tells the events; what it misses the barometer may tell. */
function withHeight(log: FlightLog, events: FlightEvents): FlightEvents {
  if (log.height === null || (events.ejection !== null && events.ejectionSeen)) return events;
  const other = eventsFromHeight(log, null);
  if (events.ejection !== null) return { ...events, ejection: other.ejection ?? events.ejection };
  return { ...events, ejection: other.ejection, throttleUp: other.throttleUp, arrest: other.arrest };
}
