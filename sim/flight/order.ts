/** The order to throttle up: the cue comes in the fall, a person reacts to it, and the radio carries the order to the craft. */
import { type FlightDraw, GUST_STEP } from '../draws/draw.js';
import { rewindOutages, throughAt } from '../model/link.js';
import { humanDelay } from '../model/pilot.js';
import { crossingBetween, type Fall, fallToNode, heightAtNode } from './fall.js';
import type { Course } from './in-flight.js';

export interface Order {
  /** When the cue came, s from ejection; NaN if never. */
  cueTime: number;
  /** When the craft has the order, s; NaN if never. */
  time: number;
  /** The order comes while the flight can still be saved: before the fall is over and before a parachute fires. */
  inTime: boolean;
}

export function createOrder(): Order {
  return { cueTime: Number.NaN, time: Number.NaN, inTime: false };
}

export type Cue = FlightDraw['inputs']['plan']['cue'] | 'nothing';

/** What the pilot really goes by: another cue, or none, where the picture is lost. */
export function cueInUse(draw: FlightDraw, pictureLost: boolean): Cue {
  const { plan, video } = draw.inputs;
  if (plan.cue !== 'picture' || !pictureLost || video === null) return plan.cue;
  return video.without_picture;
}

/**
 * First time at which a series on the nodes comes down to `level`; NaN if it never does. Between nodes it goes linearly
 * but for `share` of the height's bulge.
 */
function firstCrossing(course: Course, fall: Fall, at: (node: number) => number, level: number, share: number): number {
  let before = at(0);
  if (before <= level) return 0;
  for (let k = 1; fallToNode(course, fall, k); k += 1) {
    const now = at(k);
    if (now <= level) return GUST_STEP * (k - 1 + crossingBetween(fall, k - 1, before, now, level, share));
    before = now;
  }
  return Number.NaN;
}

/**
 * Finds the order for one planned height, falling on as far as its cue.
 *
 * @param nominalTime when the nominal flight passes the height, s, for a timer; NaN if it never does
 */
export function findOrder(
  course: Course,
  fall: Fall,
  draw: FlightDraw,
  height: number,
  nominalTime: number,
  order: Order,
): void {
  const { inputs } = draw;
  const { pilot, plan, link } = inputs;
  const cue = cueInUse(draw, course.craft.pictureLost);
  const delay = humanDelay(pilot.reaction, pilot.lapse, pilot.lapse_length);
  let byRadio = true;
  let said = Number.NaN;
  order.cueTime = Number.NaN;
  if (cue === 'call-out' || cue === 'automatic') {
    order.cueTime = firstCrossing(course, fall, (k) => fall.readings[k], height, course.craft.readingScale);
    said = order.cueTime + pilot.call_out.latency + (cue === 'call-out' ? delay : 0);
    byRadio = cue === 'call-out';
  } else if (cue === 'picture') {
    order.cueTime = firstCrossing(course, fall, (k) => heightAtNode(fall, k), height * pilot.picture.judgement, 1);
    said = order.cueTime + delay;
  } else if (cue === 'timer') {
    order.cueTime = nominalTime;
    byRadio = plan.timer_start === 'a person';
    said = nominalTime + (byRadio ? delay : 0);
  }
  if (byRadio && said >= 0) {
    rewindOutages(course.s.outages);
    said = throughAt(course.s.outages, said) + link.delay;
  }
  order.time = said;
}
