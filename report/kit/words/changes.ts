/** What the command line changed stands under every headline, beside what the scenario itself says. */
import type { Scenario, ScenarioChange } from '../../../sim/scenario/scenario.js';

/** "Changed on the command line: can.mass 590 g; the scenario says normal, mean 610 g, sd 5 g." Null where nothing was. */
export function changesSentence(changed: readonly ScenarioChange[]): string | null {
  if (changed.length === 0) return null;
  const each = changed.map(({ path, given, inFile }) => `${path} ${given} (the scenario says ${inFile})`);
  return `Changed on the command line: ${each.join('; ')}.`;
}

/** The changes of two designs in one list: a change of both once, a change of one with its letter. */
export function bothChanged(
  { scenario: a }: { readonly scenario: Scenario },
  { scenario: b }: { readonly scenario: Scenario },
): readonly ScenarioChange[] {
  const same = (one: ScenarioChange, other: ScenarioChange) => JSON.stringify(one) === JSON.stringify(other);
  const own = (letter: string, mine: Scenario, others: Scenario) =>
    mine.changed
      .filter((one) => !others.changed.some((other) => same(one, other)))
      .map((one) => ({ ...one, path: `${letter} ${one.path}` }));
  const shared = a.changed.filter((one) => b.changed.some((other) => same(one, other)));
  return [...shared, ...own('A', a, b), ...own('B', b, a)];
}
