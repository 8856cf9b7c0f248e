/**
 * The fall with the motors off. It is flown once for all throttle-up heights, only as far as the orders ask, and kept node by
 * node: a flight at any height branches from the last node before its order.
 */
import { type FlightDraw, GUST_STEP } from '../draws/draw.js';
import { uniformDirection, uniformRotation } from '../model/ejection.js';
import { OPEN_ANGLE } from '../model/hinge.js';
import { resetOutages } from '../model/link.js';
import { Slot } from '../model/scratch.js';
import { FALL_STATES, State } from '../model/state.js';
import { beginAir } from './air.js';
import { isWatched, keepReading, readingAtNode } from './barometer.js';
import { READINGS } from './constants.js';
import { type Ending, flyOn } from './course.js';
import { readHinges } from './hinges.js';
import type { Course } from './in-flight.js';
import { clearJournal } from './journal.js';
import { clearTimers } from './timers.js';
import { enterPhase } from './transitions.js';

/** Numbers kept at each node: states, arms, wind, unit gusts, Dryden scales. */
/** Angles and rates of the arms. */
const ARMS = FALL_STATES;
const WIND = ARMS + 8;
const GUST = WIND + 3;
const SCALES = GUST + 3;
const KEPT = SCALES + 3;

/** A fall, node by node (node k at k GUST_STEP), as far as it is flown. */
export interface Fall {
  nodes: Float64Array;
  /** Barometric reading at each node, without latency, m. */
  readings: Float64Array;
  count: number;
  draw: FlightDraw | null;
  /** Flown to the ground, the time limit or divergence: then `ending` and `endTime` tell of it. */
  over: boolean;
  ending: Ending;
  /** When it ended, s; infinite until it is over. */
  endTime: number;
  /** When the parachute fired, NaN if it did not yet; the node at which it made up its mind, infinite before, and when it fires. */
  firedTime: number;
  triggerNode: number;
  fireTime: number;
  /** When the arms were open, s; NaN if they are not yet. */
  openTime: number;
}

export function createFall(): Fall {
  return {
    nodes: new Float64Array(KEPT * 1024),
    readings: new Float64Array(1024),
    count: 0,
    draw: null,
    over: true,
    ending: 'ground',
    endTime: 0,
    firedTime: Number.NaN,
    triggerNode: Number.POSITIVE_INFINITY,
    fireTime: Number.POSITIVE_INFINITY,
    openTime: Number.NaN,
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
  const { craft, s, timers, journal } = course;
  const { link } = draw.inputs;
  s.time = 0;
  s.noise = draw.noise;
  s.phaseBegan = 0;
  enterPhase(s, 'falling');
  s.stance = 'tumbling';
  s.stick = 'live';
  s.releaseTime = craft.releasedByOrder ? Number.POSITIVE_INFINITY : craft.releaseDelay;
  s.driven.fill(0);
  setArms(course);
  s.nextStart = Number.POSITIVE_INFINITY;
  s.triggerNode = Number.POSITIVE_INFINITY;
  s.fireTime = Number.POSITIVE_INFINITY;
  s.scratch[Slot.TiltEast] = 0;
  s.scratch[Slot.TiltNorth] = 0;
  s.scratch[Slot.Pull] = 0;
  resetOutages(s.outages, link.outage_rate, link.outage_length, draw.noise.outages);
  clearTimers(timers);
  clearJournal(journal);
}

/** The arms as they are at ejection: folded, or open where they would have opened before it. */
function setArms({ craft, s }: Course): void {
  s.openTime = Number.NaN;
  const open = craft.released && s.releaseTime + craft.openingTime <= 0;
  s.arms = open ? 'open' : 'folded';
  for (let i = 0; i < 4; i += 1) {
    s.y[State.Arm1 + i] = open && craft.opens[i] > 0 ? OPEN_ANGLE : 0;
    s.y[State.ArmRate1 + i] = 0;
  }
  readHinges(craft, s);
}

/** State at ejection. */
function eject(course: Course, draw: FlightDraw): void {
  const { y } = course.s;
  const { ejection, stabiliser } = draw.inputs;
  y.fill(0, 0, State.Arm1);
  y[State.East] = ejection.east;
  y[State.North] = ejection.north;
  y[State.Height] = ejection.height;
  y[State.EastSpeed] = ejection.horizontal_speed[0];
  y[State.NorthSpeed] = ejection.horizontal_speed[1];
  y[State.UpSpeed] = ejection.vertical_speed;
  const attitude = ejection.attitude;
  uniformRotation(y, State.AttitudeW, attitude[0], attitude[1], attitude[2]);
  const axis = ejection.tumble_axis;
  uniformDirection(y, State.TurnX, axis[0], axis[1]);
  for (let i = 0; i < 3; i += 1) y[State.TurnX + i] = y[State.TurnX + i] * ejection.tumble_rate;
  beginEstimate(y, stabiliser.starting_error, 2 * Math.PI * stabiliser.starting_error_axis[0]);
}

/** The estimate of "up" at ejection: the true one, tilted by `error` about a horizontal axis in direction `around`. */
function beginEstimate(y: Float64Array, error: number, around: number): void {
  const w = y[State.AttitudeW];
  const a = y[State.AttitudeX];
  const b = y[State.AttitudeY];
  const c = y[State.AttitudeZ];
  // The wrong "up" in inertial axes, then into body axes.
  const e = Math.sin(error) * Math.cos(around);
  const n = Math.sin(error) * Math.sin(around);
  const u = Math.cos(error);
  y[State.EstimateX] = (1 - 2 * (b * b + c * c)) * e + 2 * (a * b + w * c) * n + 2 * (a * c - w * b) * u;
  y[State.EstimateY] = 2 * (a * b - w * c) * e + (1 - 2 * (a * a + c * c)) * n + 2 * (b * c + w * a) * u;
  y[State.EstimateZ] = 2 * (a * c + w * b) * e + 2 * (b * c - w * a) * n + (1 - 2 * (a * a + b * b)) * u;
}

function keepNode(course: Course, fall: Fall): void {
  const { craft, s } = course;
  ensureRoom(fall);
  const at = fall.count * KEPT;
  const { nodes } = fall;
  const y = s.y;
  for (let i = 0; i < FALL_STATES; i += 1) nodes[at + i] = y[i];
  for (let i = 0; i < 8; i += 1) nodes[at + ARMS + i] = y[State.Arm1 + i];
  for (let i = 0; i < 3; i += 1) {
    nodes[at + WIND + i] = s.windTo[i];
    nodes[at + GUST + i] = s.gust[i];
    nodes[at + SCALES + i] = s.scales[i];
  }
  fall.readings[fall.count] = readingAtNode(craft, s);
  fall.count += 1;
}

function noteTimes({ s, journal }: Course, fall: Fall): void {
  fall.openTime = s.openTime;
  fall.firedTime = journal.firedTime;
  fall.triggerNode = s.triggerNode;
  fall.fireTime = s.fireTime;
}

/** Begins the fall of a draw at its ejection: one node is kept. */
export function beginFall(course: Course, fall: Fall, draw: FlightDraw): void {
  resetSituation(course, draw);
  eject(course, draw);
  beginAir(course.craft, course.s);
  if (course.observer !== null) course.observer();
  fall.count = 0;
  fall.draw = draw;
  fall.over = false;
  fall.ending = 'reached';
  fall.endTime = Number.POSITIVE_INFINITY;
  noteTimes(course, fall);
  keepNode(course, fall);
}

/** Falls one node further; the course must be where the fall is. */
function fallOn(course: Course, fall: Fall, draw: FlightDraw): void {
  const { s } = course;
  const limit = draw.inputs.time_limit;
  fall.ending = flyOn(course, Math.min(fall.count * GUST_STEP, limit));
  noteTimes(course, fall);
  fall.over = fall.ending !== 'reached' || s.time >= limit;
  if (fall.over) fall.endTime = s.time;
  else keepNode(course, fall);
}

/** Falls on until a node is kept; false if the fall is over before. */
export function fallToNode(course: Course, fall: Fall, node: number): boolean {
  if (fall.draw !== null) while (!fall.over && fall.count <= node) fallOn(course, fall, fall.draw);
  return node < fall.count;
}

/** Falls on until a node after `time` is kept or the fall is over; to its end if time is NaN. */
export function fallPast(course: Course, fall: Fall, time: number): void {
  if (fall.draw !== null) while (!fall.over && !((fall.count - 1) * GUST_STEP > time)) fallOn(course, fall, fall.draw);
}

/** Puts the course back at a node of the fall. */
export function returnToNode(course: Course, fall: Fall, node: number): void {
  const { craft, s } = course;
  const at = node * KEPT;
  const { nodes } = fall;
  s.y.fill(0);
  for (let i = 0; i < FALL_STATES; i += 1) s.y[i] = nodes[at + i];
  for (let i = 0; i < 8; i += 1) s.y[State.Arm1 + i] = nodes[at + ARMS + i];
  for (let i = 0; i < 3; i += 1) {
    s.windTo[i] = nodes[at + WIND + i];
    s.gust[i] = nodes[at + GUST + i];
    s.scales[i] = nodes[at + SCALES + i];
  }
  s.handTo = s.noise === null ? 0 : craft.throttleNoise * s.noise.throttle.at(node, 0);
  s.node = node - 1;
  s.time = node * GUST_STEP;
  if (fall.openTime <= s.time) {
    s.arms = 'open';
    s.openTime = fall.openTime;
  } else if (s.time > s.releaseTime + craft.catchTime && craft.released) s.arms = 'opening';
  readHinges(craft, s);
  // What the parachute has read before this node, and whether it has made up its mind; at the node itself it reads again.
  for (let k = node - 1; k >= 0 && k >= node - 2 * READINGS; k -= 1)
    if (isWatched(k)) keepReading(s, k, fall.readings[k]);
  if (fall.triggerNode < node) {
    s.triggerNode = fall.triggerNode;
    s.fireTime = fall.fireTime;
  }
}

/** Height m at node k. */
export function heightAtNode(fall: Fall, node: number): number {
  return fall.nodes[node * KEPT + State.Height];
}

/**
 * How far the height goes above the chord from node k to the next at share f of the way, m: the cubic through the heights
 * and vertical speeds of both (Hermite).
 */
export function bulge(fall: Fall, k: number, f: number): number {
  const at = k * KEPT;
  const { nodes } = fall;
  const rise = nodes[at + KEPT + State.Height] - nodes[at + State.Height];
  const early = GUST_STEP * nodes[at + State.UpSpeed] - rise;
  const late = GUST_STEP * nodes[at + KEPT + State.UpSpeed] - rise;
  return f * (1 - f) * ((1 - f) * early - f * late);
}

/** Height m at share f of the way from node k to the next one that is kept; to the ground behind the last. */
export function heightBetween(fall: Fall, k: number, f: number): number {
  const from = heightAtNode(fall, k);
  if (k + 1 >= fall.count) return from * (1 - f);
  return from + f * (heightAtNode(fall, k + 1) - from) + bulge(fall, k, f);
}

/**
 * Share of the way from node k to the next at which a series comes down from `before` to `level`; at the next node it is
 * `now`. It follows the height's bulge times `share` between them.
 */
export function crossingBetween(
  fall: Fall,
  k: number,
  before: number,
  now: number,
  level: number,
  share: number,
): number {
  let f = (before - level) / (before - now);
  for (let again = 0; again < 2; again += 1) {
    f = Math.min(Math.max((before - level + share * bulge(fall, k, f)) / (before - now), 0), 1);
  }
  return f;
}

/** When a whole fall passes a height, s; its end if it never does. */
export function passingTime(fall: Fall, height: number): number {
  for (let k = 0; k < fall.count; k += 1) {
    const below = heightAtNode(fall, k);
    if (below > height) continue;
    if (k === 0) return 0;
    return GUST_STEP * (k - 1 + crossingBetween(fall, k - 1, heightAtNode(fall, k - 1), below, height, 1));
  }
  return fall.endTime;
}
