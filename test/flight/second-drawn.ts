/**
 * A drawn flight from the text of `trace --json` and sim/MODEL.md alone: the equations written a second time, solved by the
 * package's extrapolation method with error control from node to node of the flight's clock, each event found by bisection on
 * its dense output. Cues "call-out" and "automatic"; no parachute, no arming guard.
 */

import type { NoiseSeries } from '../../sim/draws/draw.js';
import { inputsOf, seriesOf, type WrittenFlight } from '../trace/from-json.js';
import { armsOf } from './second-arms.js';
import { AT, equationsOf, readingOf, type Stage, type Vector } from './second-equations.js';
import { gustsOf, NODE } from './second-gusts.js';
import { ringOf } from './second-ring.js';
import { solveTo, type Watch } from './second-solver.js';

export interface DrawnFlight {
  readonly orderTime: number;
  readonly uprightTime: number;
  readonly arrestTime: number;
  readonly arrestHeight: number;
  /** Of touchdown. */
  readonly time: number;
  readonly touchdownSpeed: number;
  /** When the link was last out before touchdown, s. */
  readonly lastOut: number;
  readonly east: number;
  readonly north: number;
}

const NEVER = Number.POSITIVE_INFINITY;
const NONE = [false, false, false, false];
const TOLERANCE = 1e-8;

export function flyDrawn(flight: WrittenFlight): DrawnFlight {
  const inputs = inputsOf(flight);
  const { pilot, arms, stabiliser, battery, link, ejection, rotors, plan } = inputs;
  if (inputs.parachute !== null || stabiliser.arming_guard !== null || battery.open_circuit !== null)
    throw new Error('The second implementation has no parachute, no arming guard and no other cells.');
  if (plan.cue !== 'call-out' && plan.cue !== 'automatic') throw new Error(`It has no cue "${plan.cue}".`);

  const byOrder = arms.release === 'on the order';
  let release = byOrder || arms.release_failure ? NEVER : arms.release_delay;
  const throttle = linear(seriesOf(flight, 'noise.throttle', 0), 0.1);
  const reading = linear(seriesOf(flight, 'noise.call_out', 0), 0.2);
  const still = equationsOf(inputs);
  const gusts = gustsOf(inputs, seriesOf(flight, 'noise.gusts', 0), still.meanWind, [0, 0, ejection.height]);
  const equations = equationsOf(inputs, undefined, {
    wind: gusts.wind,
    hand: (t) => pilot.throttle_noise * throttle(t),
    ring: (rotor) => ring.at(node, rotor),
  });
  const ring = ringOf(inputs, still.ringSpeed, seriesOf(flight, 'noise.ring', 0));
  const outages = outagesOf(flight);
  const hinges = armsOf(inputs, equations);

  let t = 0;
  let node = -1;
  let y = startOf(flight);
  let stage: Stage = { started: NONE, upright: false, arrested: false, stick: 'live', heldTilt: [0, 0] };

  /** Goes on to `end` or to the first of `watches` that falls to zero; gives its index, or -1 at the end. */
  function goOn(end: number, watches: readonly Watch[]): number {
    const limits = { tolerance: TOLERANCE, firstStep: Math.min(0.02, end - t) };
    const reached = solveTo(equations.derivative(stage), { t, y }, end, watches, limits);
    ({ t, y } = reached);
    return reached.found;
  }

  // What a flight waits for, s; infinite or NaN where it does not.
  let orderDue = NEVER;
  let ordered = false;
  let calmSince = NEVER;
  let belowSince = NEVER;
  let orderTime = Number.NaN;
  let poweredTime = Number.NaN;
  let starts: readonly number[] = [NEVER, NEVER, NEVER, NEVER];
  let uprightTime = Number.NaN;
  let arrestTime = Number.NaN;
  let arrestHeight = Number.NaN;
  let cued = false;
  let stopped = false;
  const runs = rotors.dead.some((dead, i) => !dead && !arms.stuck[i] && !arms.release_failure);
  const possible = runs && ejection.load <= ejection.strength;

  const reads: Watch = (time, s) => {
    const wind = gusts.wind(time);
    const square = (s[3] - wind[0]) ** 2 + (s[4] - wind[1]) ** 2 + (s[5] - wind[2]) ** 2;
    return readingOf(inputs, s[2], Math.sqrt(square)) + pilot.call_out.noise * reading(time) - flight.height;
  };
  const ground: Watch = (_, s) => s[2];
  const falling: Watch = (_, s) => -s[5] - pilot.approach_speed;
  const restless: Watch = (_, s) =>
    Math.max(
      equations.tilt(s) / stabiliser.upright_tilt - 1,
      Math.hypot(s[AT.w], s[AT.w + 1], s[AT.w + 2]) / stabiliser.upright_rate - 1,
    );
  const over: Watch = (time, s) => equations.voltage(time, s, stage) - battery.cut_off_voltage;
  const never: Watch = () => 1;
  const not =
    (watch: Watch): Watch =>
    (time, s) =>
      -watch(time, s);

  const outageOn = (time: number) => outages.find(({ begin, end }) => begin <= time && time < end);
  /** When the fail-safe acts in the outage now on. */
  const failSafeAt = (begin: number) => Math.max(begin, poweredTime) + link.fail_safe_time;

  function nextLink(): number {
    const times = outages.flatMap(({ begin, end }) => [begin, Math.min(failSafeAt(begin), end), end]);
    return Math.min(...times.filter((time) => time > t + 1e-12));
  }

  function lookAtLink(): void {
    const on = outageOn(t + 1e-12);
    const stick = on === undefined ? 'live' : t + 1e-12 >= failSafeAt(on.begin) ? 'itself' : 'held';
    if (stick === stage.stick) return;
    if (stick === 'itself' && link.fail_safe === 'stop the motors') stopMotors();
    const heldTilt = stick === 'held' && stage.arrested ? equations.pilotTilt(y) : ([0, 0] as const);
    stage = { ...stage, stick, heldTilt };
    if (arrestTime >= 0 && !stage.arrested && stick !== 'held') takeOver();
  }

  function takeOver(): void {
    stage = { ...stage, arrested: true };
    y[AT.hand] = equations.takeOver(t, y);
  }

  function arrest(): void {
    arrestTime = t;
    arrestHeight = y[2];
    if (stage.stick !== 'held') takeOver();
  }

  function stopMotors(): void {
    stopped = true;
    stage = { ...stage, started: NONE };
  }

  function order(): void {
    orderTime = t;
    orderDue = NEVER;
    if (byOrder && !arms.release_failure) release = t + arms.release_delay;
    ordered = possible;
  }

  /** When the motors are told to start: the arms are open, or were waited for long enough. */
  function startDue(): number {
    if (!ordered) return NEVER;
    const wait = arms.longest_wait ?? arms.opening_time + 1;
    return hinges.open() ? t : Math.max(t, release + wait);
  }

  function startMotors(): void {
    ordered = false;
    starts = rotors.own_start_factor.map((factor, i) =>
      rotors.dead[i] || !hinges.isOpen(i) ? NEVER : t + rotors.start_time * factor,
    );
    if (!hinges.open()) stage = { ...stage, arms: hinges.leave(y) };
  }

  /** Rotors whose time has come give thrust; with the first powered flight begins, with the last the rotors are running. */
  function driveRotors(): void {
    const first = !stage.started.includes(true);
    stage = { ...stage, started: starts.map((start, i) => start <= t || stage.started[i]) };
    starts = starts.map((start) => (start <= t ? NEVER : start));
    if (first) {
      poweredTime = t;
      ring.begin(node);
      lookAtLink();
      if (over(t, y) <= 0) belowSince = t;
      if (falling(t, y) <= 0) arrest();
    }
    if (Math.min(...starts) < NEVER) return;
    stage = { ...stage, running: true };
    if (restless(t, y) <= 0) calmSince = t;
  }

  for (;;) {
    if (t >= (node + 1) * NODE) {
      node += 1;
      gusts.next(y);
    }
    const powered = stage.started.includes(true) && !stopped;
    const running = powered && stage.running === true;
    const due = [
      (node + 1) * NODE,
      orderDue,
      startDue(),
      ...starts,
      hinges.freeTime(release),
      ...(powered ? [nextLink(), belowSince + battery.cut_off_delay] : []),
      ...(running && !stage.upright ? [calmSince + stabiliser.upright_hold] : []),
    ];
    const end = Math.min(...due);
    const watches = [
      ground,
      cued ? never : reads,
      powered && Number.isNaN(arrestTime) ? falling : never,
      !running || stage.upright ? never : calmSince < NEVER ? not(restless) : restless,
      !powered ? never : belowSince < NEVER ? not(over) : over,
      ...hinges.watches(stage),
    ];
    const event = end > t ? goOn(end, watches) : -1;
    if (event === 0) break;
    if (event === 1) {
      cued = true;
      orderDue = orderAfter(t);
    } else if (event === 2) arrest();
    else if (event === 3) calmSince = calmSince < NEVER ? NEVER : t;
    else if (event === 4) belowSince = belowSince < NEVER ? NEVER : t;
    else if (event > 4) stage = { ...stage, arms: hinges.happen(event - 5, t, y, stage) };
    else {
      if (t >= hinges.freeTime(release)) stage = { ...stage, arms: hinges.free(t, y, stage) };
      if (t >= orderDue) order();
      if (t >= startDue()) startMotors();
      if (!stopped && starts.some((start) => t >= start)) driveRotors();
      if (running && !stage.upright && t >= calmSince + stabiliser.upright_hold) {
        uprightTime = t;
        stage = { ...stage, upright: true };
      }
      if (powered && t >= belowSince + battery.cut_off_delay) stopMotors();
      if (powered && !stopped) lookAtLink();
    }
    if (t > inputs.time_limit) throw new Error('Still in the air.');
  }
  return {
    orderTime,
    uprightTime,
    arrestTime,
    arrestHeight,
    time: t,
    touchdownSpeed: Math.hypot(y[3], y[4], y[5]),
    lastOut: Math.max(...outages.map(({ begin, end }) => (begin < t ? Math.min(end, t) : -NEVER)), -NEVER),
    east: y[0],
    north: y[1],
  };

  /** When the craft gets the order after a cue. */
  function orderAfter(cue: number): number {
    const heard = cue + pilot.call_out.latency;
    if (plan.cue === 'automatic') return heard;
    const said = heard + pilot.reaction + (pilot.lapse ? pilot.lapse_length : 0);
    return (outageOn(said)?.end ?? said) + link.delay;
  }
}

/** Outages one after the other, as far as they are written: later ones the flight never met. */
function outagesOf(flight: WrittenFlight): readonly { readonly begin: number; readonly end: number }[] {
  const { link } = inputsOf(flight);
  const values = flight.noise.find(({ name }) => name === 'noise.outages')?.values ?? [];
  let before = 0;
  return link.outage_rate <= 0
    ? []
    : values.map(([gap, length]) => {
        const begin = before + gap / link.outage_rate;
        before = begin + length * link.outage_length;
        return { begin, end: before };
      });
}

/** Linear between nodes. */
function linear({ at }: NoiseSeries, step: number): (t: number) => number {
  return (t) => {
    const node = Math.floor(t / step);
    const share = t / step - node;
    return (1 - share) * at(node, 0) + share * at(node + 1, 0);
  };
}

/** State at ejection, from the numbers of luck. */
function startOf(flight: WrittenFlight): number[] {
  const { ejection, stabiliser } = inputsOf(flight);
  const y = new Array<number>(AT.size).fill(0);
  const put = (at: number, values: readonly number[]) => {
    values.forEach((value, i) => {
      y[at + i] = value;
    });
  };
  put(AT.r, [ejection.east, ejection.north, ejection.height]);
  put(AT.v, [...ejection.horizontal_speed, ejection.vertical_speed]);
  const [u1, u2, u3] = ejection.attitude;
  const [a, b] = [Math.sqrt(1 - u1), Math.sqrt(u1)];
  const [half, whole] = [2 * Math.PI * u2, 2 * Math.PI * u3];
  const q = [b * Math.cos(whole), a * Math.sin(half), a * Math.cos(half), b * Math.sin(whole)];
  put(AT.q, q);
  const z = 2 * ejection.tumble_axis[0] - 1;
  const around = 2 * Math.PI * (ejection.tumble_axis[1] + 0.25);
  const r = Math.sqrt(1 - z * z);
  put(
    AT.w,
    [r * Math.cos(around), r * Math.sin(around), z].map((one) => one * ejection.tumble_rate),
  );
  const error = stabiliser.starting_error;
  const towards = 2 * Math.PI * stabiliser.starting_error_axis[0];
  const wrongUp: Vector = [Math.sin(error) * Math.cos(towards), Math.sin(error) * Math.sin(towards), Math.cos(error)];
  put(AT.p, intoBody(q, wrongUp));
  return y;
}

/** The transpose of the quaternion's matrix times a vector. */
function intoBody([w, x, y, z]: readonly number[], [e, n, u]: Vector): Vector {
  return [
    (w * w + x * x - y * y - z * z) * e + 2 * (x * y + w * z) * n + 2 * (x * z - w * y) * u,
    2 * (x * y - w * z) * e + (w * w - x * x + y * y - z * z) * n + 2 * (y * z + w * x) * u,
    2 * (x * z + w * y) * e + 2 * (y * z - w * x) * n + (w * w - x * x - y * y + z * z) * u,
  ];
}
