/**
 * The vocabulary in which the scenario's definition is written: what kinds of entry a scenario file may hold,
 * and which TypeScript value each becomes for one flight. Everything else about a scenario (reading it, its JSON
 * Schema, the starter file, the input table of the report) is derived from these shapes.
 */

/** What a number measures. Inside the program every value is in the SI unit of its dimension (angles in radians). */
export type Dimension =
  | 'acceleration' // m/s2
  | 'angle' // rad
  | 'angular rate' // rad/s
  | 'area' // m2
  | 'charge' // C
  | 'density' // kg/m3
  | 'energy' // J
  | 'force' // N
  | 'inertia' // kg m2
  | 'length' // m
  | 'mass' // kg
  | 'power' // W
  | 'pressure' // Pa
  | 'rate' // 1/s
  | 'ratio' // 1; a bare number or a percentage
  | 'resistance' // ohm
  | 'speed' // m/s
  | 'temperature' // K (absolute); "35 degC" is a temperature, not a difference
  | 'temperature difference' // K
  | 'thermal resistance' // K/W
  | 'time' // s
  | 'torque' // N m
  | 'voltage'; // V

interface Described {
  /** A plain sentence that says what the entry is, shown as hover in editors and as comment in the starter file. */
  readonly doc: string;
}

/** How an input gets its value, in whole sentences; marked as common practice where there is no source. */
interface Practice {
  /** How it is usually measured. */
  readonly measured?: string;
  /** What is usual for it, and how well it is usually known. */
  readonly usual?: string;
}

export interface QuantityOptions extends Practice {
  /** Unit in which values are shown to people, such as "g"; must be of the leaf's dimension. */
  readonly unit: string;
  /** Smallest and largest value that can make sense, as text with unit (inclusive). */
  readonly least?: string;
  readonly most?: string;
  /** True where the bound `least` itself is impossible, as a mass of 0. */
  readonly aboveLeast?: boolean;
  /**
   * What holds when the file does not say, written as in the file: a value ("45 ms"), or a law with its kind
   * ("{ uniform: { from: 0.2, to: 0.7 }, kind: fixed but not measured }"; on several lines where it is long), by which it
   * is then drawn. A leaf without it must be given.
   */
  readonly standard?: string;
  /**
   * What is taken as perfect where the standard of 0 holds, as "attention is never elsewhere": a file that leaves the entry out
   * is told so, and `none` with a reason in `note` says that it is meant.
   */
  readonly perfect?: string;
  /** May be left out, and is then derived by the model (null for the flight). */
  readonly optional?: boolean;
  /** No distribution allowed: a decision or a rule, not something uncertain. */
  readonly fixed?: boolean;
  /** Whole numbers only, as a count of cells. */
  readonly whole?: boolean;
  /** Names of the independent draws in a flight that share this definition, as a draw for each horizontal axis. */
  readonly each?: readonly string[];
  /** Which end of the input is better for the landing; where it is known, the pessimistic row rests on it. */
  readonly better?: 'low' | 'high' | 'middle';
}

export interface Quantity extends Described, QuantityOptions {
  readonly shape: 'quantity';
  readonly dimension: Dimension;
}

/** A probability of an event; given as a number, a percentage, a distribution, or trials and failures. */
export interface Chance extends Described, Practice {
  readonly shape: 'chance';
  /** As for a quantity. */
  readonly standard?: string;
  /** As for a quantity. */
  readonly perfect?: string;
  /** Names of the independent events that share this chance, as an event for each arm. */
  readonly each?: readonly string[];
}

/** Uniform numbers that no file can set, as the attitude at ejection (uniform over all rotations). */
export interface Luck extends Described {
  readonly shape: 'luck';
  readonly each: readonly string[];
}

export interface Choice extends Described {
  readonly shape: 'choice';
  readonly options: Readonly<Record<string, string>>;
  readonly standard?: string;
}

export interface Text extends Described {
  readonly shape: 'text';
  readonly standard?: string;
}

export interface Column {
  readonly name: string;
  readonly dimension: Dimension;
  readonly unit: string;
  readonly least?: string;
  readonly most?: string;
}

/** Rows of numbers with named columns, as an open-circuit voltage table. */
export interface Table extends Described {
  readonly shape: 'table';
  readonly columns: readonly Column[];
  /** True where the first column must rise from row to row. */
  readonly rising: boolean;
  readonly optional: true;
}

/** A list of sections, as keep-out circles. Holds fixed quantities and texts only. */
export interface List extends Described {
  readonly shape: 'list';
  readonly of: Section;
}

export interface Section extends Described {
  readonly shape: 'section';
  readonly entries: Readonly<Record<string, Entry>>;
  /** May be left out altogether (null for the flight), as a parachute that the design does not carry. */
  readonly optional: boolean;
}

export type Entry = Quantity | Chance | Luck | Choice | Text | Table | List | Section;

export function section<const E extends Readonly<Record<string, Entry>>>(doc: string, entries: E) {
  return { shape: 'section', doc, entries, optional: false } as const;
}

export function optionalSection<const E extends Readonly<Record<string, Entry>>>(doc: string, entries: E) {
  return { shape: 'section', doc, entries, optional: true } as const;
}

export function quantity<const O extends QuantityOptions>(dimension: Dimension, doc: string, options: O) {
  return { shape: 'quantity', dimension, doc, ...options } as const;
}

export function chance<
  const O extends Practice & {
    readonly standard?: string;
    readonly perfect?: string;
    readonly each?: readonly string[];
  },
>(doc: string, options: O) {
  return { shape: 'chance', doc, ...options } as const;
}

export function luck<const E extends readonly string[]>(doc: string, each: E) {
  return { shape: 'luck', doc, each } as const;
}

export function choice<const C extends Readonly<Record<string, string>>>(doc: string, options: C, standard?: keyof C) {
  return { shape: 'choice', doc, options, ...(standard === undefined ? {} : { standard: String(standard) }) } as const;
}

export function text(doc: string, standard?: string) {
  return { shape: 'text', doc, ...(standard === undefined ? {} : { standard }) } as const;
}

export function table(doc: string, columns: Table['columns']) {
  return { shape: 'table', doc, columns, rising: true, optional: true } as const;
}

export function list<const S extends Section>(doc: string, of: S) {
  return { shape: 'list', doc, of } as const;
}

/** The value that an entry takes in one flight: SI numbers, true where an event happens, null where left out. */
export type FlightValue<E> = E extends {
  readonly shape: 'section';
  readonly entries: infer F;
  readonly optional: infer O;
}
  ? { -readonly [K in keyof F]: FlightValue<F[K]> } | (O extends true ? null : never)
  : E extends { readonly shape: 'quantity' }
    ?
        | (E extends { readonly each: readonly string[] } ? number[] : number)
        | (E extends { readonly optional: true } ? null : never)
    : E extends { readonly shape: 'chance' }
      ? E extends { readonly each: readonly string[] }
        ? boolean[]
        : boolean
      : E extends { readonly shape: 'luck' }
        ? number[]
        : E extends { readonly shape: 'choice'; readonly options: infer C }
          ? keyof C & string
          : E extends { readonly shape: 'text' }
            ? string
            : E extends { readonly shape: 'table' }
              ? readonly (readonly number[])[] | null
              : E extends { readonly shape: 'list'; readonly of: infer S }
                ? readonly FlightValue<S>[]
                : never;
