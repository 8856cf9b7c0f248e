/** The empty object of one flight's inputs, laid out so that the code which reads it stays fast. */
import { type FlightInputs, SCENARIO } from '../scenario/definition/definition.js';
import type { Entry } from '../scenario/definition/shapes.js';
import type { Scenario } from '../scenario/scenario.js';

/** A section of the inputs, or the list of an entry that has one number or event for each label. */
export type Holder = Record<string | number, unknown>;

/** A number that is not whole: the engine then keeps the field ready for any number, once and for all. */
const ANY_NUMBER = 0.5;

/**
 * Every section, number and event that the scenario has, null for the rest. Read from JSON, because the engine lays
 * out what it parses with its fields in place, and what is put together key by key it may turn into a hash table.
 */
export function layOutInputs(scenario: Scenario): FlightInputs {
  const given = new Set<string>(scenario.inputs.map(({ path }) => path));
  const leftOut = new Set<string>(scenario.leftOut);

  function layOut(entry: Entry, path: string): unknown {
    if (entry.shape === 'section') {
      if (leftOut.has(path)) return null;
      const prefix = path === '' ? '' : `${path}.`;
      return Object.fromEntries(Object.entries(entry.entries).map(([key, one]) => [key, layOut(one, prefix + key)]));
    }
    if (entry.shape === 'luck') return entry.each.map(() => ANY_NUMBER);
    if (!given.has(path) || (entry.shape !== 'quantity' && entry.shape !== 'chance')) return null;
    const start = entry.shape === 'quantity' ? ANY_NUMBER : false;
    return entry.each ? entry.each.map(() => start) : start;
  }

  return JSON.parse(JSON.stringify(layOut(SCENARIO, '')));
}

/** Where one number or event of an entry is kept. */
export interface Cell {
  readonly holder: Holder;
  readonly key: string | number;
  /** What its name has after the path: "[label]", or nothing where the entry has no labels. */
  readonly suffix: string;
}

/** The cells of the entry `key` of a section. */
export function cellsOf(section: Holder, key: string, each: readonly string[] | undefined): readonly Cell[] {
  if (each === undefined) return [{ holder: section, key, suffix: '' }];
  const list = section[key] as Holder;
  return each.map((label, index) => ({ holder: list, key: index, suffix: `[${label}]` }));
}
