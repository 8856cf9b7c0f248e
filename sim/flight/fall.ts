/**
 * The fall with the motors off, flown once for all throttle-up heights and kept node by node, so that a flight at any
 * height branches from the last node before its order.
 */
import { CALL_OUT_STEP, type FlightDraw, GUST_STEP } from '../draws/draw.js';
import { uniformDirection, uniformRotation } from '../model/ejection.js';
import { resetOutages } from '../model/link.js';
import { barometricReading } from '../model/pilot.js';
import { Slot } from '../model/scratch.js';
import { beginAir } from './air.js';
import { type Course, type Ending, flyOn } from './course.js';
import { clearJournal } from './journal.js';
import { ATTITUDE, ESTIMATE, FALL_STATES, TURNING } from './state.js';
import { clearTimers } from './timers.js';

/** Numbers kept at each node: states, wind, unit gusts, Dryden scales. */
const WIND = FALL_STATES;
const GUST = WIND + 3;
const SCALES = GUST + 3;
const KEPT = SCALES + 3;

/** A fall, node by node (node k at k GUST_STEP), to the ground, the time limit or divergence. */
export interface Fall {
  nodes: Float64Array;
  /** Barometric reading at each node, without latency, m. */
  readings: Float64Array;
  count: number;
  ending: Ending;
  /** When it ended, s. */
  endTime: number;
  /** When the parachute fired, infinite if not. */
  firedAt: number;
}

export function createFall(): Fall {
  return {
    nodes: new Float64Array(KEPT * 1024),
    readings: new Float64Array(1024),
    count: 0,
    ending: 'ground',
    endTime: 0,
    firedAt: 0,
  };
}

function ensureRoom(fall: Fall): void {
  if (fall.count < fall.readings.length) return;
  const nodes = new Float64Array(2 * fall.nodes.length);
  nodes.set(fall.nodes);
  const readings = new Float64Array(2 * fall.readings.length);
  readings.set(fall.readings);
  fall.nodes = nodes;
  fall.readings = readings;
}

/** Reset of everything that events change, to the moment of ejection. */
export function resetSituation(course: Course, draw: FlightDraw): void {
  const { s, timers, journal } = course;
  const { link, arms } = draw.inputs;
  s.time = 0;
  s.noise = draw.noise;
  s.releaseTime = arms.release === 'after ejection' ? arms.release_delay : Number.POSITIVE_INFINITY;
  s.motorsOn = false;
  s.motorsDone = false;
  s.arrested = false;
  s.approaching = false;
  s.upright = false;
  s.stick = 'live';
  s.scratch[Slot.Tilt] = 0;
  s.scratch[Slot.Tilt + 1] = 0;
  s.firedAt = Number.POSITIVE_INFINITY;
  s.torn = false;
  s.scratch[Slot.Pull] = 0;
  resetOutages(s.outages, link.outage_rate, link.outage_length, draw.noise.outages);
  clearTimers(timers);
  clearJournal(journal);
}

/** State at ejection. */
function eject(course: Course, draw: FlightDraw): void {
  const { y } = course.s;
  const { ejection, stabiliser } = draw.inputs;
  y.fill(0);
  y[0] = ejection.east;
  y[1] = ejection.north;
  y[2] = ejection.height;
  y[3] = ejection.horizontal_speed[0];
  y[4] = ejection.horizontal_speed[1];
  y[5] = ejection.vertical_speed;
  const attitude = ejection.attitude;
  uniformRotation(y, ATTITUDE, attitude[0], attitude[1], attitude[2]);
  const axis = ejection.tumble_axis;
  uniformDirection(y, TURNING, axis[0], axis[1]);
  for (let i = 0; i < 3; i += 1) y[TURNING + i] = y[TURNING + i] * ejection.tumble_rate;
  beginEstimate(y, stabiliser.starting_error, 2 * Math.PI * stabiliser.starting_error_axis[0]);
}

/** The estimate of "up" at ejection: the true one, tilted by `error` about a horizontal axis in direction `around`. */
function beginEstimate(y: Float64Array, error: number, around: number): void {
  const w = y[6];
  const a = y[7];
  const b = y[8];
  const c = y[9];
  // The wrong "up" in inertial axes, then into body axes.
  const e = Math.sin(error) * Math.cos(around);
  const n = Math.sin(error) * Math.sin(around);
  const u = Math.cos(error);
  y[ESTIMATE] = (1 - 2 * (b * b + c * c)) * e + 2 * (a * b + w * c) * n + 2 * (a * c - w * b) * u;
  y[ESTIMATE + 1] = 2 * (a * b - w * c) * e + (1 - 2 * (a * a + c * c)) * n + 2 * (b * c + w * a) * u;
  y[ESTIMATE + 2] = 2 * (a * c + w * b) * e + 2 * (b * c - w * a) * n + (1 - 2 * (a * a + b * b)) * u;
}

/** Reading noise at time t: linear between its nodes. */
function readingNoise(draw: FlightDraw, t: number): number {
  const x = t / CALL_OUT_STEP;
  const k = Math.floor(x);
  const a = draw.noise.callOut.at(k, 0);
  const b = draw.noise.callOut.at(k + 1, 0);
  return draw.inputs.pilot.call_out.noise * (a + (x - k) * (b - a));
}

function keepNode(course: Course, fall: Fall, draw: FlightDraw): void {
  const { craft, s } = course;
  ensureRoom(fall);
  const at = fall.count * KEPT;
  const { nodes } = fall;
  const y = s.y;
  for (let i = 0; i < FALL_STATES; i += 1) nodes[at + i] = y[i];
  for (let i = 0; i < 3; i += 1) {
    nodes[at + WIND + i] = s.windTo[i];
    nodes[at + GUST + i] = s.gust[i];
    nodes[at + SCALES + i] = s.scales[i];
  }
  const ae = y[3] - s.windTo[0];
  const an = y[4] - s.windTo[1];
  const az = y[5] - s.windTo[2];
  const callOut = draw.inputs.pilot.call_out;
  fall.readings[fall.count] =
    barometricReading(
      y[2],
      Math.sqrt(ae * ae + an * an + az * az),
      craft.temperatureExcess,
      craft.groundTemperature,
      callOut.bias,
      callOut.flow_error,
    ) + readingNoise(draw, s.time);
  fall.count += 1;
}

/** Flies the fall of a draw from ejection; leaves the course at its end. */
export function flyFall(course: Course, fall: Fall, draw: FlightDraw, timeLimit: number): void {
  const { craft, s } = course;
  resetSituation(course, draw);
  eject(course, draw);
  beginAir(craft, s);
  if (course.observer !== null) course.observer();
  fall.count = 0;
  let ending: Ending = 'reached';
  while (ending === 'reached' && s.time < timeLimit) {
    keepNode(course, fall, draw);
    ending = flyOn(course, Math.min(fall.count * GUST_STEP, timeLimit));
  }
  fall.ending = ending;
  fall.endTime = s.time;
  fall.firedAt = s.firedAt;
}

/** Puts the course back at a node of the fall. */
export function returnToNode(course: Course, fall: Fall, node: number): void {
  const { craft, s } = course;
  const at = node * KEPT;
  const { nodes } = fall;
  s.y.fill(0);
  for (let i = 0; i < FALL_STATES; i += 1) s.y[i] = nodes[at + i];
  for (let i = 0; i < 3; i += 1) {
    s.windTo[i] = nodes[at + WIND + i];
    s.gust[i] = nodes[at + GUST + i];
    s.scales[i] = nodes[at + SCALES + i];
  }
  s.handTo = s.noise === null ? 0 : craft.throttleNoise * s.noise.throttle.at(node, 0);
  s.node = node - 1;
  s.time = node * GUST_STEP;
}

/** Height m at node k. */
export function heightAtNode(fall: Fall, node: number): number {
  return fall.nodes[node * KEPT + 2];
}

/** When a fall passes a height, s, linear between nodes; its end if it never does. */
export function passingTime(fall: Fall, height: number): number {
  for (let k = 0; k < fall.count; k += 1) {
    const below = heightAtNode(fall, k);
    if (below > height) continue;
    if (k === 0) return 0;
    const above = heightAtNode(fall, k - 1);
    return GUST_STEP * (k - 1 + (above - height) / (above - below));
  }
  return fall.endTime;
}
