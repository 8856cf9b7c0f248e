/**
 * The nominal descent from the equations written a second time, by the extrapolation method of Hairer and Wanner
 * (package odex) with error control; each event is found by bisection on its dense output and starts a new stretch.
 */
import { Solver } from 'odex';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { AT, equationsOf, readingOf, type Stage } from './second-equations.js';

export interface SecondFlight {
  /** When the parachute fired; NaN without. */
  readonly firedTime: number;
  readonly cueTime: number;
  readonly orderTime: number;
  readonly orderHeight: number;
  readonly orderSpeed: number;
  readonly uprightTime: number;
  readonly arrestTime: number;
  readonly arrestHeight: number;
  readonly time: number;
  readonly verticalSpeed: number;
  readonly horizontalSpeed: number;
  readonly east: number;
  readonly north: number;
  readonly tilt: number;
  readonly energyLeft: number;
  readonly lowestVoltage: number;
  readonly evaluations: number;
}

export interface Start {
  /** Unit quaternion, body to inertial, and turning rate in body axes, at ejection. */
  readonly attitude: readonly [number, number, number, number];
  readonly rate: readonly [number, number, number];
}

export interface Settings {
  readonly tolerance?: number;
  readonly strips?: readonly (readonly number[])[];
}

/** Something that happens as this falls to zero. */
type Watch = (y: readonly number[]) => number;

export function flySecond(inputs: FlightInputs, start: Start, height: number, settings: Settings = {}): SecondFlight {
  const equations = equationsOf(inputs, settings.strips);
  const { ejection, pilot, link, arms, stabiliser, battery } = inputs;
  let t = 0;
  let y = new Array<number>(AT.size).fill(0);
  y[0] = ejection.east;
  y[1] = ejection.north;
  y[2] = ejection.height;
  [y[3], y[4]] = ejection.horizontal_speed;
  y[5] = ejection.vertical_speed;
  start.attitude.forEach((one, i) => {
    y[AT.q + i] = one;
  });
  start.rate.forEach((one, i) => {
    y[AT.w + i] = one;
  });
  upOf(y).forEach((one, i) => {
    y[AT.p + i] = one;
  });

  let stage: Stage = { running: false, upright: false, arrested: false };
  let evaluations = 0;
  let lowestVoltage = Number.POSITIVE_INFINITY;
  /** Goes on to `end` or to the first of `watches` that falls to zero; gives its index, or -1 at the end. */
  function goOn(end: number, watches: readonly Watch[]): number {
    const solver = new Solver(AT.size);
    solver.relativeTolerance = settings.tolerance ?? 1e-9;
    solver.absoluteTolerance = settings.tolerance ?? 1e-9;
    solver.denseOutput = true;
    solver.maxSteps = 100_000;
    solver.maxStepSize = 0.1;
    let found = -1;
    let at: { t: number; y: number[] } | undefined;
    const before = watches.map((watch) => watch(y));
    const solution = solver.solve(equations.derivative(stage), t, y, end, (step, from, to, now, within) => {
      if (stage.running) lowestVoltage = Math.min(lowestVoltage, equations.voltage(now, stage));
      if (step === 1) return;
      const stateAt = (time: number) => now.map((_, i) => within(i, time));
      const parts = 4;
      for (let part = 1; part <= parts; part++) {
        const left = from + ((to - from) * (part - 1)) / parts;
        const right = from + ((to - from) * part) / parts;
        const state = part === parts ? now : stateAt(right);
        let first = right;
        watches.forEach((watch, i) => {
          const value = watch(state);
          if (before[i] > 0 && value <= 0) {
            const crossing = bisect((time) => watch(stateAt(time)), left, right);
            if (crossing <= first) {
              first = crossing;
              found = i;
            }
          }
          before[i] = value;
        });
        if (found >= 0) {
          at = { t: first, y: stateAt(first) };
          return false;
        }
      }
      return undefined;
    });
    evaluations += solution.nEval;
    if (solution.outcome === 1) throw new Error('Too many steps.');
    t = at ? at.t : end;
    y = at ? at.y : solution.y;
    return found;
  }

  /** The same with a new stretch where the arms begin to open and where they are open: their opening has kinks there. */
  function fallOn(end: number, watches: readonly Watch[]): number {
    const stops = [arms.release_delay, arms.release_delay + arms.opening_time].filter((stop) => stop > t && stop < end);
    for (const stop of [...stops, end]) {
      const event = goOn(stop, watches);
      if (event >= 0) return event;
    }
    return -1;
  }

  const landed: Watch = (s) => s[2];
  if (inputs.parachute !== null) return fallUnderCanopy(inputs.parachute);
  fallOn(600, [(s) => readingOf(inputs, s[2], equations.airspeed(s)) - height]);
  const cueTime = t;
  fallOn(cueTime + pilot.call_out.latency + pilot.reaction + link.delay, []);
  const orderTime = t;
  const orderHeight = y[2];
  const orderSpeed = Math.hypot(y[3], y[4], y[5]);

  stage = { ...stage, running: true };
  const restless: Watch = (s) =>
    Math.max(
      equations.tilt(s) / stabiliser.upright_tilt - 1,
      Math.hypot(s[AT.w], s[AT.w + 1], s[AT.w + 2]) / stabiliser.upright_rate - 1,
    );
  const falling: Watch = (s) => -s[5] - pilot.approach_speed;
  let calmSince = restless(y) <= 0 ? t : Number.NaN;
  let uprightTime = Number.NaN;
  let arrestTime = Number.NaN;
  let arrestHeight = Number.NaN;
  for (;;) {
    const waiting = !stage.upright && !Number.isNaN(calmSince);
    const end = waiting ? calmSince + stabiliser.upright_hold : 600;
    const never: Watch = () => 1;
    const calm: Watch = stage.upright ? never : waiting ? (s) => -restless(s) : restless;
    const event = goOn(end, [landed, stage.arrested ? never : falling, calm]);
    if (event === 0) break;
    if (event === 1) {
      arrestTime = t;
      arrestHeight = y[2];
      stage = { ...stage, arrested: true };
      y[AT.hand] = equations.takeOver(y);
    } else if (event === 2) calmSince = waiting ? Number.NaN : t;
    else if (waiting) {
      uprightTime = t;
      stage = { ...stage, upright: true };
    } else throw new Error('Still in the air.');
  }
  return { ...touchdown(), cueTime, orderTime, orderHeight, orderSpeed, uprightTime, arrestTime, arrestHeight };

  /** The fall without an order: the barometer fires the parachute, and the can comes down under it. */
  function fallUnderCanopy(parachute: NonNullable<FlightInputs['parachute']>): SecondFlight {
    const readings: number[] = [];
    for (let k = 0; ; k++) {
      if (k > 0 && fallOn(0.2 * k, [landed]) === 0) return touchdown();
      const reading = readingOf(inputs, y[2], equations.airspeed(y));
      const rate = (readings[k - 3] - reading) / 0.6;
      readings.push(reading);
      if (reading <= parachute.fire_below && rate > parachute.fire_faster_than) break;
    }
    if (fallOn(t + pilot.call_out.latency, [landed]) === 0) return touchdown();
    const firedTime = t;
    if (fallOn(t + parachute.deployment_time, [landed]) === 0) return { ...touchdown(), firedTime };
    const fill = (parachute.fill_constant * parachute.diameter) / equations.airspeed(y);
    stage = { ...stage, canopy: { begun: t, fill } };
    if (goOn(t + fill, [landed]) < 0) goOn(600, [landed]);
    return { ...touchdown(), firedTime };
  }

  function touchdown(): SecondFlight {
    return {
      ...NEVER,
      time: t,
      verticalSpeed: -y[5],
      horizontalSpeed: Math.hypot(y[3], y[4]),
      east: y[0],
      north: y[1],
      tilt: equations.tilt(y),
      energyLeft: equations.chargeAtEjection - y[AT.charge] / battery.capacity,
      lowestVoltage,
      evaluations,
    };
  }
}

const NEVER = {
  firedTime: Number.NaN,
  cueTime: Number.NaN,
  orderTime: Number.NaN,
  orderHeight: Number.NaN,
  orderSpeed: Number.NaN,
  uprightTime: Number.NaN,
  arrestTime: Number.NaN,
  arrestHeight: Number.NaN,
};

function upOf(y: readonly number[]): [number, number, number] {
  const [w, a, b, c] = y.slice(AT.q, AT.q + 4);
  return [2 * (a * c - w * b), 2 * (b * c + w * a), w * w - a * a - b * b + c * c];
}

/** The time between left and right at which f falls to zero, found to the last digits. */
function bisect(f: (time: number) => number, left: number, right: number): number {
  let before = left;
  let after = right;
  for (let i = 0; i < 60; i++) {
    const middle = (before + after) / 2;
    if (f(middle) <= 0) after = middle;
    else before = middle;
  }
  return after;
}
