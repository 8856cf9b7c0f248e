/**
 * The nominal descent from the equations written a second time, by the extrapolation method of Hairer and Wanner
 * (package odex) with error control; each event is found by bisection on its dense output and starts a new stretch.
 */

import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { armsOf } from './second-arms.js';
import { AT, equationsOf, readingOf, type Stage } from './second-equations.js';
import { solveTo, type Watch } from './second-solver.js';

export interface SecondFlight {
  /** When the parachute fired; NaN without. */
  readonly firedTime: number;
  readonly cueTime: number;
  readonly orderTime: number;
  readonly orderHeight: number;
  readonly orderSpeed: number;
  readonly runningTime: number;
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
export function flySecond(inputs: FlightInputs, start: Start, height: number, settings: Settings = {}): SecondFlight {
  const equations = equationsOf(inputs, settings.strips);
  const { ejection, pilot, link, arms, stabiliser, battery, rotors } = inputs;
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

  let stage: Stage = { started: [false, false, false, false], upright: false, arrested: false };
  let evaluations = 0;
  let lowestVoltage = Number.POSITIVE_INFINITY;
  /** Goes on to `end` or to the first of `watches` that falls to zero; gives its index, or -1 at the end. */
  function goOn(end: number, watches: readonly Watch[]): number {
    const tolerance = settings.tolerance ?? 1e-9;
    const limits = { tolerance, largestStep: 0.1 };
    const reached = solveTo(equations.derivative(stage), { t, y }, end, watches, limits, (time, state) => {
      if (stage.started.includes(true)) lowestVoltage = Math.min(lowestVoltage, equations.voltage(time, state, stage));
    });
    evaluations += reached.evaluations;
    ({ t, y } = reached);
    return reached.found;
  }

  const hinges = armsOf(inputs, equations);
  /** The same with a new stretch where the arms come free, and where one latches, comes to rest or begins to turn. */
  function fallOn(end: number, watches: readonly Watch[]): number {
    while (t < end) {
      const stop = Math.min(hinges.freeTime(arms.release_delay), end);
      const event = goOn(stop, [...watches, ...hinges.watches(stage)]);
      if (event >= watches.length) stage = { ...stage, arms: hinges.happen(event - watches.length, t, y, stage) };
      else if (event >= 0) return event;
      else if (stop < end) stage = { ...stage, arms: hinges.free(t, y, stage) };
    }
    return -1;
  }

  const landed: Watch = (_time, s) => s[2];
  if (inputs.parachute !== null) return fallUnderCanopy(inputs.parachute);
  fallOn(600, [(time, s) => readingOf(inputs, s[2], equations.airspeed(time, s)) - height]);
  const cueTime = t;
  fallOn(cueTime + pilot.call_out.latency + pilot.reaction + link.delay, []);
  const orderTime = t;
  const orderHeight = y[2];
  const orderSpeed = Math.hypot(y[3], y[4], y[5]);

  const starts = rotors.own_start_factor.map((factor) => orderTime + rotors.start_time * factor);
  fallOn(Math.min(...starts), []);
  stage = { ...stage, started: starts.map((start) => start <= t) };
  const restless: Watch = (_time, s) =>
    Math.max(
      equations.tilt(s) / stabiliser.upright_tilt - 1,
      Math.hypot(s[AT.w], s[AT.w + 1], s[AT.w + 2]) / stabiliser.upright_rate - 1,
    );
  const falling: Watch = (_time, s) => -s[5] - pilot.approach_speed;
  let runningTime = stage.started.includes(false) ? Number.NaN : t;
  let calmSince = restless(t, y) <= 0 ? runningTime : Number.NaN;
  let uprightTime = Number.NaN;
  let arrestTime = Number.NaN;
  let arrestHeight = Number.NaN;
  for (;;) {
    const waiting = !stage.upright && !Number.isNaN(calmSince);
    const running = !Number.isNaN(runningTime);
    const nextStart = Math.min(...starts.filter((start) => start > t));
    const end = waiting ? calmSince + stabiliser.upright_hold : Math.min(nextStart, 600);
    const never: Watch = () => 1;
    const calm: Watch = stage.upright || !running ? never : waiting ? (time, s) => -restless(time, s) : restless;
    const event = goOn(end, [landed, stage.arrested ? never : falling, calm]);
    if (event === 0) break;
    if (event === 1) {
      arrestTime = t;
      arrestHeight = y[2];
      stage = { ...stage, arrested: true };
      y[AT.hand] = equations.takeOver(t, y);
    } else if (event < 0 && !running) {
      stage = { ...stage, started: starts.map((start) => start <= t) };
      if (!stage.started.includes(false)) runningTime = t;
      calmSince = restless(t, y) <= 0 ? runningTime : Number.NaN;
    } else if (event === 2) calmSince = waiting ? Number.NaN : t;
    else if (waiting) {
      uprightTime = t;
      stage = { ...stage, upright: true };
    } else throw new Error('Still in the air.');
  }
  return {
    ...touchdown(),
    cueTime,
    orderTime,
    orderHeight,
    orderSpeed,
    runningTime,
    uprightTime,
    arrestTime,
    arrestHeight,
  };

  /** The fall without an order: the barometer fires the parachute, and the can comes down under it. */
  function fallUnderCanopy(parachute: NonNullable<FlightInputs['parachute']>): SecondFlight {
    const readings: number[] = [];
    for (let k = 0; ; k++) {
      if (k > 0 && fallOn(0.2 * k, [landed]) === 0) return touchdown();
      const reading = readingOf(inputs, y[2], equations.airspeed(t, y));
      const rate = (readings[k - 3] - reading) / 0.6;
      readings.push(reading);
      if (reading <= parachute.fire_below && rate > parachute.fire_faster_than) break;
    }
    if (fallOn(t + pilot.call_out.latency, [landed]) === 0) return touchdown();
    const firedTime = t;
    if (fallOn(t + parachute.deployment_time, [landed]) === 0) return { ...touchdown(), firedTime };
    const fill = (parachute.fill_constant * parachute.diameter) / equations.airspeed(t, y);
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
  runningTime: Number.NaN,
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
