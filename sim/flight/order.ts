/**
 * When the order to throttle up comes: the cue in the fall, the person, the radio.
 */
import { type FlightDraw, GUST_STEP } from '../draws/draw.js';
import { rewindOutages, throughAt } from '../model/link.js';
import { humanDelay } from '../model/pilot.js';
import type { Course } from './course.js';
import { type Fall, heightAtNode } from './fall.js';

export interface Order {
  /** When the cue came, s from ejection; NaN if never. */
  cueTime: number;
  /** When the craft has the order, s; NaN if never. */
  time: number;
  /** The picture was needed and was lost. */
  pictureLost: boolean;
}

export type Cue = FlightDraw['inputs']['plan']['cue'] | 'nothing';

/** What the pilot really goes by: another cue, or none, where the picture is lost. */
export function cueInUse(draw: FlightDraw, pictureLost: boolean): Cue {
  const { plan, video } = draw.inputs;
  if (plan.cue !== 'picture' || !pictureLost || video === null) return plan.cue;
  return video.without_picture;
}

/** First time at which a series on the nodes comes down to `level`, linear between them; NaN if it does not. */
function firstCrossing(at: (node: number) => number, count: number, level: number): number {
  let before = at(0);
  if (before <= level) return 0;
  for (let k = 1; k < count; k += 1) {
    const now = at(k);
    if (now <= level) return GUST_STEP * (k - 1 + (before - level) / (before - now));
    before = now;
  }
  return Number.NaN;
}

/**
 * Finds the order for one planned height.
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
  order.pictureLost = plan.cue === 'picture' && course.craft.pictureLost;
  const delay = humanDelay(pilot.reaction, pilot.lapse, pilot.lapse_length);
  let byRadio = true;
  let said = Number.NaN;
  order.cueTime = Number.NaN;
  if (cue === 'call-out' || cue === 'automatic') {
    order.cueTime = firstCrossing((k) => fall.readings[k], fall.count, height);
    said = order.cueTime + pilot.call_out.latency + (cue === 'call-out' ? delay : 0);
    byRadio = cue === 'call-out';
  } else if (cue === 'picture') {
    order.cueTime = firstCrossing((k) => heightAtNode(fall, k), fall.count, height * pilot.picture.judgement);
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
