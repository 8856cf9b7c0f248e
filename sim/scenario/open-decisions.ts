/** Decisions that a scenario leaves open, and what stands in for them where a flight is to be looked at all the same. */

import { leafPaths } from './definition/leaves.js';
import type { DecidedPath } from './definition/paths.js';
import { DECISIONS } from './definition/starting-values.js';
import { inputNamed } from './lookup.js';
import type { ResolvedInput, Scenario } from './scenario.js';
import { displayUnit, showQuantity } from './units.js';

export interface OpenDecision {
  readonly path: DecidedPath;
  /** What helps to make it. */
  readonly help: string;
}

/** What is still to be decided in a scenario that was read as one that may be open. */
export function openDecisions(scenario: Scenario): readonly OpenDecision[] {
  return Object.entries(DECISIONS).flatMap(([path, help]) =>
    inputNamed(scenario, path) === null ? [{ path: path as DecidedPath, help }] : [],
  );
}

/** The scenario with values in SI where no decision is made yet; they are no plan and go into no result. */
export function withStandIns(scenario: Scenario, values: Readonly<Partial<Record<DecidedPath, number>>>): Scenario {
  const standIns = leafPaths().flatMap(({ path, entry }): readonly ResolvedInput[] => {
    const value = values[path as DecidedPath];
    if (value === undefined || entry.shape !== 'quantity' || inputNamed(scenario, path) !== null) return [];
    const unit = displayUnit(entry.unit, entry.dimension);
    const written = showQuantity(value, unit);
    const fixed = { form: 'fixed', value } as const;
    return [
      { path: path as DecidedPath, shape: 'quantity', value: fixed, source: 'decided', note: '', written, ...unit },
    ];
  });
  return { ...scenario, inputs: [...standIns, ...scenario.inputs] };
}
