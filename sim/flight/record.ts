/** The record: what one simulated flight at one throttle-up height leaves behind. */

export const OUTCOMES = ['soft', 'hard', 'crash', 'numerical'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** Index of a soft landing in OUTCOMES. */
export const SOFT = OUTCOMES.indexOf('soft');

/** Whether an index into OUTCOMES is that of a soft landing; every other outcome is a failure. */
export function isSoft(outcome: number): boolean {
  return outcome === SOFT;
}

/** 1 for each flight that did not land softly, else 0. */
export function failureFlags(outcome: ArrayLike<number>): Uint8Array {
  return Uint8Array.from(outcome, (one) => (isSoft(one) ? 0 : 1));
}

/** One cause for each flight that is not soft, in the order in which they are tested. */
export const CAUSES = [
  'none',
  'ejection damage',
  'arm release',
  'arm shut',
  'arm held',
  'rotor dead',
  'not armed',
  'no picture',
  'battery empty',
  'height judged',
  'reaction',
  'lapse',
  'outage',
  'stabilising',
  'thrust loss',
  'wind and touchdown',
  'several together',
  'not sought',
] as const;
export type Cause = (typeof CAUSES)[number];

/**
 * Columns of numbers kept for each flight, all SI, NaN where the event never came (as null in JSON and CSV).
 * Positions are east and north of the planned landing point; times are from ejection; heights above ground.
 */
export const COLUMNS = {
  touchdown_speed: 'm/s, total',
  vertical_speed: 'm/s at touchdown, downwards positive',
  horizontal_speed: 'm/s at touchdown',
  tilt: 'rad at touchdown',
  energy: 'J at touchdown',
  east: 'm at touchdown',
  north: 'm at touchdown',
  time: 's, touchdown',
  order_time: 's, throttle-up ordered (cue plus reaction, lapse, delays: the craft gets the order)',
  order_height: 'm, true height when the craft gets the order',
  cue_height: 'm, true height when the cue came',
  running_time: 's, rotors running: the last of them gives thrust',
  upright_time: 's, upright',
  arrest_time: 's, descent arrested',
  arrest_height: 'm, height at which the descent was arrested',
  speed_at_order: 'm/s, fall speed when the craft gets the order',
  lowest_voltage: 'V, under load',
  energy_left: 'share of the capacity left at touchdown',
  peak_rate: 'rad/s, largest turning rate after the order, or in the fall without one',
  rate_at_order: 'rad/s, turning rate when the craft gets the order',
  canopy: '1 if it came down under an open canopy, else 0',
} as const;
export type ColumnName = keyof typeof COLUMNS;
export const COLUMN_NAMES = Object.keys(COLUMNS) as readonly ColumnName[];

/** The outcomes of many flights at one height, flight by flight. */
export interface FlightColumns {
  readonly height: number;
  readonly outcome: Uint8Array;
  /** Index into CAUSES; "not sought" where causes were not asked for. */
  readonly cause: Uint8Array;
  /** Only touchdown_speed where detail was not asked for. */
  readonly columns: Readonly<Partial<Record<ColumnName, Float32Array>>>;
}
