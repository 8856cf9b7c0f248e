/** A resolved scenario to draw from: every input 1, every choice its first option, apart from what a test states. */

import type {
  Correlation,
  Distribution,
  FixedValue,
  Uncertainty,
  UncertainValue,
} from '../../sim/distributions/distribution.js';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import type { InputPath, OptionalSectionPath, SettingPath } from '../../sim/scenario/definition/paths.js';
import type { ResolvedInput, Scenario } from '../../sim/scenario/scenario.js';

export function fixed(value: number): FixedValue {
  return { form: 'fixed', value };
}

export function varies(distribution: Distribution, bounds: readonly (number | null)[] = [null, null]): UncertainValue {
  return uncertain(distribution, 'varies from flight to flight', bounds);
}

export function unmeasured(distribution: Distribution, bounds: readonly (number | null)[] = [null, null]) {
  return uncertain(distribution, 'fixed but not measured', bounds);
}

function uncertain(distribution: Distribution, kind: Uncertainty, [atLeast, atMost]: readonly (number | null)[]) {
  return { form: 'uncertain', distribution, kind, atLeast, atMost } as const;
}

export interface Stated {
  readonly inputs?: Readonly<Partial<Record<InputPath, FixedValue | UncertainValue>>>;
  readonly leftOut?: readonly OptionalSectionPath[];
  readonly correlations?: readonly Correlation[];
}

export function scenarioOf({ inputs: stated = {}, leftOut = [], correlations = [] }: Stated): Scenario {
  const present = leafPaths().filter(({ path }) => !leftOut.some((section) => path.startsWith(`${section}.`)));
  const settings: Partial<Record<SettingPath, string>> = {};
  const inputs: ResolvedInput[] = [];
  for (const { path, entry } of present) {
    if (entry.shape === 'choice') settings[path as SettingPath] = Object.keys(entry.options)[0];
    if (entry.shape === 'text') settings[path as SettingPath] = `text of ${path}`;
    if (entry.shape !== 'quantity' && entry.shape !== 'chance') continue;
    const input = path as InputPath;
    if (entry.shape === 'quantity' && entry.optional && !stated[input]) continue;
    const value = stated[input] ?? fixed(entry.shape === 'chance' ? 0 : 1);
    const rest = { unit: '', perSi: 1, offset: 0, source: 'not said', note: '', written: '' } as const;
    inputs.push({ path: input, shape: entry.shape, value, ...rest });
  }
  return {
    file: 'test.yaml',
    changed: [],
    title: 'Test',
    about: '',
    invented: true,
    inputs,
    settings,
    leftOut,
    correlations,
    hash: '',
  };
}
