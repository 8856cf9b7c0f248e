/**
 * The course of a flight: it goes from the current state on, step by step and through every event, to a wanted time or to the
 * ground. This file finds the events; the tables of transitions.ts say what each event does to the flight.
 *
 * Timed events (the arms are released or open, the motors may start, a rotor gives thrust, a hold time is over, the link
 * changes, the parachute's) cut the steps, so that a step ends with them. Events of the state (touchdown, arrest, an arm that is open or
 * comes to rest) are located inside the step; so is, roughly, the moment at which a falling can passes broadside.
 */

import { GUST_STEP } from '../draws/draw.js';
import { outageAt } from '../model/link.js';
import { Slot } from '../model/scratch.js';
import { ALL_STATES, FALL_STATES, STATES, State } from '../model/state.js';
import { driveRotors, setOpenCircuit } from './actions.js';
import { nextAir } from './air.js';
import { watchBarometer } from './barometer.js';
import * as constant from './constants.js';
import type { Craft } from './craft.js';
import { armsMayMove, firstStop, stopArms, wakeArms } from './hinges.js';
import type { Course } from './in-flight.js';
import { beginStep, locate, step } from './integrator.js';
import { arrestMargin, groundMargin, guardMargin, heldSince, turningSquare, uprightMargin } from './margins.js';
import { fallRates, poweredRates } from './motion.js';
import { motorsRun } from './phase.js';
import type { Rates, Situation } from './situation.js';
import { largestStep } from './step-length.js';
import { armsHappen, happen, stanceHappens, stickHappens } from './transitions.js';

/** How a stretch of flight ended. */
export type Ending = 'reached' | 'ground' | 'diverged';

const NEVER = Number.POSITIVE_INFINITY;

/** Flies on to `until` (s from ejection) or to the ground. */
export function flyOn(course: Course, until: number): Ending {
  const { craft, s } = course;
  while (s.time < until) {
    if (s.time >= (s.node + 1) * GUST_STEP) {
      watchBarometer(craft, s);
      nextAir(craft, s);
      if (diverged(s.y)) return 'diverged';
    }
    const nodeEnd = (s.node + 1) * GUST_STEP;
    let next = Math.min(nodeEnd, until);
    const due = nextTimed(course);
    if (due < next) next = due;
    if (next > s.time) {
      const ending = stepTo(course, next);
      if (ending !== 'reached') return ending;
    }
    while (nextTimed(course) <= s.time) applyTimed(course);
  }
  return 'reached';
}

/** The craft gets the order to throttle up, now. */
export function giveOrder(course: Course): void {
  const { damaged, runs } = course.craft;
  const possible = course.s.awaits.order && !damaged && runs.includes(1);
  happen(course, possible ? 'order' : 'order in vain');
}

function diverged(y: Float64Array): boolean {
  for (let i = State.EastSpeed; i <= State.UpSpeed; i += 1) if (!(Math.abs(y[i]) < constant.LARGEST_SPEED)) return true;
  for (let i = State.TurnX; i <= State.TurnZ; i += 1) if (!(Math.abs(y[i]) < constant.LARGEST_TURNING)) return true;
  return !Number.isFinite(y[State.Height]);
}

/** When the arms are next let go, free, or open. */
function armsDue(craft: Craft, s: Situation): number {
  if (s.arms === 'opening') return armsMayMove(s) ? NEVER : s.time;
  if (s.arms === 'folded') return craft.released ? s.releaseTime : NEVER;
  return s.arms === 'released' ? s.releaseTime + craft.catchTime : NEVER;
}

const ARMS_NEXT = { folded: 'release', released: 'free', opening: 'opened', open: 'opened', left: 'opened' } as const;

/** When the motors may start, in the phase "waiting": the order is there, and the arms are open or were waited for long enough. */
function readyTime(craft: Craft, s: Situation): number {
  return s.arms === 'open' ? s.phaseBegan : Math.max(s.phaseBegan, s.releaseTime + craft.longestWait);
}

/** The motors are told to start: without the arms that are not open. */
function startNow(course: Course): void {
  armsHappen(course, 'leave');
  happen(course, 'start');
}

/** When the parachute next fires, is stretched or filled. */
function canopyDue(craft: Craft, s: Situation): number {
  if (s.awaits.fire) return s.fireTime;
  if (s.phase === 'deploying') return s.phaseBegan + craft.deploymentTime;
  return s.phase === 'filling' ? s.phaseBegan + s.fillTime : NEVER;
}

/** The first timed event that the phase awaits; at or before now if one is due. */
function nextTimed(course: Course): number {
  const { craft, s, timers } = course;
  let next = Math.min(armsDue(craft, s), canopyDue(craft, s));
  if (motorsRun(s.phase)) {
    if (s.nextStart < next) next = s.nextStart;
    if (timers.link < next) next = timers.link;
    if (timers.belowSince + craft.cutOffDelay < next) next = timers.belowSince + craft.cutOffDelay;
    if (s.stance === 'tumbling' && timers.uprightSince + craft.uprightHold < next)
      next = timers.uprightSince + craft.uprightHold;
  } else if (s.phase === 'waiting') next = Math.min(next, readyTime(craft, s));
  else if (s.phase === 'guarded') next = Math.min(next, timers.guardSince + craft.guardHold);
  else if (s.phase === 'starting') next = Math.min(next, s.nextStart);
  return next;
}

/** Lets happen what is due now. */
function applyTimed(course: Course): void {
  const { craft, s, timers } = course;
  if (armsDue(craft, s) <= s.time) armsHappen(course, ARMS_NEXT[s.arms]);
  if (canopyDue(craft, s) <= s.time)
    happen(course, s.awaits.fire ? 'fire' : s.phase === 'deploying' ? 'stretched' : 'filled');
  else if (s.phase === 'waiting' && readyTime(craft, s) <= s.time) {
    if (craft.guarded) happen(course, 'ask guard');
    else startNow(course);
  } else if (s.phase === 'guarded' && timers.guardSince + craft.guardHold <= s.time) startNow(course);
  else if (s.phase === 'starting' && s.nextStart <= s.time) {
    happen(course, 'first thrust');
    driveRotors(course);
  } else if (motorsRun(s.phase)) {
    if (s.nextStart <= s.time) driveRotors(course);
    if (timers.uprightSince + craft.uprightHold <= s.time) stanceHappens(course, 'held upright');
    if (timers.belowSince + craft.cutOffDelay <= s.time) happen(course, 'pack empty');
    if (timers.link <= s.time) lookAtLink(course);
  }
}

/** Is the link out now, and for how long already? Sets the time of its next change. */
function lookAtLink(course: Course): void {
  const { craft, s, timers, journal } = course;
  const outage = outageAt(s.outages, s.time);
  if (outage.begin > s.time) {
    timers.link = outage.begin;
    stickHappens(course, 'link back');
    return;
  }
  const failSafe = Math.max(outage.begin, journal.poweredTime) + craft.failSafeTime;
  timers.link = failSafe > s.time ? Math.min(failSafe, outage.end) : outage.end;
  stickHappens(course, 'outage');
  if (failSafe > s.time) return;
  if (craft.failSafeStops) happen(course, 'fail-safe stop');
  else stickHappens(course, 'fail-safe');
}

/** What ends a step early. */
type StepEvent = 'none' | 'ground' | 'arrest' | 'arm' | 'broadside';

/** The voltage found last, and how fast it changed before: in the step the induced speeds go by where that leads. */
function takeVoltageOn(w: Float64Array, length: number): void {
  const since = w[Slot.Time] - w[Slot.StepVoltageTime];
  // Over a far shorter step than the next the change says nothing: the rate before then stands.
  if (since >= LEAST_SHARE * length) w[Slot.VoltageRate] = (w[Slot.Voltage] - w[Slot.StepVoltage]) / since;
  w[Slot.StepVoltage] = w[Slot.Voltage];
  w[Slot.StepVoltageTime] = w[Slot.Time];
}

const LEAST_SHARE = 0.25;

function poweredStep(course: Course, length: number): StepEvent {
  const { craft, s } = course;
  takeVoltageOn(s.scratch, length);
  // Of the middle of the step, at the current found last.
  setOpenCircuit(craft, s, s.y[State.Charge] + 0.5 * length * s.scratch[Slot.Current]);
  return takeStep(course, poweredRates, STATES, length);
}

/** One step. An event of the state ends it, the earliest one inside: then s.time is moved there. */
function takeStep(course: Course, rates: Rates, states: number, length: number): StepEvent {
  const { craft, s } = course;
  s.stepBegin = s.time;
  beginStep(rates, craft, s, states);
  const before = s.scratch[Slot.AirZ];
  if (states === ALL_STATES) wakeArms(craft, s);
  step(rates, craft, s, states, length);
  let taken = length;
  let event: StepEvent = 'none';
  const first = states === ALL_STATES ? firstStop(s, length) : NEVER;
  if (first <= 1) {
    taken = first * length;
    step(rates, craft, s, states, taken);
    event = 'arm';
  }
  if (groundMargin(craft, s.y) <= 0) {
    taken = locate(rates, craft, s, states, taken, groundMargin);
    event = 'ground';
  }
  if (event === 'arm') stopArms(s, first);
  if (s.awaits.arrest && arrestMargin(craft, s.start) > 0 && arrestMargin(craft, s.y) <= 0) {
    taken = locate(rates, craft, s, states, taken, arrestMargin);
    event = 'arrest';
  }
  if (event === 'none' && states === FALL_STATES) {
    const share = broadsideAt(before, s.scratch[Slot.AirZ]);
    if (share > 0) {
      taken = share * length;
      step(rates, craft, s, states, taken);
      event = 'broadside';
    }
  }
  if (event !== 'none') s.time = s.stepBegin + taken;
  return event;
}

/**
 * Share of a step after which the can passes broadside, by u_z at its start and at its end; 0 where it does not, or too near an
 * end to matter. The slender-body force has a kink there: a step that ends with it keeps its order.
 */
function broadsideAt(before: number, after: number): number {
  if (before * after >= 0) return 0;
  const share = before / (before - after);
  return share < CLOSE_TO_END || share > 1 - CLOSE_TO_END ? 0 : share;
}

const CLOSE_TO_END = 0.02;

/** Steps from now to `next`, or until an event ends the stretch early (the caller looks again). */
function stepTo(course: Course, next: number): Ending {
  const { craft, s, journal } = course;
  const powered = motorsRun(s.phase);
  const begin = s.time;
  const span = next - begin;
  const largest = largestStep(craft, s) * course.stepScale;
  const states = s.arms === 'opening' ? ALL_STATES : FALL_STATES;
  const count = span <= largest ? 1 : Math.ceil(span / largest - 1e-9);
  const length = span / count;
  for (let k = 1; k <= count; k += 1) {
    const event = powered ? poweredStep(course, length) : takeStep(course, fallRates, states, length);
    if (event === 'none') s.time = k === count ? next : begin + k * length;
    const y = s.y;
    const square = turningSquare(y);
    if (square > journal.peakRate * journal.peakRate) journal.peakRate = Math.sqrt(square);
    if (powered) watchPower(course);
    else if (s.phase === 'guarded') watchGuard(course);
    if (s.awaits.tear && s.scratch[Slot.Pull] > craft.strength * craft.mass) happen(course, 'tear');
    if (course.observer !== null) course.observer();
    if (event !== 'none') {
      // A flight that diverges within one node may meet the ground first.
      if (event === 'ground') return diverged(y) || y[State.UpSpeed] > 0 ? 'diverged' : 'ground';
      if (event === 'arrest') happen(course, event);
      return 'reached';
    }
    if (k < count && nextTimed(course) < next) return 'reached';
  }
  return 'reached';
}

/** After a powered step: is the craft upright, is the pack empty, and since when? */
function watchPower(course: Course): void {
  const { craft, s, timers, journal } = course;
  if (s.stance === 'tumbling' && s.nextStart === NEVER) {
    const before = uprightMargin(craft, s.start);
    timers.uprightSince = heldSince(timers.uprightSince, s.stepBegin, before, s.time, uprightMargin(craft, s.y));
  }
  const voltage = s.scratch[Slot.Voltage];
  if (!(voltage >= journal.lowestVoltage)) journal.lowestVoltage = voltage;
  if (voltage > craft.cutOff) timers.belowSince = NEVER;
  else {
    // The midpoint rule found the voltage half a step ago.
    const late = s.method === 'midpoint' ? 0.5 * (s.time - s.stepBegin) : 0;
    const before = craft.cutOff - s.scratch[Slot.StepVoltage];
    timers.belowSince = heldSince(timers.belowSince, s.stepBegin - late, before, s.time - late, craft.cutOff - voltage);
  }
}

/** After a step on the way down: does the guard let the motors start, and since when? */
function watchGuard(course: Course): void {
  const { craft, s, timers } = course;
  const before = guardMargin(craft, s.start);
  timers.guardSince = heldSince(timers.guardSince, s.stepBegin, before, s.time, guardMargin(craft, s.y));
}
