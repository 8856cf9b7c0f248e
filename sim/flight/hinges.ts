/**
 * The arms as they open: what each does at its hinge, how it turns, and where it stops within a step. The equation is in
 * sim/model/hinge.ts. Arms move with the motors off alone.
 */
import { OPEN_ANGLE, shareTo, shareToRest } from '../model/hinge.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** What an arm does at its hinge. A constant enum, as for the places of the state (sim/model/state.ts). */
// biome-ignore lint/suspicious/noConstEnum: see above
export const enum Hinge {
  /** It turns back. */
  Closing = -1,
  /** At rest: friction holds it, or it is about to move. */
  Held = 0,
  Opening = 1,
  /** Open for good. */
  Latched = 2,
  /** It stays shut for good. */
  Shut = 3,
}

/**
 * How far the arms are open at their angles a: o, the mean of sin^2 a, and the drag area of each, times sin a.
 *
 * Reads Arm and ArmRate of y; writes Openness and Opening, and s.stoppedAreas.
 */
export function spreadArms(craft: Craft, s: Situation, y: Float64Array): void {
  let open = 0;
  let opening = 0;
  for (let i = 0; i < 4; i += 1) {
    const a = y[State.Arm1 + i];
    const sine = Math.sin(a);
    s.stoppedAreas[i] = craft.stoppedAreas[i] * sine;
    open += sine * sine;
    opening += 2 * sine * Math.cos(a) * y[State.ArmRate1 + i];
  }
  s.scratch[Slot.Openness] = 0.25 * open;
  s.scratch[Slot.Opening] = 0.25 * opening;
}

/** What each arm does, by its angle and rate: for a flight that is put back to a moment of its fall. Sets the areas too. */
export function readHinges(craft: Craft, s: Situation): void {
  const { hinges, y } = s;
  for (let i = 0; i < 4; i += 1) {
    if (craft.opens[i] === 0) hinges[i] = Hinge.Shut;
    else if (y[State.Arm1 + i] === OPEN_ANGLE) hinges[i] = Hinge.Latched;
    else hinges[i] = Math.sign(y[State.ArmRate1 + i]);
  }
  spreadArms(craft, s, y);
  s.areas.set(s.stoppedAreas);
}

/** Signs of the rotors' places along x and y, and what makes them a direction. */
const PLACE_X = [1, -1, -1, 1] as const;
const PLACE_Y = [1, 1, -1, -1] as const;
const SIDE = Math.SQRT1_2;

/**
 * Rates of the angles of the arms and of their rates; of the rotors, pack and hand, which rest, none.
 *
 * Reads Density, Air and ForceZ, and Arm and ArmRate of y; writes dy and s.hingeTorques.
 */
export function swingArms(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  const uz = craft.foldSign * w[Slot.AirZ];
  const load = -0.5 * w[Slot.Density] * craft.hingeLever;
  const weight = craft.foldSign * craft.armMoment * craft.perMass * w[Slot.ForceZ];
  for (let i = State.Thrust1; i < State.Arm1; i += 1) dy[i] = 0;
  for (let i = 0; i < 4; i += 1) {
    const a = y[State.Arm1 + i];
    const sine = Math.sin(a);
    const out = SIDE * (PLACE_X[i] * w[Slot.AirX] + PLACE_Y[i] * w[Slot.AirY]);
    const un = uz * sine + (out > 0 ? out * Math.cos(a) : 0);
    const torque = craft.hingeSpring[i] + load * craft.stoppedAreas[i] * un * Math.abs(un) - weight * sine;
    const motion = s.hinges[i];
    const moves = motion === Hinge.Opening || motion === Hinge.Closing;
    s.hingeTorques[i] = torque;
    dy[State.Arm1 + i] = moves ? y[State.ArmRate1 + i] : 0;
    dy[State.ArmRate1 + i] = moves ? (torque - motion * craft.hingeFriction[i]) / craft.hingeInertia : 0;
  }
}

/** At the beginning of a step: an arm at rest moves if the torque on it is above friction; k1 is changed accordingly. */
export function wakeArms(craft: Craft, s: Situation): void {
  for (let i = 0; i < 4; i += 1) {
    if (s.hinges[i] !== Hinge.Held) continue;
    const torque = s.hingeTorques[i];
    const motion = torque > 0 ? Hinge.Opening : Hinge.Closing;
    const left = motion * torque - craft.hingeFriction[i];
    // Folded, the can is in the way of closing.
    if (left <= 0 || (motion === Hinge.Closing && s.y[State.Arm1 + i] <= 0)) continue;
    s.hinges[i] = motion;
    s.k1[State.ArmRate1 + i] = (motion * left) / craft.hingeInertia;
  }
}

/** An arm that comes to rest uses up at least this share of a step, so that the flight goes on. */
const LEAST_SHARE = 0.1;
/** Arms whose ends lie within this share of a step come to them together. */
const TOGETHER = 1e-9;

/** Share of the step just made, from s.start to s.y, at which each arm comes to its end or to rest; 1 or more where it does not. */
const SHARES = new Float64Array(4);

/** Share of a step of length h at which the first arm comes to its end or to rest; infinite where none does. */
export function firstStop(s: Situation, h: number): number {
  let first = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 4; i += 1) {
    SHARES[i] = stopShare(s, i, h);
    if (SHARES[i] < first) first = SHARES[i];
  }
  return first;
}

function stopShare({ hinges, start, y }: Situation, arm: number, h: number): number {
  const motion = hinges[arm];
  if (motion !== Hinge.Opening && motion !== Hinge.Closing) return Number.POSITIVE_INFINITY;
  const end = motion === Hinge.Opening ? OPEN_ANGLE : 0;
  const a0 = start[State.Arm1 + arm];
  const v0 = h * start[State.ArmRate1 + arm];
  const a1 = y[State.Arm1 + arm];
  const v1 = h * y[State.ArmRate1 + arm];
  if (motion * (a1 - end) >= 0) return shareTo(end, motion, a0, v0, a1, v1);
  return motion * v1 < 0 ? Math.max(shareToRest(motion, a0, v0, a1, v1), LEAST_SHARE) : Number.POSITIVE_INFINITY;
}

/** The arms whose share is `first`, at which the flight now is, latch or come to rest. */
export function stopArms(s: Situation, first: number): void {
  const { hinges, y } = s;
  for (let i = 0; i < 4; i += 1) {
    if (SHARES[i] > first + TOGETHER) continue;
    const a = y[State.Arm1 + i];
    const opening = hinges[i] === Hinge.Opening;
    y[State.ArmRate1 + i] = 0;
    if (opening && a > OPEN_ANGLE - NEAR_END) {
      y[State.Arm1 + i] = OPEN_ANGLE;
      hinges[i] = Hinge.Latched;
    } else {
      if (!opening && a < NEAR_END) y[State.Arm1 + i] = 0;
      hinges[i] = Hinge.Held;
    }
  }
}

/** An arm as near to its end, rad, is there: the cubic that found the moment is off by far less. */
const NEAR_END = 1e-4;

/** Whether an arm may still move. */
export function armsMayMove({ hinges }: Situation): boolean {
  for (let i = 0; i < 4; i += 1) if (hinges[i] < Hinge.Latched) return true;
  return false;
}
