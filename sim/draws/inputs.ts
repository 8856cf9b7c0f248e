/** The inputs of a flight as a nested object, built once for a scenario and rewritten from uniform numbers for each flight. */

import type { UncertainValue } from '../distributions/distribution.js';
import { createLaw, type Law, quantile, settle, unmeasuredParameters } from '../distributions/law.js';
import { type FlightInputs, SCENARIO } from '../scenario/definition/definition.js';
import type { Leaf } from '../scenario/definition/leaves.js';
import type { Chance, Entry, Luck, Quantity, Section } from '../scenario/definition/shapes.js';
import { settingNamed } from '../scenario/lookup.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';

/** A uniform number that a flight draws from a random stream of its own. */
export interface DrawnInput {
  /**
   * Name of the stream: the input's path ("can.mass"), with "[label]" where there is one for each label, with the
   * parameter's name for an unmeasured parameter ("pilot.reaction.median"), with "#event" for whether the event of a
   * chance happens ("pilot.lapse#event", "rotors.dead#event[rotor 1]").
   */
  readonly name: string;
  /** Path of the input or luck it belongs to. */
  readonly path: string;
  readonly part: 'value' | 'parameter' | 'event' | 'luck';
  /** True for a fixed value that nobody has measured: it is the same for all flights of a world. */
  readonly unmeasured: boolean;
}

export interface InputWriter {
  /** Always the same object; `write` changes its numbers and events and nothing else. */
  readonly inputs: FlightInputs;
  readonly drawn: readonly DrawnInput[];
  /** The uniform numbers that `write` turns into inputs, in the order of `drawn`. */
  readonly uniforms: Float64Array;
  write(): void;
}

/**
 * Builds the object with every part that the scenario has, and the list of what a flight draws. All uniform numbers
 * stand at 0.5. `write` makes no object: it goes through steps that were prepared here, one for each drawn input.
 */
export function createInputWriter(scenario: Scenario): InputWriter {
  const given = new Map<string, ResolvedInput>(scenario.inputs.map((input) => [input.path, input]));
  const drawn: DrawnInput[] = [];
  const steps: (() => void)[] = [];
  let uniforms = new Float64Array(0);

  const addPlace = (input: DrawnInput) => drawn.push(input) - 1;

  /** The law of an uncertain value, with a step that sets its unmeasured parameters in each flight. */
  function addLaw(path: string, name: string, value: UncertainValue): Law {
    const law = createLaw(value);
    const parameters = unmeasuredParameters(value.distribution).map((parameter) => {
      const own = `${name}.${parameter.name}`;
      const ownLaw = addLaw(path, own, parameter.value);
      const place = addPlace({ name: own, path, part: 'parameter', unmeasured: true });
      return { index: parameter.index, law: ownLaw, place };
    });
    if (parameters.length > 0)
      steps.push(() => {
        for (const one of parameters) law.parameters[one.index] = quantile(one.law, uniforms[one.place]);
        settle(law);
      });
    return law;
  }

  function addQuantity(target: Holder, key: string, entry: Quantity, { path, value }: ResolvedInput): void {
    const cells = cellsOf(target, key, entry.each);
    if (value.form === 'fixed') {
      for (const cell of cells) cell.holder[cell.key] = value.value;
      return;
    }
    const law = addLaw(path, path, value);
    for (const { holder, key: cellKey, suffix } of cells) {
      const place = addPlace({ name: path + suffix, path, part: 'value', unmeasured: isUnmeasured(value) });
      steps.push(() => {
        holder[cellKey] = quantile(law, uniforms[place]);
      });
    }
  }

  /** An event is a number, 1 with the given chance and else 0: it is 1 where the uniform number is over 1 - chance. */
  function addChance(target: Holder, key: string, entry: Chance, { path, value }: ResolvedInput): void {
    let chance = value.form === 'fixed' ? value.value : 0;
    if (value.form === 'uncertain') {
      const law = addLaw(path, path, value);
      const place = addPlace({ name: path, path, part: 'value', unmeasured: isUnmeasured(value) });
      steps.push(() => {
        chance = quantile(law, uniforms[place]);
      });
    }
    for (const { holder, key: cellKey, suffix } of cellsOf(target, key, entry.each)) {
      const place = addPlace({ name: `${path}#event${suffix}`, path, part: 'event', unmeasured: false });
      steps.push(() => {
        holder[cellKey] = 1 - uniforms[place] < chance;
      });
    }
  }

  function addLuck(target: Holder, key: string, entry: Luck, path: string): void {
    for (const { holder, key: cellKey, suffix } of cellsOf(target, key, entry.each)) {
      const place = addPlace({ name: path + suffix, path, part: 'luck', unmeasured: false });
      steps.push(() => {
        holder[cellKey] = uniforms[place];
      });
    }
  }

  function addLeaf(target: Holder, key: string, entry: Leaf, path: string): void {
    const input = given.get(path);
    if (entry.shape === 'luck') addLuck(target, key, entry, path);
    else if (entry.shape === 'quantity' && input) addQuantity(target, key, entry, input);
    else if (entry.shape === 'chance' && input) addChance(target, key, entry, input);
    else target[key] = settingOf(scenario, entry, path);
  }

  function addSection(target: Holder, section: Section, prefix: string): void {
    for (const [key, entry] of Object.entries(section.entries)) {
      const path = prefix + key;
      if (entry.shape !== 'section') addLeaf(target, key, entry, path);
      else if (target[key] !== null) addSection(target[key] as Holder, entry, `${path}.`);
    }
  }

  const inputs = layOutInputs(scenario);
  addSection(inputs as unknown as Holder, SCENARIO, '');
  uniforms = new Float64Array(drawn.length).fill(0.5);
  return {
    inputs,
    drawn,
    uniforms,
    write() {
      for (const step of steps) step();
    },
  };
}

/** A chance known from trials is a fixed chance that nobody has measured; what varies from flight to flight is the event. */
function isUnmeasured(value: UncertainValue): boolean {
  return value.kind === 'fixed but not measured' || value.distribution.family === 'trials';
}

/** What the scenario holds for an entry that is not drawn; null where an optional one is left out. */
function settingOf(scenario: Scenario, entry: Leaf, path: string): unknown {
  const setting = settingNamed(scenario, path);
  if (setting !== null) return setting;
  if (entry.shape === 'list') return [];
  if (entry.shape === 'table' || (entry.shape === 'quantity' && entry.optional)) return null;
  if (entry.shape === 'text') return entry.standard ?? '';
  if (entry.shape === 'choice' && entry.standard !== undefined) return entry.standard;
  throw new Error(`The resolved scenario has no ${path}.`);
}

/** A section of the inputs, or the list of an entry that has a number or event for each label. */
type Holder = Record<string | number, unknown>;

/** A number that is not whole: the engine then keeps the field ready for any number, once and for all. */
const ANY_NUMBER = 0.5;

/**
 * The empty object: every section, number and event that the scenario has, null for the rest. It is read from JSON, because
 * the engine lays out an object that it parses with its fields in place; an object put together key by key may become a hash
 * table, which is slower to read.
 */
function layOutInputs(scenario: Scenario): FlightInputs {
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

/** The place of a number or event of an entry. */
interface Cell {
  readonly holder: Holder;
  readonly key: string | number;
  /** What its name has after the path: "[label]", or nothing where the entry has no labels. */
  readonly suffix: string;
}

/** The cells of the entry `key` of a section. */
function cellsOf(section: Holder, key: string, each: readonly string[] | undefined): readonly Cell[] {
  if (each === undefined) return [{ holder: section, key, suffix: '' }];
  const list = section[key] as Holder;
  return each.map((label, index) => ({ holder: list, key: index, suffix: `[${label}]` }));
}
