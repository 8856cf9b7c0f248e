/**
 * The actions of the transitions in transitions.ts: what is done as a phase gives way to the next. An action that finds the next
 * event already fulfilled returns that event.
 */
import { wantedTilt, yawAllowance } from '../model/approach.js';
import { readOpenCircuit } from '../model/battery.js';
import { fillTime } from '../model/parachute.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import { airspeed, beginRing } from './air.js';
import type { Craft } from './craft.js';
import { Hinge, spreadArms } from './hinges.js';
import type { Course } from './in-flight.js';
import { arrestMargin, guardMargin, uprightMargin } from './margins.js';
import type { PhaseEvent } from './phase.js';
import type { Situation } from './situation.js';
import { takeOverThrottle } from './steering.js';
import { clearTimers } from './timers.js';

/** The craft gets the order: it lets the arms go where they wait for it. */
export function noteOrder({ craft, s, timers, journal }: Course): undefined {
  const { y } = s;
  journal.orderTime = s.time;
  journal.orderHeight = y[State.Height];
  journal.speedAtOrder = -y[State.UpSpeed];
  journal.rateAtOrder = Math.hypot(y[State.TurnX], y[State.TurnY], y[State.TurnZ]);
  journal.peakRate = journal.rateAtOrder;
  if (craft.releasedByOrder) s.releaseTime = s.time + craft.releaseDelay;
  clearTimers(timers);
}

/** The order meets a guard: from now on the guard decides. */
export function askGuard({ craft, s, timers, journal }: Course): undefined {
  journal.guardTime = s.time;
  if (guardMargin(craft, s.y) >= 0) timers.guardSince = s.time;
}

/** The arms are free to turn about their hinges: each is at rest. */
export function freeArms({ craft, s }: Course): undefined {
  for (let i = 0; i < 4; i += 1) s.hinges[i] = craft.opens[i] > 0 ? Hinge.Held : Hinge.Shut;
  spreadArms(craft, s, s.y);
}

/** All arms that can are open. */
export function noteOpen({ craft, s }: Course): undefined {
  s.openTime = s.time;
  spreadArms(craft, s, s.y);
}

/** The motors do not wait any longer: an arm that is not open stays where it is. */
export function leaveArms({ craft, s, journal }: Course): undefined {
  journal.armsLeftTime = s.time;
  for (let i = 0; i < 4; i += 1) s.y[State.ArmRate1 + i] = 0;
  spreadArms(craft, s, s.y);
}

/** The motors are told to start: each rotor on an open arm that can gives thrust after a time of its own. */
export function startMotors({ craft, s, journal }: Course): undefined {
  journal.startTime = s.time;
  s.areas.set(s.stoppedAreas);
  for (let i = 0; i < 4; i += 1) {
    const runs = craft.runs[i] > 0 && s.hinges[i] === Hinge.Latched;
    s.starts[i] = runs ? s.time + craft.startTimes[i] : NEVER;
  }
  s.nextStart = Math.min(s.starts[0], s.starts[1], s.starts[2], s.starts[3]);
}

const NEVER = Number.POSITIVE_INFINITY;

/** Powered flight begins, the rotors from rest; a can that falls slowly enough is arrested at once. */
export function beginPower({ craft, s, timers, journal }: Course): PhaseEvent | undefined {
  const { y, scratch: w } = s;
  journal.poweredTime = s.time;
  for (let i = 0; i < 4; i += 1) y[State.Thrust1 + i] = 0;
  y[State.Charge] = craft.standbyCurrent * s.time;
  y[State.Hand] = 0;
  y[State.IntegralX] = 0;
  y[State.IntegralY] = 0;
  w[Slot.Current] = craft.standbyCurrent;
  beginRing(s);
  setOpenCircuit(craft, s, y[State.Charge]);
  w[Slot.StepVoltage] = w[Slot.OpenCircuit];
  w[Slot.StepVoltageTime] = s.time;
  w[Slot.VoltageRate] = 0;
  w[Slot.Time] = s.time;
  w[Slot.Voltage] = w[Slot.OpenCircuit];
  timers.link = s.time;
  return arrestMargin(craft, y) <= 0 ? 'arrest' : undefined;
}

/** Rotors whose time has come give thrust from now on; with the last of them the rotors are running. */
export function driveRotors({ craft, s, timers, journal }: Course): void {
  let next = NEVER;
  for (let i = 0; i < 4; i += 1) {
    if (s.starts[i] <= s.time) {
      s.driven[i] = 1;
      s.areas[i] = craft.runningAreas[i];
    } else if (s.starts[i] < next) next = s.starts[i];
  }
  s.nextStart = next;
  if (next < NEVER) return;
  journal.runningTime = s.time;
  if (uprightMargin(craft, s.y) >= 0) timers.uprightSince = s.time;
}

/** Open-circuit voltage E of the pack with `drawn` C taken from it. Writes OpenCircuit. */
export function setOpenCircuit(craft: Craft, s: Situation, drawn: number): void {
  const charge = craft.chargeAtEjection - drawn / craft.capacity;
  s.scratch[Slot.OpenCircuit] = craft.cells * readOpenCircuit(craft.openCircuit, craft.openCircuitPairs, charge);
}

export function noteUpright({ s, journal }: Course): undefined {
  journal.uprightTime = s.time;
}

/** The descent is arrested; a hand that holds the stick takes over at once. */
export function noteArrest({ s, journal }: Course): PhaseEvent | undefined {
  journal.arrestTime = s.time;
  journal.arrestHeight = s.y[State.Height];
  return s.stick === 'held' ? undefined : 'take over';
}

export function takeOver({ craft, s }: Course): undefined {
  takeOverThrottle(craft, s);
}

/** The link is lost: the tilt of this moment stands. */
export function holdTilt({ craft, s }: Course): undefined {
  wantedTilt(s.scratch, craft.homing, s.y, yawAllowance(s.y[State.TurnZ]));
}

/** The motors stop for good. */
export function stopMotors({ s, journal }: Course): undefined {
  journal.stopTime = s.time;
}

export function noteEmptyPack(course: Course): undefined {
  course.journal.emptyTime = course.s.time;
  stopMotors(course);
}

/** The parachute is thrown out. */
export function fire({ s, journal }: Course): undefined {
  journal.firedTime = s.time;
}

/** The parachute is thrown out, and stops the motors. */
export function stopAndFire(course: Course): undefined {
  stopMotors(course);
  fire(course);
}

/** The lines are stretched: the cloth begins to fill, the faster the faster it is. */
export function beginFilling({ craft, s }: Course): undefined {
  s.fillTime = fillTime(craft.fillConstant, craft.canopyDiameter, airspeed(s));
}
