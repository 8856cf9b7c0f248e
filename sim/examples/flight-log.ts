/**
 * The log that a simulated flight would leave, for example data and for checking the reconstruction against a known truth.
 * The specific force is the flight's acceleration less gravity; a shock is added at ejection and at touchdown, and some
 * rest before and after.
 */
import seedrandom from 'seedrandom';
import { standardNormalQuantile } from '../distributions/families/normal.js';
import type { FlightTrace } from '../flight/flight.js';
import { TRACE_COLUMNS, type TraceColumn } from '../flight/trace.js';
import { GRAVITY } from '../model/atmosphere.js';
import { bisect } from '../statistics/bisect.js';

export interface SensorErrors {
  /** Readings a second, of the g-meter and of the barometer. */
  readonly readingRate: number;
  readonly heightRate: number;
  /** Step and wrong zero of the g-meter, its noise and its largest reading, all in g. */
  readonly readingStep: number;
  readonly readingZero: number;
  readonly readingNoise: number;
  readonly readingLimit: number;
  /** Barometer: wrong zero and noise, m; share of the dynamic pressure read as height; share by which it reads low. */
  readonly heightZero: number;
  readonly heightNoise: number;
  readonly heightStep: number;
  readonly flowError: number;
  readonly scaleError: number;
  /** Peak of the ejection charge, g. */
  readonly load: number;
  /** Distance of the g-meter from the centre of mass, m. */
  readonly offset: number;
  /** Stretches without any reading, s after ejection. */
  readonly gaps: readonly (readonly [number, number])[];
}

export const GOOD_SENSORS: SensorErrors = {
  readingRate: 50,
  heightRate: 10,
  readingStep: 0.1,
  readingZero: 0.04,
  readingNoise: 0.03,
  readingLimit: 16,
  heightZero: 2,
  heightNoise: 0.8,
  heightStep: 0.1,
  flowError: 0,
  scaleError: 0,
  load: 50,
  offset: 0,
  gaps: [],
};

/** s of rest before the ejection and after the touchdown. */
const BEFORE = 3;
const AFTER = 5;
/** s that a shock lasts. */
const SHOCK = 0.03;

export interface SyntheticLog {
  /** s from the start of the log; the ejection is at `BEFORE`. */
  readonly time: readonly number[];
  readonly reading: readonly number[];
  readonly height: readonly number[];
  readonly ejection: number;
}

export function syntheticLog(trace: FlightTrace, sensors: SensorErrors, seed: string): SyntheticLog {
  const random = seedrandom.alea(`log ${seed}`);
  const normal = () => {
    const u = Math.min(Math.max(random.double(), 1e-12), 1 - 1e-12);
    return standardNormalQuantile(u, 1 - u);
  };
  const truth = truthOf(trace);
  const { end } = truth;
  const each = Math.max(1, Math.round(sensors.readingRate / sensors.heightRate));
  const rows = Math.round((BEFORE + end + AFTER) * sensors.readingRate);
  const [time, reading, height] = [[], [], []] as number[][];
  for (let i = 0; i < rows; i++) {
    const t = i / sensors.readingRate - BEFORE;
    const lost = sensors.gaps.some(([from, to]) => t >= from && t < to);
    time.push(i / sensors.readingRate);
    const force = forceAt(truth, t, sensors);
    const noisy = force + sensors.readingZero + sensors.readingNoise * normal();
    reading.push(lost ? Number.NaN : rounded(Math.min(Math.max(noisy, 0), sensors.readingLimit), sensors.readingStep));
    const z = truth.height(t);
    const airspeed = truth.speed(t);
    const barometer =
      z * (1 - sensors.scaleError) +
      sensors.heightZero +
      (sensors.flowError * airspeed ** 2) / (2 * GRAVITY) +
      sensors.heightNoise * normal();
    height.push(lost || i % each !== 0 ? Number.NaN : rounded(barometer, sensors.heightStep));
  }
  return { time, reading, height, ejection: BEFORE };
}

export function logCsv(log: SyntheticLog, remark: string, channels: 'both' | 'reading' | 'height' = 'both'): string {
  const text = (value: number) => (Number.isNaN(value) ? '' : String(Number(value.toFixed(3))));
  const header = { both: 'time_s,reading_g,height_m', reading: 'time_s,reading_g', height: 'time_s,height_m' }[
    channels
  ];
  const rows = log.time.map((time, i) => {
    const cells =
      channels === 'both'
        ? [log.reading[i], log.height[i]]
        : channels === 'reading'
          ? [log.reading[i]]
          : [log.height[i]];
    return [time.toFixed(3), ...cells.map(text)].join(',');
  });
  return `${remark === '' ? '' : `# ${remark}\n`}${header}\n${rows.join('\n')}\n`;
}

function rounded(value: number, step: number): number {
  return step === 0 ? value : Math.round(value / step) * step;
}

interface Truth {
  readonly end: number;
  readonly touchdownSpeed: number;
  readonly height: (t: number) => number;
  /** Size of the velocity. */
  readonly speed: (t: number) => number;
  readonly velocity: (t: number) => readonly [number, number, number];
  readonly turning: (t: number) => number;
}

function truthOf(trace: FlightTrace): Truth {
  const column = (name: TraceColumn) => {
    const place = TRACE_COLUMNS.indexOf(name);
    return trace.rows.map((row) => row[place]);
  };
  const time = column('time_s');
  const height = column('height_m');
  const fall = column('fall_speed_m_per_s');
  const ground = column('ground_speed_m_per_s');
  const [east, north] = [column('east_m'), column('north_m')];
  const turning = column('turning_rate_deg_per_s').map((one) => (one * Math.PI) / 180);
  const direction = time.map((_, i) => {
    const [a, b] = [Math.max(0, i - 1), Math.min(time.length - 1, i + 1)];
    return Math.atan2(north[b] - north[a], east[b] - east[a]);
  });
  const eastwards = ground.map((one, i) => one * Math.cos(direction[i]));
  const northwards = ground.map((one, i) => one * Math.sin(direction[i]));
  const end = time[time.length - 1];
  const at = (values: readonly number[], t: number) => {
    const rows = { fails: 0, holds: time.length - 1 };
    const { fails: before, holds: after } = bisect(rows, (row) => time[row] > t, 'whole numbers');
    const width = time[after] - time[before];
    const share = width > 0 ? Math.min(1, Math.max(0, (t - time[before]) / width)) : 0;
    return values[before] + share * (values[after] - values[before]);
  };
  // Before the ejection the rocket coasts over the top of its course.
  const start = { z: height[0], up: -fall[0] };
  return {
    end,
    touchdownSpeed: fall[fall.length - 1],
    height: (t) => (t < 0 ? start.z + start.up * t - (GRAVITY * t ** 2) / 2 : t > end ? 0 : at(height, t)),
    speed: (t) => (t < 0 || t > end ? 0 : Math.hypot(at(fall, t), at(ground, t))),
    velocity: (t) => [at(eastwards, t), at(northwards, t), -at(fall, t)],
    turning: (t) => (t < 0 || t > end ? 0 : at(turning, t)),
  };
}

/** Size of the specific force in g. */
function forceAt(truth: Truth, t: number, { load, offset }: SensorErrors): number {
  if (t < 0) return 0.05;
  if (t > truth.end) {
    const since = t - truth.end;
    const peak = (truth.touchdownSpeed * Math.PI) / (2 * SHOCK) / GRAVITY;
    return since < SHOCK ? 1 + peak * Math.sin((Math.PI * since) / SHOCK) : 1;
  }
  const half = 0.01;
  const [a, b] = [Math.max(0, t - half), Math.min(truth.end, t + half)];
  const [before, after] = [truth.velocity(a), truth.velocity(b)];
  const [x, y, z] = before.map((one, i) => (after[i] - one) / (b - a));
  const force = Math.hypot(x, y, z + GRAVITY) / GRAVITY;
  const turned = (truth.turning(t) ** 2 * offset) / GRAVITY;
  return Math.hypot(force, turned) + (t < SHOCK ? load * Math.sin((Math.PI * t) / SHOCK) : 0);
}
