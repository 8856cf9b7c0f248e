/** Inputs and settings of a resolved scenario by their paths. */
import type { DecidedPath, InputPath, SettingPath } from './definition/paths.js';
import type { ResolvedInput, Scenario, Setting } from './scenario.js';

/** The input of a path; null where the scenario leaves it out. */
export function inputByPath(scenario: Scenario, path: InputPath): ResolvedInput | null {
  return inputNamed(scenario, path);
}

/** The input of a path that a person or a file gives; null where the scenario leaves it out or no input has that path. */
export function inputNamed(scenario: Scenario, path: string): ResolvedInput | null {
  return scenario.inputs.find((input) => input.path === path) ?? null;
}

/** A decision or a limit, in SI. Throws where the scenario leaves it out. */
export function fixedInput(scenario: Scenario, path: DecidedPath): number {
  const value = fixedValue(scenario, path);
  if (value === null) throw new Error(`${path} is not one fixed value`);
  return value;
}

/** The value of an input in SI, where it is one fixed value; null where it has a distribution or is left out. */
export function fixedValue(scenario: Scenario, path: InputPath): number | null {
  const value = inputByPath(scenario, path)?.value;
  return value?.form === 'fixed' ? value.value : null;
}

/** The choice, text, table or list of a path; null where the scenario has none. */
export function settingNamed({ settings }: Scenario, path: string): Setting | null {
  return Object.hasOwn(settings, path) ? (settings[path as SettingPath] ?? null) : null;
}

export interface KeepOutCircle {
  readonly name: string;
  readonly east: number;
  readonly north: number;
  readonly radius: number;
  /** Acceptable chance of coming down inside; null where the file names none. */
  readonly chanceInside: number | null;
}

/** The keep-out circles of a scenario, in the order of its file. */
export function keepOutCircles(scenario: Scenario): readonly KeepOutCircle[] {
  const listed = settingNamed(scenario, 'site.keep_out');
  if (!Array.isArray(listed)) return [];
  return listed.map((circle: Readonly<Record<string, string | number>>) => ({
    name: String(circle.name),
    east: Number(circle.east),
    north: Number(circle.north),
    radius: Number(circle.radius),
    chanceInside: circle.chance_inside === undefined ? null : Number(circle.chance_inside),
  }));
}
