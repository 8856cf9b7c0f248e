/**
 * The course of a flight: from the current state on, step by step, through every event, to a wanted time or the ground.
 *
 * Two kinds of event. Timed ones (arms released and open, motors start, hold times over, outages) cut the steps so that
 * they fall on a step's end. Those of the state (touchdown, arrest, parachute) are located inside the step.
 */
import { GUST_STEP } from '../draws/draw.js';
import { readOpenCircuit } from '../model/battery.js';
import { outageAt } from '../model/link.js';
import { fillTime } from '../model/parachute.js';
import { Slot } from '../model/scratch.js';
import { FALL_STATES, STATES, State } from '../model/state.js';
import { nextAir } from './air.js';
import * as constant from './constants.js';
import type { Craft } from './craft.js';
import { beginStep, locate, step } from './integrator.js';
import type { Journal } from './journal.js';
import {
  arrestMargin,
  fireMargin,
  groundMargin,
  guardMargin,
  heldSince,
  turningSquare,
  uprightMargin,
} from './margins.js';
import { fallRates, poweredRates, type Rates } from './motion.js';
import type { Situation } from './situation.js';
import { takeOverThrottle } from './steering.js';
import { largestStep } from './step-length.js';
import type { Timers } from './timers.js';

/** How a stretch of flight ended. */
export type Ending = 'reached' | 'ground' | 'diverged';

/** Everything one flight is flown with. */
export interface Course {
  readonly craft: Craft;
  readonly s: Situation;
  readonly timers: Timers;
  readonly journal: Journal;
  /** Factor on all steps: 1, or less to check the steps. */
  readonly stepScale: number;
  /** Hears of every accepted step, for the trace. */
  observer: (() => void) | null;
}

/** Flies on to `until` (s from ejection) or to the ground. */
export function flyOn(course: Course, until: number): Ending {
  const { craft, s } = course;
  while (s.time < until) {
    if (s.time >= (s.node + 1) * GUST_STEP) {
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
    if (nextTimed(course) <= s.time) applyTimed(course);
  }
  return 'reached';
}

function diverged(y: Float64Array): boolean {
  for (let i = 3; i < 6; i += 1) if (!(Math.abs(y[i]) < constant.LARGEST_SPEED)) return true;
  for (let i = 10; i < 13; i += 1) if (!(Math.abs(y[i]) < constant.LARGEST_TURNING)) return true;
  return !Number.isFinite(y[State.Height]);
}

/** The first timed event that is not done yet; at or before now if one is due. */
function nextTimed(course: Course): number {
  const { craft, s, timers } = course;
  let next = Number.POSITIVE_INFINITY;
  if (s.releaseTime > s.time) next = s.releaseTime;
  else if (s.releaseTime + craft.openingTime > s.time) next = s.releaseTime + craft.openingTime;
  if (s.motorsOn) {
    if (timers.stick < next) next = timers.stick;
    if (timers.belowSince + craft.cutOffDelay < next) next = timers.belowSince + craft.cutOffDelay;
    if (!s.upright && timers.uprightSince + craft.uprightHold < next) next = timers.uprightSince + craft.uprightHold;
  } else if (!s.motorsDone) {
    if (timers.ready < next) next = timers.ready;
    if (timers.start < next) next = timers.start;
    if (timers.guardSince + craft.guardHold < next) next = timers.guardSince + craft.guardHold;
  }
  return next;
}

/** Does what is due now. */
function applyTimed(course: Course): void {
  const { craft, s, timers, journal } = course;
  if (!s.motorsOn && !s.motorsDone) {
    if (timers.ready <= s.time) {
      timers.ready = Number.POSITIVE_INFINITY;
      if (craft.guarded) askGuard(course);
      else timers.start = s.time;
    }
    if (timers.guardSince + craft.guardHold <= s.time) timers.start = s.time;
    if (timers.start <= s.time) startMotors(course);
  }
  if (!s.motorsOn) return;
  if (timers.stick <= s.time) moveStick(course);
  if (!s.upright && timers.uprightSince + craft.uprightHold <= s.time) {
    s.upright = true;
    journal.uprightTime = s.time;
  }
  if (timers.belowSince + craft.cutOffDelay <= s.time) {
    journal.batteryEmpty = true;
    stopMotors(course);
  }
}

/** The order meets a guard: from now on it decides. */
function askGuard(course: Course): void {
  const { craft, s, timers, journal } = course;
  journal.notArmed = true;
  if (guardMargin(craft, s.y) >= 0 && timers.guardSince === Number.POSITIVE_INFINITY) timers.guardSince = s.time;
}

function startMotors(course: Course): void {
  const { craft, s, timers, journal } = course;
  timers.start = Number.POSITIVE_INFINITY;
  timers.guardSince = Number.POSITIVE_INFINITY;
  journal.notArmed = false;
  s.motorsOn = true;
  journal.runningTime = s.time;
  const y = s.y;
  for (let i = 0; i < 4; i += 1) y[State.Thrust1 + i] = 0;
  y[State.Charge] = craft.standbyCurrent * s.time;
  y[State.Hand] = 0;
  s.scratch[Slot.Current] = craft.standbyCurrent;
  setOpenCircuit(craft, s, y[State.Charge]);
  s.scratch[Slot.StepVoltage] = s.scratch[Slot.OpenCircuit];
  s.scratch[Slot.Voltage] = s.scratch[Slot.OpenCircuit];
  timers.stick = s.time;
  if (uprightMargin(craft, y) >= 0 && timers.uprightSince === Number.POSITIVE_INFINITY) timers.uprightSince = s.time;
  if (y[State.UpSpeed] >= -craft.approachSpeed) arrest(course);
}

function stopMotors(course: Course): void {
  const { s, journal } = course;
  if (s.motorsOn) journal.stopTime = s.time;
  s.motorsOn = false;
  s.motorsDone = true;
}

/** Open-circuit voltage of the pack with so much drawn from it, C. */
function setOpenCircuit(craft: Craft, s: Situation, drawn: number): void {
  const charge = craft.chargeAtEjection - drawn / craft.capacity;
  s.scratch[Slot.OpenCircuit] = craft.cells * readOpenCircuit(craft.openCircuit, craft.openCircuitPairs, charge);
}

/** Who flies now, as the link allows; sets the time of the next change. */
function moveStick(course: Course): void {
  const { craft, s, timers, journal } = course;
  const outage = outageAt(s.outages, s.time);
  if (outage.begin > s.time) {
    s.stick = 'live';
    timers.stick = outage.begin;
  } else {
    const failSafe = Math.max(outage.begin, journal.runningTime) + craft.failSafeTime;
    if (failSafe > s.time) {
      s.stick = 'held';
      timers.stick = Math.min(failSafe, outage.end);
    } else if (craft.failSafeStops) {
      stopMotors(course);
      return;
    } else {
      s.stick = 'itself';
      timers.stick = outage.end;
    }
  }
  if (s.arrested && !s.approaching && s.stick !== 'held') beginApproach(course);
}

function arrest(course: Course): void {
  const { s, journal } = course;
  s.arrested = true;
  journal.arrestTime = s.time;
  journal.arrestHeight = s.y[State.Height];
  if (s.stick !== 'held') beginApproach(course);
}

/** The hand takes over where full throttle stood. */
function beginApproach(course: Course): void {
  const { craft, s } = course;
  s.approaching = true;
  takeOverThrottle(craft, s);
}

/** What ends a step early. */
type StepEvent = 'none' | 'ground' | 'arrest' | 'fire';

function poweredStep(course: Course, length: number): StepEvent {
  const { craft, s } = course;
  s.scratch[Slot.StepVoltage] = s.scratch[Slot.Voltage];
  // Of the middle of the step, at the current found last.
  setOpenCircuit(craft, s, s.y[State.Charge] + 0.5 * length * s.scratch[Slot.Current]);
  return takeStep(course, poweredRates, STATES, length);
}

/** One step. An event of the state ends it, the earliest one inside: then s.time is moved there. */
function takeStep(course: Course, rates: Rates, states: number, length: number): StepEvent {
  const { craft, s } = course;
  s.stepBegin = s.time;
  beginStep(rates, craft, s, states);
  step(rates, craft, s, states, length);
  let taken = length;
  let event: StepEvent = 'none';
  if (groundMargin(craft, s.y) <= 0) {
    taken = locate(rates, craft, s, states, length, groundMargin);
    event = 'ground';
  }
  if (s.motorsOn && !s.arrested && arrestMargin(craft, s.start) > 0 && arrestMargin(craft, s.y) <= 0) {
    taken = locate(rates, craft, s, states, taken, arrestMargin);
    event = 'arrest';
  }
  if (craft.canopyWorks && s.firedAt === Number.POSITIVE_INFINITY && fireMargin(craft, s.y) <= 0) {
    taken = fireMargin(craft, s.start) <= 0 ? taken : locate(rates, craft, s, states, taken, fireMargin);
    event = event === 'ground' && s.y[State.Height] <= 0 ? 'ground' : 'fire';
  }
  if (event !== 'none') s.time = s.stepBegin + taken;
  return event;
}

/** Steps from now to `next`, or until an event ends the stretch early (the caller looks again). */
function stepTo(course: Course, next: number): Ending {
  const { craft, s, journal } = course;
  const begin = s.time;
  const span = next - begin;
  const largest = largestStep(craft, s) * course.stepScale;
  const count = span <= largest ? 1 : Math.ceil(span / largest - 1e-9);
  const length = span / count;
  for (let k = 1; k <= count; k += 1) {
    const powered = s.motorsOn;
    const event = powered ? poweredStep(course, length) : takeStep(course, fallRates, FALL_STATES, length);
    if (event === 'none') s.time = k === count ? next : begin + k * length;
    const y = s.y;
    const square = turningSquare(y);
    if (square > journal.peakRate * journal.peakRate) journal.peakRate = Math.sqrt(square);
    if (powered) watchPower(course);
    else if (journal.notArmed && !s.motorsDone) watchGuard(course);
    if (s.firedAt <= s.time && !s.torn && s.scratch[Slot.Pull] > craft.strength * craft.mass) s.torn = true;
    if (course.observer !== null) course.observer();
    if (event !== 'none') {
      // A flight that diverges within one node may meet the ground first.
      if (event === 'ground') return diverged(y) || y[State.UpSpeed] > 0 ? 'diverged' : 'ground';
      if (event === 'arrest') arrest(course);
      else fire(course);
      return 'reached';
    }
    if (k < count && nextTimed(course) < next) return 'reached';
  }
  return 'reached';
}

/** After a powered step: is the craft upright, is the pack empty, and since when? */
function watchPower(course: Course): void {
  const { craft, s, timers, journal } = course;
  if (!s.upright) {
    const before = uprightMargin(craft, s.start);
    timers.uprightSince = heldSince(timers.uprightSince, s.stepBegin, before, s.time, uprightMargin(craft, s.y));
  }
  const voltage = s.scratch[Slot.Voltage];
  if (!(voltage >= journal.lowestVoltage)) journal.lowestVoltage = voltage;
  if (voltage > craft.cutOff) timers.belowSince = Number.POSITIVE_INFINITY;
  else {
    // The midpoint rule found the voltage half a step ago.
    const late = s.settled ? 0.5 * (s.time - s.stepBegin) : 0;
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

/** The parachute is fired: it fills, the motors stop. */
function fire(course: Course): void {
  const { craft, s } = course;
  s.firedAt = s.time;
  s.fillTime = fillTime(craft.fillConstant, craft.canopyDiameter, -s.y[State.UpSpeed]);
  stopMotors(course);
}
