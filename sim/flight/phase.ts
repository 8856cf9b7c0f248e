/**
 * A flight is a chain of phases, each begun by an event. The tables below are all there is to it: the phase that the flight
 * is in, the event, the phase that follows, and what is done on the way. An event that has no row for the phase does
 * nothing. The code that flies watches only for the events that the phase awaits, and the lengths of steps, the equations of
 * motion, the record and the trace ask the phase.
 *
 * Three more things go on beside the phase, whatever it is, and have small tables of their own:
 * - the arms open by their own clock, before the order or after it;
 * - the stance: the craft may come upright before its descent is arrested or after it, and is then held by the horizon for
 *   good;
 * - the stick is in somebody's hand, as the radio link allows, all through powered flight.
 *
 * Touchdown, divergence and the time limit end a flight in whatever phase it is: they are no rows (see `Ending`).
 */
import {
  askGuard,
  fillCanopy,
  noteArrest,
  noteEmptyPack,
  noteOrder,
  noteUpright,
  startMotors,
  stopAndFillCanopy,
  stopMotors,
  takeOver,
} from './actions.js';
import type { Course } from './course.js';
import type { Situation } from './situation.js';

export const PHASES = [
  /** Ejected, motors off, no order yet. */
  'falling',
  /** The order is received; the arms are not all open yet. */
  'waiting',
  /** The order is received and the arms are open; the arming guard decides when the motors start. */
  'guarded',
  /** The motors run at full collective. */
  'braking',
  /** The descent is arrested, but the last command stands because the link is out. */
  'arrested',
  /** The hand holds the descent rate, the pilot flies back, flares and lands. */
  'approach',
  /** The motors were stopped and stay off. */
  'stopped',
  /** The parachute is fired: it fills and pulls. */
  'canopy',
  /** The parachute was torn off. */
  'torn',
] as const;
export type Phase = (typeof PHASES)[number];

export type PhaseEvent =
  /** The craft gets the order to throttle up; in vain, where the ejection damaged it or no rotor could run. */
  | 'order'
  | 'order in vain'
  /** The arms are open and an arming guard is to be asked; the motors may start. */
  | 'ask guard'
  | 'start'
  /** The descent rate is down to the approach rate. */
  | 'arrest'
  /** The stick is in a hand again, the pilot's or the craft's own. */
  | 'take over'
  /** The voltage has stayed under the cut-off for the cut-off delay. */
  | 'pack empty'
  /** The link has been out for the fail-safe time, and the design says to stop the motors. */
  | 'fail-safe stop'
  /** The parachute's height and speed are reached. */
  | 'fire'
  /** The canopy pulls harder than its mounting is strong. */
  | 'tear';

export type Arms = 'folded' | 'opening' | 'open';
export type ArmsEvent = 'release' | 'opened';
export type Stance = 'tumbling' | 'upright';
export type StanceEvent = 'held upright';
/** 'live': the pilot flies; 'held': the last command stands; 'itself': the craft flies level by itself. */
export type Stick = 'live' | 'held' | 'itself';
export type StickEvent = 'outage' | 'link back' | 'fail-safe';

/** One row of a table. `done` may bring about an event of the phase, which then happens at once. */
export interface Transition<State, Event> {
  readonly from: readonly State[];
  readonly event: Event;
  readonly to: State;
  readonly done?: (course: Course) => PhaseEvent | undefined;
}

const OFF: readonly Phase[] = ['falling', 'waiting', 'guarded', 'stopped'];
const RUNNING: readonly Phase[] = ['braking', 'arrested', 'approach'];

export const PHASE_TABLE: readonly Transition<Phase, PhaseEvent>[] = [
  { from: ['falling'], event: 'order', to: 'waiting', done: noteOrder },
  { from: ['falling'], event: 'order in vain', to: 'falling', done: noteOrder },
  // The canopy may fire a hair before the order that it was found to come after.
  { from: ['canopy'], event: 'order in vain', to: 'canopy', done: noteOrder },
  { from: ['waiting'], event: 'ask guard', to: 'guarded', done: askGuard },
  { from: ['waiting', 'guarded'], event: 'start', to: 'braking', done: startMotors },
  { from: ['braking'], event: 'arrest', to: 'arrested', done: noteArrest },
  { from: ['arrested'], event: 'take over', to: 'approach', done: takeOver },
  { from: RUNNING, event: 'pack empty', to: 'stopped', done: noteEmptyPack },
  { from: RUNNING, event: 'fail-safe stop', to: 'stopped', done: stopMotors },
  { from: RUNNING, event: 'fire', to: 'canopy', done: stopAndFillCanopy },
  { from: OFF, event: 'fire', to: 'canopy', done: fillCanopy },
  { from: ['canopy'], event: 'tear', to: 'torn' },
];

export const ARMS_TABLE: readonly Transition<Arms, ArmsEvent>[] = [
  { from: ['folded'], event: 'release', to: 'opening' },
  { from: ['opening'], event: 'opened', to: 'open' },
];

export const STANCE_TABLE: readonly Transition<Stance, StanceEvent>[] = [
  { from: ['tumbling'], event: 'held upright', to: 'upright', done: noteUpright },
];

export const STICK_TABLE: readonly Transition<Stick, StickEvent>[] = [
  { from: ['live'], event: 'outage', to: 'held' },
  { from: ['held', 'itself'], event: 'link back', to: 'live', done: () => 'take over' },
  { from: ['held'], event: 'fail-safe', to: 'itself', done: () => 'take over' },
];

/** Whether the phase has a row for each event. */
export type Awaited = Readonly<Record<PhaseEvent, boolean>>;

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
  if (row !== undefined) course.s.arms = row.to;
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

/** Whether the motors run. */
export function motorsRun(phase: Phase): boolean {
  return phase === 'braking' || phase === 'arrested' || phase === 'approach';
}
