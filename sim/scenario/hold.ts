/** Holds inputs of a scenario at fixed values, such as the weather of a day; everything else stays as it was. */

import type { Correlation } from '../distributions/distribution.js';
import { hashOf } from './hash.js';
import type { Scenario } from './scenario.js';
import { showQuantity } from './units.js';

export interface HeldInput {
  /** Path of a quantity or chance that the scenario has. */
  readonly path: string;
  /** SI. */
  readonly value: number;
}

/**
 * The scenario with the held inputs at their values. Every other input keeps its draws, as its stream goes by its own
 * name. A rank correlation with a held input is dropped (`droppedCorrelations` lists them): its partner is then drawn
 * from its whole distribution, whatever the held value.
 */
export function holdInputs(scenario: Scenario, held: readonly HeldInput[]): Scenario {
  const values = new Map(held.map(({ path, value }) => [path, value]));
  for (const path of values.keys())
    if (!scenario.inputs.some((input) => input.path === path)) throw new Error(`The scenario has no input ${path}.`);
  const dropped = droppedCorrelations(scenario, [...values.keys()]);
  const changed = {
    ...scenario,
    inputs: scenario.inputs.map((input) => {
      const value = values.get(input.path);
      if (value === undefined) return input;
      return {
        ...input,
        value: { form: 'fixed', value } as const,
        source: 'decided' as const,
        note: '',
        written: showQuantity(value, input),
      };
    }),
    correlations: scenario.correlations.filter((correlation) => !dropped.includes(correlation)),
  };
  return { ...changed, hash: hashOf(changed) };
}

/** Rank correlations that a scenario loses when the inputs at `paths` are held. */
export function droppedCorrelations(scenario: Scenario, paths: readonly string[]): readonly Correlation[] {
  return scenario.correlations.filter(({ between }) => between.some((path) => paths.includes(path)));
}
