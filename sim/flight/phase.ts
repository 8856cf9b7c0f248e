/** The phases of a flight, the events that end them, and the small states that go on beside them. Their tables are in transitions.ts. */

export const PHASES = [
  /** Ejected, motors off, no order yet. */
  'falling',
  /** The order is received; the arms are not all open yet. */
  'waiting',
  /** The order is received and the arms are open; the arming guard decides when the motors start. */
  'guarded',
  /** The motors are told to start; no rotor gives thrust yet. */
  'starting',
  /** The motors run at full collective: at first those that have started. */
  'braking',
  /** The descent is arrested, but the last command stands because the link is out. */
  'arrested',
  /** The hand holds the descent rate, the pilot flies back, flares and lands. */
  'approach',
  /** The motors were stopped and stay off. */
  'stopped',
  /** The parachute is fired; it does not pull before its lines are stretched. */
  'deploying',
  /** The parachute fills and pulls. */
  'filling',
  /** The parachute is full and pulls. */
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
  /** The first rotor gives thrust. */
  | 'first thrust'
  /** The descent rate is down to the approach rate. */
  | 'arrest'
  /** The stick is in a hand again, the pilot's or the craft's own. */
  | 'take over'
  /** The voltage has stayed under the cut-off for the cut-off delay. */
  | 'pack empty'
  /** The link has been out for the fail-safe time, and the design says to stop the motors. */
  | 'fail-safe stop'
  /** The parachute fires, the latency after the barometer showed its height and speed. */
  | 'fire'
  /** The parachute's lines are stretched; the cloth is full. */
  | 'stretched'
  | 'filled'
  /** The canopy pulls harder than its mounting is strong. */
  | 'tear';

/**
 * 'released': let go, but still held by what lets go slowly; 'opening': they turn about their hinges; 'open': all that can are
 * open; 'left': the motors were told to start without an arm that is not open.
 */
export type Arms = 'folded' | 'released' | 'opening' | 'open' | 'left';

export type ArmsEvent = 'release' | 'free' | 'opened' | 'leave';

export type Stance = 'tumbling' | 'upright';

export type StanceEvent = 'held upright';

/** 'live': the pilot flies; 'held': the last command stands; 'itself': the craft flies level by itself. */
export type Stick = 'live' | 'held' | 'itself';

export type StickEvent = 'outage' | 'link back' | 'fail-safe';

/** Whether the phase has a row for each event. */
export type Awaited = Readonly<Record<PhaseEvent, boolean>>;

/** Whether the motors run. */
export function motorsRun(phase: Phase): boolean {
  return phase === 'braking' || phase === 'arrested' || phase === 'approach';
}

/** Whether the parachute pulls. */
export function canopyPulls(phase: Phase): boolean {
  return phase === 'filling' || phase === 'canopy';
}

/** Before a flight has begun, nothing is awaited. */
export const AWAITS_NOTHING: Awaited = {
  order: false,
  'order in vain': false,
  'ask guard': false,
  start: false,
  'first thrust': false,
  arrest: false,
  'take over': false,
  'pack empty': false,
  'fail-safe stop': false,
  fire: false,
  stretched: false,
  filled: false,
  tear: false,
};
