/** A scenario as read and resolved: plain data, SI units, safe to send to a worker or to keep in a result. */
import type { Correlation, FixedValue, UncertainValue } from '../distributions/distribution.js';
import type { InputPath, OptionalSectionPath, SettingPath } from './definition/paths.js';

export interface Learnt {
  readonly logs: number;
  readonly spreadLeft: number;
}

export interface ResolvedInput {
  /** Path in the scenario file, such as "can.mass"; also the name of the input's random stream. */
  readonly path: InputPath;
  readonly shape: 'quantity' | 'chance';
  readonly value: FixedValue | UncertainValue;
  /** Unit for showing, and the factor and offset from SI: shown = si * perSi + offset. */
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
  /** Provenance of the value; "standard" is the program's default, "decided" a choice or a rule. */
  readonly source: 'measured' | 'datasheet' | 'guess' | 'learnt' | 'standard' | 'decided' | 'not said';
  /** Where it was learnt from flight logs: how many, and the share that they left of the spread of the guess. */
  readonly learnt?: Learnt;
  readonly note: string;
  /** As written in the file, on one line, such as "normal, mean 610 g, sd 5 g". */
  readonly written: string;
}

/** What a file says of a choice or a text, of a table (rows of numbers in SI), of a list (an object for each item). */
export type Setting = string | readonly (readonly number[])[] | readonly Readonly<Record<string, string | number>>[];

/** What the command line says instead of the scenario file. */
export interface ScenarioChange {
  readonly path: string;
  /** As given on the command line. */
  readonly given: string;
  /** As written in the file, or what holds where the file says nothing. */
  readonly inFile: string;
}

export interface Scenario {
  /** Name of the file, without its folder. */
  readonly file: string;
  /** What was changed on the command line, and differs from the file; already in the inputs and settings. */
  readonly changed: readonly ScenarioChange[];
  readonly title: string;
  readonly about: string;
  readonly invented: boolean;
  /** Every quantity and chance that the scenario has (left-out optional ones are absent), in the definition's order. */
  readonly inputs: readonly ResolvedInput[];
  /** Choices, texts, tables and lists by path. */
  readonly settings: Readonly<Partial<Record<SettingPath, Setting>>>;
  /** Paths of optional sections that the scenario leaves out. */
  readonly leftOut: readonly OptionalSectionPath[];
  readonly correlations: readonly Correlation[];
  /** SHA-256 (hex) of the title and of all that decides how flights go and are judged; provenance is not in it. */
  readonly hash: string;
}
