/** Flights over time, of single flights and of many, and a flight in full are plain data, ready for JSON. */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { Uncertainty } from '../distributions/distribution.js';
import type { SetName } from '../draws/draw.js';
import type { Cause, ColumnName, Outcome } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';

/** Height and speed over time for a few flights and the envelope of all at the planned height. */
export interface TimeHistory {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly time: readonly number[];
  readonly height: readonly number[];
  /** Fall speed, downwards positive. */
  readonly speed: readonly number[];
  readonly events: readonly { readonly name: string; readonly time: number; readonly height: number }[];
}

export interface EnvelopePoint {
  readonly time: number;
  /** 5, 50 and 95 % of height and of fall speed over flights still in the air; `flying` is their share. */
  readonly height: readonly [number, number, number];
  readonly speed: readonly [number, number, number];
  readonly flying: number;
}

/** A flight worth looking at again; `id` names it for `trace`, as "explore:17@250". */
export interface ListedFlight {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly cause: string;
  readonly touchdownSpeed: number;
}

/**
 * One flight in full: with sim/MODEL.md, all that another program needs to fly it again, and what became of it here. SI
 * units throughout, angles in radians; null where an event never came and where a number ends in a flight that diverged.
 */
export interface TraceResult {
  readonly kind: 'trace';
  readonly versions: Versions;
  readonly scenario: Scenario;
  /** `--set path=value` as given, in order; already in the scenario. */
  readonly overrides: readonly string[];
  /** Hazards to people, and what the scenario leaves at perfect. */
  readonly warnings: readonly Warning[];
  readonly seed: string;
  /** As a report names it, such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  /** Set and number of the flight; null for the nominal flight, which is drawn from none. */
  readonly set: SetName | null;
  readonly flight: number | null;
  /** Throttle-up height, m. */
  readonly height: number;
  /** Every input as flown, in the definition's order; `scenario.leftOut` names the sections that are absent. */
  readonly inputs: readonly TracedInput[];
  /** What the flight drew, in the definition's order; empty for the nominal flight, where all stand at their medians. */
  readonly drawn: readonly DrawnNumber[];
  readonly noise: readonly TracedNoise[];
  /** What follows from the inputs before the flight begins. */
  readonly constants: readonly TracedConstant[];
  readonly outcome: Outcome;
  readonly cause: Cause;
  readonly events: readonly TracedEvent[];
  /** The phases that lasted, in order, with the time in s after ejection at which each began. */
  readonly phases: readonly { readonly name: string; readonly began: number }[];
  readonly record: Readonly<Record<ColumnName, number | null>>;
  /** What each number of the record is, with its unit. */
  readonly recordMeaning: Readonly<Record<ColumnName, string>>;
  /**
   * Every accepted step, column by column, to nine digits; the names end in their units, angles of `tilt_deg` and the like
   * are in degrees. `attitude` is the unit quaternion from body to inertial axes, `estimated_up` is in body axes, `thrust_i` is
   * the share of the full thrust behind the motor's lag, 0 while the motors are off.
   */
  readonly history: Readonly<Record<string, readonly (number | null)[]>>;
}

interface NamedInput {
  /** As in the scenario file. */
  readonly path: string;
  readonly meaning: string;
}

/** With a value for each label where the input is drawn for each, such as each axis. */
export interface TracedQuantity extends NamedInput {
  readonly shape: 'quantity';
  /** Of the values, SI. */
  readonly unit: string;
  readonly each: readonly string[] | null;
  /** Null where an optional input is left out and the model derives it. */
  readonly value: number | readonly number[] | null;
}

/** Whether what has a chance happens in this flight. */
export interface TracedChance extends NamedInput {
  readonly shape: 'event';
  readonly each: readonly string[] | null;
  readonly value: boolean | readonly boolean[];
}

/** Uniform numbers that no file can set. */
export interface TracedLuck extends NamedInput {
  readonly shape: 'luck';
  readonly each: readonly string[];
  readonly value: readonly number[];
}

export interface TracedWord extends NamedInput {
  readonly shape: 'choice' | 'text';
  readonly value: string;
}

/** Rows of numbers, SI; null where the program's own table holds. */
export interface TracedTable extends NamedInput {
  readonly shape: 'table';
  readonly columns: readonly { readonly name: string; readonly unit: string }[];
  readonly value: readonly (readonly number[])[] | null;
}

export interface TracedList extends NamedInput {
  readonly shape: 'list';
  readonly value: readonly Readonly<Record<string, string | number>>[];
}

export type TracedInput = TracedQuantity | TracedChance | TracedLuck | TracedWord | TracedTable | TracedList;

/** A number that the flight drew from a random stream of its own. */
export interface DrawnNumber {
  /** Name of the stream: the input's path, with "[label]", ".parameter" or "#event" where it is not the value itself. */
  readonly name: string;
  /** Path of the input that it belongs to. */
  readonly path: string;
  readonly part: 'value' | 'parameter' | 'event' | 'luck';
  readonly kind: Uncertainty;
  /** The share of its own law at or under it, 0 to 1; an event happens where this is over 1 - chance. */
  readonly quantile: number;
  /** SI; of an event, whether it happens. */
  readonly value: number | boolean;
  /** In the unit in which the scenario shows it; null for an event. */
  readonly shown: number | null;
  readonly unit: string;
  /** Of an event, its chance in this flight. */
  readonly chance: number | null;
}

/** A series of noise as far as the flight read it. */
export interface TracedNoise {
  readonly name: string;
  readonly meaning: string;
  readonly law: 'standard normal' | 'unit exponential';
  readonly columns: readonly string[];
  /** Seconds between nodes, the first at ejection; null where the nodes are counted. */
  readonly step: number | null;
  /** Node by node, in the order of the columns. */
  readonly values: readonly (readonly number[])[];
}

export interface TracedConstant {
  readonly name: string;
  readonly value: number | boolean;
  readonly unit: string;
  readonly meaning: string;
}

export interface TracedEvent {
  readonly name: string;
  /** s after ejection. */
  readonly time: number;
  readonly height: number | null;
}
