/**
 * A flight is a chain of phases, each begun by an event. The tables below are all there is to it: the phase that the flight
 * is in, the event, the phase that follows, and what is done on the way. An event that has no row for the phase does
 * nothing. The code that flies watches only for the events that the phase awaits, and the lengths of steps, the equations of
 * motion, the record and the trace ask the phase.
 *
 * Each rotor gives thrust from its own time on (`driveRotors` in actions.ts): with the first of them powered flight begins.
 *
 * Three more things go on beside the phase, whatever it is, and have small tables of their own:
 * - the arms are let go by a clock and open by the equation of their hinges, before the order or after it;
 * - the stance: the craft may come upright before its descent is arrested or after it, and is then held by the horizon for
 *   good;
 * - the stick is in somebody's hand, as the radio link allows, all through powered flight.
 *
 * Touchdown, divergence and the time limit end a flight in whatever phase it is: they are no rows (see `Ending`).
 */

import {
  askGuard,
  beginFilling,
  beginPower,
  fire,
  freeArms,
  holdTilt,
  leaveArms,
  noteArrest,
  noteEmptyPack,
  noteOpen,
  noteOrder,
  noteUpright,
  startMotors,
  stopAndFire,
  stopMotors,
  takeOver,
} from './actions.js';
import type { Course } from './in-flight.js';
import type { Arms, ArmsEvent, Awaited, Phase, PhaseEvent, Stance, StanceEvent, Stick, StickEvent } from './phase.js';
import { PHASES } from './phase.js';
import type { Situation } from './situation.js';

/** One row of a table. `done` may bring about an event of the phase, which then happens at once. */
export interface Transition<State, Event> {
  readonly from: readonly State[];
  readonly event: Event;
  readonly to: State;
  readonly done?: (course: Course) => PhaseEvent | undefined;
}

const OFF: readonly Phase[] = ['falling', 'waiting', 'guarded', 'starting', 'stopped'];
const RUNNING: readonly Phase[] = ['braking', 'arrested', 'approach'];

export const PHASE_TABLE: readonly Transition<Phase, PhaseEvent>[] = [
  { from: ['falling'], event: 'order', to: 'waiting', done: noteOrder },
  { from: ['falling'], event: 'order in vain', to: 'falling', done: noteOrder },
  { from: ['waiting'], event: 'ask guard', to: 'guarded', done: askGuard },
  { from: ['waiting', 'guarded'], event: 'start', to: 'starting', done: startMotors },
  { from: ['starting'], event: 'first thrust', to: 'braking', done: beginPower },
  { from: ['braking'], event: 'arrest', to: 'arrested', done: noteArrest },
  { from: ['arrested'], event: 'take over', to: 'approach', done: takeOver },
  { from: RUNNING, event: 'pack empty', to: 'stopped', done: noteEmptyPack },
  { from: RUNNING, event: 'fail-safe stop', to: 'stopped', done: stopMotors },
  { from: RUNNING, event: 'fire', to: 'deploying', done: stopAndFire },
  { from: OFF, event: 'fire', to: 'deploying', done: fire },
  { from: ['deploying'], event: 'stretched', to: 'filling', done: beginFilling },
  { from: ['filling'], event: 'filled', to: 'canopy' },
  { from: ['filling', 'canopy'], event: 'tear', to: 'torn' },
];

export const ARMS_TABLE: readonly Transition<Arms, ArmsEvent>[] = [
  { from: ['folded'], event: 'release', to: 'released' },
  { from: ['released'], event: 'free', to: 'opening', done: freeArms },
  { from: ['opening'], event: 'opened', to: 'open', done: noteOpen },
  { from: ['folded', 'released', 'opening'], event: 'leave', to: 'left', done: leaveArms },
];

export const STANCE_TABLE: readonly Transition<Stance, StanceEvent>[] = [
  { from: ['tumbling'], event: 'held upright', to: 'upright', done: noteUpright },
];

export const STICK_TABLE: readonly Transition<Stick, StickEvent>[] = [
  { from: ['live'], event: 'outage', to: 'held', done: holdTilt },
  { from: ['held', 'itself'], event: 'link back', to: 'live', done: () => 'take over' },
  { from: ['held'], event: 'fail-safe', to: 'itself', done: () => 'take over' },
];

const EVENTS = [...new Set(PHASE_TABLE.map((row) => row.event))];
const awaitedIn = (phase: Phase) =>
  Object.fromEntries(EVENTS.map((event) => [event, rowOf(PHASE_TABLE, phase, event) !== undefined])) as Awaited;
export const AWAITED = Object.fromEntries(PHASES.map((phase) => [phase, awaitedIn(phase)])) as Readonly<
  Record<Phase, Awaited>
>;

function rowOf<State, Event>(
  table: readonly Transition<State, Event>[],
  state: State,
  event: Event,
): Transition<State, Event> | undefined {
  return table.find((row) => row.event === event && row.from.includes(state));
}

/** Begins a phase now; one that goes on keeps its beginning. */
export function enterPhase(s: Situation, phase: Phase): void {
  if (phase !== s.phase) s.phaseBegan = s.time;
  s.phase = phase;
  s.awaits = AWAITED[phase];
}

/** An event of the phase happens now. */
export function happen(course: Course, event: PhaseEvent): void {
  const { s } = course;
  const row = rowOf(PHASE_TABLE, s.phase, event);
  if (row === undefined) return;
  enterPhase(s, row.to);
  follow(course, row.done?.(course));
}

function follow(course: Course, event: PhaseEvent | undefined): void {
  if (event !== undefined) happen(course, event);
}

export function armsHappen(course: Course, event: ArmsEvent): void {
  const row = rowOf(ARMS_TABLE, course.s.arms, event);
  if (row === undefined) return;
  course.s.arms = row.to;
  follow(course, row.done?.(course));
}

export function stanceHappens(course: Course, event: StanceEvent): void {
  const row = rowOf(STANCE_TABLE, course.s.stance, event);
  if (row === undefined) return;
  course.s.stance = row.to;
  follow(course, row.done?.(course));
}

export function stickHappens(course: Course, event: StickEvent): void {
  const row = rowOf(STICK_TABLE, course.s.stick, event);
  if (row === undefined) return;
  course.s.stick = row.to;
  follow(course, row.done?.(course));
}
