/** Reading fixed values and lists out of a resolved scenario. */
import type { Scenario } from '../../sim/scenario/scenario.js';
import { numberText, withUnit } from './numbers.js';

/** A fixed input in SI units; null where the scenario has none or gives a distribution. */
export function fixedInput(scenario: Scenario, path: string): number | null {
  const value = scenario.inputs.find((input) => input.path === path)?.value;
  return value?.form === 'fixed' ? value.value : null;
}

export interface KeepOutCircle {
  readonly name: string;
  readonly east: number;
  readonly north: number;
  readonly radius: number;
}

export function keepOutCircles(scenario: Scenario): readonly KeepOutCircle[] {
  const list = scenario.settings['site.keep_out'];
  if (!Array.isArray(list)) return [];
  return list.map((circle: Readonly<Record<string, string | number>>) => ({
    name: String(circle.name),
    east: Number(circle.east),
    north: Number(circle.north),
    radius: Number(circle.radius),
  }));
}

/** A choice or text of the scenario; the empty text where it has none. */
export function setting(scenario: Scenario, path: string): string {
  const value = scenario.settings[path];
  return typeof value === 'string' ? value : '';
}

/** File name that a reader may give the scenario; the result keeps no path. */
export function scenarioFile(scenario: Scenario): string {
  const slug = scenario.title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 40);
  return `${slug === '' ? 'scenario' : slug}.yaml`;
}

/** "rotors.vortex_ring_depth" as people say it: "vortex ring depth (rotors)". */
export function inputName(path: string): string {
  const [first, ...rest] = path.replaceAll('_', ' ').split('.');
  return rest.length === 0 ? first : `${rest.join(', ')} (${first})`;
}

/** A value of an input in the unit in which the scenario shows it. */
export function inputValueText(scenario: Scenario, path: string, value: number): string {
  const input = scenario.inputs.find((one) => one.path === path);
  return input === undefined ? numberText(value) : withUnit(numberText(value * input.perSi + input.offset), input.unit);
}
