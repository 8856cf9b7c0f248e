/**
 * The end of a flight: the record gets its outcome, the cause that the flight itself shows, and its columns from the course
 * as it ended.
 */
import { State } from '../model/state.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import type { Ending } from './course.js';
import type { FlightRecord } from './flight.js';
import type { Course } from './in-flight.js';
import { tiltCosine } from './margins.js';
import { canopyPulls } from './phase.js';
import { CAUSES, type Cause, COLUMN_NAMES, type ColumnName, isSoft, OUTCOMES, type Outcome, SOFT } from './record.js';

export function createRecord(): FlightRecord {
  return { outcome: 0, cause: 0, values: new Float64Array(COLUMN_NAMES.length) };
}

const COLUMN_INDEX = Object.fromEntries(COLUMN_NAMES.map((name, k) => [name, k])) as Readonly<
  Record<ColumnName, number>
>;

/** Position of a column in a record's values. */
export function columnIndex(name: ColumnName): number {
  return COLUMN_INDEX[name];
}

function outcomeIndex(outcome: Outcome): number {
  return OUTCOMES.indexOf(outcome);
}

export function causeIndex(cause: Cause): number {
  return CAUSES.indexOf(cause);
}

const HARD = outcomeIndex('hard');
const CRASH = outcomeIndex('crash');
const NUMERICAL = outcomeIndex('numerical');

/** Vertical speed, in limits, up to which a landing that is not soft counts as hard. */
const HARD_FACTOR = 2;

/** Fills the record from the course as it ended; the causes tested are those of broken hardware and lost power. */
export function fillRecord(record: FlightRecord, course: Course, inputs: FlightInputs, ending: Ending): void {
  const { s, journal } = course;
  const y = s.y;
  const v = record.values;
  const down = -y[State.UpSpeed];
  const across = Math.sqrt(y[State.EastSpeed] ** 2 + y[State.NorthSpeed] ** 2);
  const speed = Math.sqrt(down * down + across * across);
  const tilt = Math.acos(Math.min(1, Math.max(-1, tiltCosine(y))));
  const canopy = canopyPulls(s.phase);
  const landed = ending === 'ground';
  const put = (name: ColumnName, value: number): void => {
    v[COLUMN_INDEX[name]] = value;
  };
  const onGround = (value: number): number => (landed ? value : Number.NaN);
  put('touchdown_speed', onGround(speed));
  put('vertical_speed', onGround(down));
  put('horizontal_speed', onGround(across));
  put('tilt', onGround(tilt));
  put('energy', onGround(0.5 * course.craft.mass * speed * speed));
  put('east', onGround(y[State.East]));
  put('north', onGround(y[State.North]));
  put('time', onGround(s.time));
  put('order_time', journal.orderTime);
  put('order_height', journal.orderHeight);
  put('cue_height', journal.cueHeight);
  put('running_time', journal.runningTime);
  put('upright_time', journal.uprightTime);
  put('arrest_time', journal.arrestTime);
  put('arrest_height', journal.arrestHeight);
  put('speed_at_order', journal.speedAtOrder);
  put('lowest_voltage', journal.lowestVoltage);
  put('energy_left', ending === 'diverged' ? Number.NaN : chargeLeft(course));
  put('peak_rate', journal.peakRate);
  put('rate_at_order', journal.rateAtOrder);
  put('canopy', canopy ? 1 : 0);
  record.outcome = judge(inputs, ending, down, across, tilt, canopy);
  record.cause = isSoft(record.outcome) ? causeIndex('none') : causeIndex(shownCause(course, inputs));
}

/** Share of the capacity left. */
function chargeLeft(course: Course): number {
  const { craft } = course;
  return Math.max(0, craft.chargeAtEjection - chargeDrawn(course) / craft.capacity);
}

/** Q: charge drawn from the pack since ejection, C; the stand-by current goes on when the motors are off. */
export function chargeDrawn({ craft, s, journal }: Course): number {
  const started = journal.poweredTime >= 0;
  const drawn = started ? s.y[State.Charge] : 0;
  const idle = started ? (journal.stopTime >= 0 ? s.time - journal.stopTime : 0) : s.time;
  return drawn + craft.standbyCurrent * idle;
}

function judge(
  inputs: FlightInputs,
  ending: Ending,
  down: number,
  across: number,
  tilt: number,
  canopy: boolean,
): number {
  const { criteria } = inputs;
  if (ending === 'diverged') return NUMERICAL;
  if (ending === 'reached') return CRASH;
  const limit = canopy ? criteria.canopy_speed : criteria.vertical_speed;
  if (down <= limit && across <= criteria.horizontal_speed && (canopy || tilt <= criteria.tilt)) return SOFT;
  return down <= HARD_FACTOR * limit ? HARD : CRASH;
}

/** The cause that the flight itself shows, in the order of the chain; "not sought" where none. */
export function shownCause(course: Course, inputs: FlightInputs): Cause {
  const { craft, journal } = course;
  if (craft.damaged) return 'ejection damage';
  if (!craft.released) return 'arm release';
  if (inputs.arms.stuck.includes(true)) return 'arm shut';
  if (armHeld(course)) return 'arm held';
  if (inputs.rotors.dead.includes(true)) return 'rotor dead';
  if (journal.guardTime >= 0 && !(journal.startTime >= 0)) return 'not armed';
  if (inputs.plan.cue === 'picture' && craft.pictureLost) return 'no picture';
  if (journal.emptyTime >= 0) return 'battery empty';
  return 'not sought';
}

/** The motors started without an arm that was not open, or the ground came while they waited longer than the bench says. */
function armHeld({ craft, s, journal }: Course): boolean {
  return journal.armsLeftTime >= 0 || (s.phase === 'waiting' && s.time > s.releaseTime + craft.openingTime);
}
