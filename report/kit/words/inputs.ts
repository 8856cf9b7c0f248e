/** A resolved scenario is read here for fixed values and lists, and its inputs get the names that people say. */
import type { SettingPath } from '../../../sim/scenario/definition/paths.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { numberText, withUnit } from './numbers.js';

/** A choice or text of the scenario; the empty text where it has none. */
export function setting(scenario: Scenario, path: SettingPath): string {
  const value = scenario.settings[path];
  return typeof value === 'string' ? value : '';
}

/**
 * "rotors.vortex_ring_depth" as people say it: "vortex ring depth (rotors)"; "pilot.lapse#event" as "lapse (pilot):
 * whether it happens".
 */
export function inputName(path: string): string {
  const { 1: plain, 2: part, 3: label } = /^([^#[]*)(?:#(\w+))?(?:\[(.*)\])?/.exec(path) ?? ['', path];
  const [first, ...rest] = plain.replaceAll('_', ' ').split('.');
  const named = [...rest, ...(label === undefined ? [] : [label])].join(', ');
  const ending = part === 'event' ? ': whether it happens' : part === 'chance' ? ': its chance' : '';
  return `${named === '' ? first : `${named} (${first})`}${ending}`;
}

/** Parameters of a distribution that carry the unit of their input. */
const LIKE_THE_INPUT = ['mean', 'median', 'mode', 'from', 'to', 'scale'];

/** A value of an input, or of a parameter of its distribution, in the unit in which the scenario shows it. */
export function inputValueText(scenario: Scenario, path: string, value: number): string {
  const plain = path.replace(/[#[].*$/, '');
  const dot = plain.lastIndexOf('.');
  const owner = LIKE_THE_INPUT.includes(plain.slice(dot + 1)) ? plain.slice(0, dot) : plain;
  const input = scenario.inputs.find((one) => one.path === plain || one.path === owner);
  return input === undefined ? numberText(value) : withUnit(numberText(value * input.perSi + input.offset), input.unit);
}
