/**
 * Makes what the smoother is given: readings on a grid, what is assumed where no reading tells, and what is known besides.
 */
import { GRAVITY } from '../model/atmosphere.js';
import { type Assumed, assumedAcceleration, type Roughness } from './blind.js';
import { evenReadings, type FlightEvents, roundingOf } from './events.js';
import { noiseOf } from './height-events.js';
import type { Known } from './known.js';
import type { FlightLog } from './read-log.js';
import type { Prior, SmootherInput } from './smoother.js';

/** Readings this soon after the ejection belong to its charge, s. */
const CHARGE = 0.15;

export interface Grid {
  /** Logger's time of the first node. */
  readonly start: number;
  readonly step: number;
  readonly nodes: number;
  /** s from the last node to the touchdown. */
  readonly spare: number;
}

/** What may be tried one way or another on the same log. */
export interface Trial {
  readonly flow: number;
  /** Logger's time; null where there was none. */
  readonly throttleUp: number | null;
  readonly fallSpeed: number;
  readonly rough: Roughness;
}

/** Reads the log once and returns the function that makes the input of each trial. */
export function inputMaker(
  log: FlightLog,
  known: Known,
  events: FlightEvents,
  grid: Grid,
): (trial: Trial) => SmootherInput {
  const { start, step, nodes } = grid;
  const fine = log.reading === null ? null : stretchMeans(log, log.reading, grid);
  const bias = events.rest === null ? 0 : events.rest - 1;
  const rounding = log.reading === null ? 0 : roundingOf(log.reading);
  const height = log.height === null ? new Float64Array(nodes).fill(Number.NaN) : settledHeights(log, log.height, grid);
  const heightNoise = log.height === null ? 1 : noiseOf(log, log.height, step);
  const sideways = Float64Array.from({ length: nodes }, (_, k) =>
    events.arrest !== null && start + k * step >= events.arrest.time
      ? known.windSpeed ** 2
      : sidewaysAt(k * step, known.sideSpeed) ** 2,
  );
  const priors = {
    height: startHeight(log, known, start),
    speed: {
      ...known.ejectionSpeed,
      sd: Math.hypot(known.ejectionSpeed.sd, GRAVITY * (events.ejection?.error ?? 0)),
    },
    error: { mean: 0, sd: (log.reading === null ? 0.3 : 0.15) * GRAVITY },
    bias:
      log.reading === null
        ? { mean: 0, sd: 1e-3 }
        : { mean: 0, sd: zeroUncertainty(events.rest, rounding, known.sensorOffset ?? 0) * GRAVITY },
    zero: log.height === null ? NONE : zeroOf(log, events),
    scale: log.height === null ? NONE : known.scaleError,
  };
  const last = events.touchdown === null ? null : groundAt(grid, height, events.touchdown.error);
  return ({ flow, throttleUp, fallSpeed, rough }) => {
    const acceleration = new Float64Array(nodes);
    const accelerationError = new Float64Array(nodes);
    const accelerationNoise = new Float64Array(nodes);
    const errorTime = new Float64Array(nodes);
    const phases = { ...events, throttleUp: throttleUp === null ? null : { time: throttleUp, error: 0 } };
    for (let k = 0; k < nodes; k++) {
      const [since, now] = [k * step, start + k * step];
      const reading = fine === null ? Number.NaN : fine[k];
      const blind = Number.isNaN(reading) || (reading - bias > 3 && since < CHARGE);
      const upwards = upwardShare(since, known.sideSpeed);
      const error = blind
        ? assumedAcceleration(since, now, phases, fallSpeed, rough)
        : directionError(now, phases, 0.7 * (1 - upwards) * reading);
      acceleration[k] = (blind ? error.mean : (reading - bias) * upwards - 1 - error.mean) * GRAVITY;
      accelerationError[k] = error.size * GRAVITY;
      errorTime[k] = error.time;
      accelerationNoise[k] = (blind ? UNSTEADY * error.size : Math.max(0.03, rounding / Math.sqrt(12))) * GRAVITY;
    }
    return {
      step,
      acceleration,
      accelerationError,
      accelerationNoise,
      errorTime,
      height,
      heightNoise,
      flow,
      sideways,
      priors,
      last,
    };
  };
}

/** Share of the slow error that comes anew in each step. */
const UNSTEADY = 0.3;

/** Priors of the barometer for a log without a barometer: no errors. */
const NONE: Prior = { mean: 0, sd: 0 };

/** At the last node the ground is a fraction of a step away, and as uncertain as its time. */
function groundAt({ step, spare, nodes }: Grid, heights: Float64Array, timeError: number): Prior {
  const back = Math.round(1 / step);
  const slope = (heights[nodes - 1 - 2 * back] - heights[nodes - 1 - back]) / (back * step);
  // A soft touchdown, unless the heights say that it fell to the end.
  const speed = slope > FAST ? slope : SOFT;
  return { mean: speed * spare, sd: Math.hypot(0.5, speed * (spare + timeError)) };
}

/** Touchdown speed taken for a soft landing, and the speed over the last second above which the landing was not soft, m/s. */
const SOFT = 2;
const FAST = 8;

/**
 * Share of the specific force that points up, early in the fall: drag points against the velocity through the air, which
 * begins sideways and turns down as the can gathers speed. A rough model: the can falls freely up to 25 m/s and loses its
 * sideways speed with a time constant of 6 s.
 */
function upwardShare(sinceEjection: number, sideSpeed: number): number {
  const down = Math.min(GRAVITY * Math.max(sinceEjection, 0.05), 25);
  return down / Math.hypot(down, sidewaysAt(sinceEjection, sideSpeed));
}

function sidewaysAt(sinceEjection: number, sideSpeed: number): number {
  return sideSpeed * Math.exp(-sinceEjection / 6);
}

/**
 * Slow error of the upward acceleration taken from the size of the specific force, in g: large while the sideways speed
 * of the ejection lasts and while the can rights itself, small in the steady fall and on the approach. A thrust that
 * leans to fly back is longer than its upward part, so the error is one-sided there.
 */
function directionError(now: number, { throttleUp, arrest }: FlightEvents, sideways: number): Assumed {
  if (throttleUp !== null && now > throttleUp.time - 0.3 && now < throttleUp.time + 1.2)
    return { mean: 0, size: 0.25, time: 0.4 };
  if (throttleUp !== null && now >= throttleUp.time && (arrest === null || now < arrest.time + 0.5))
    return { mean: 0.01, size: 0.08, time: 0.7 };
  if (arrest !== null && now >= arrest.time)
    return now < arrest.time + FLYING_BACK
      ? { mean: LEANING, size: 0.03, time: 1 }
      : { mean: 0, size: 0.03, time: 0.7 };
  return { mean: 0, size: 0.03 + sideways, time: 1 };
}

/** s after the arrest in which a craft flies back, and by how much a lean of some 10 degrees lengthens the reading, g. */
const FLYING_BACK = 6;
const LEANING = 0.015;

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

/** The barometer's reading on the ground, with its own noise where it was seen at rest there. */
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

/**
 * The barometric heights but for those just after the ejection: its charge presses on the barometer, and the stream past
 * the vent holes is then the unknown sideways speed, no longer small against the fall speed only later.
 */
function settledHeights(log: FlightLog, values: Float64Array, grid: Grid): Float64Array {
  return nodeMeans(log, values, grid).map((one, k) => (k * grid.step < SETTLING ? Number.NaN : one));
}

const SETTLING = 1;

function nodeMeans(log: FlightLog, values: Float64Array, { start, step, nodes }: Grid): Float64Array {
  return evenReadings(log, values, step, start, start + (nodes - 1) * step).slice(0, nodes);
}
