/** Finding things in a resolved scenario. */
import type { ResolvedInput, Scenario } from './scenario.js';

/** The input of a path such as "can.mass"; null where the scenario leaves it out or there is none. */
export function inputByPath(scenario: Scenario, path: string): ResolvedInput | null {
  return scenario.inputs.find((input) => input.path === path) ?? null;
}

/** A decision or a limit: one number, SI. */
export function fixedInput(scenario: Scenario, path: string): number {
  const value = scenario.inputs.find((input) => input.path === path)?.value;
  if (value?.form !== 'fixed') throw new Error(`${path} is not one fixed value`);
  return value.value;
}
