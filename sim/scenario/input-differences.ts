/** The differences of two scenarios: every entry that changes flights or their verdict, as written in each scenario. */

import { leafPaths } from './definition/leaves.js';
import type { LeafPathName } from './definition/paths.js';
import { inputNamed, settingNamed } from './lookup.js';
import type { ResolvedInput, Scenario, Setting } from './scenario.js';

/** What a scenario says about itself changes no flight. */
const ABOUT_ITSELF: readonly LeafPathName[] = ['title', 'about', 'invented'];

/** In the order of the definition; where a number comes from is no difference, nor is another way to write it. */
export function inputDifferences(a: Scenario, b: Scenario): readonly InputDifference[] {
  const entries = leafPaths().flatMap(({ path }) => {
    const [ofA, ofB] = [entryOf(a, path), entryOf(b, path)];
    return ABOUT_ITSELF.includes(path) || ofA?.meaning === ofB?.meaning
      ? []
      : [{ path, a: ofA?.text ?? null, b: ofB?.text ?? null }];
  });
  const [ofA, ofB] = [correlationsOf(a), correlationsOf(b)];
  return ofA === ofB ? entries : [...entries, { path: 'correlations', a: ofA, b: ofB }];
}

/** What an entry means to a flight, to be held against the other's, and as it is written. */
function entryOf(scenario: Scenario, path: string): { readonly meaning: string; readonly text: string } | null {
  const input = inputNamed(scenario, path);
  if (input !== null) return { meaning: JSON.stringify(input.value), text: inputText(input) };
  const setting = settingNamed(scenario, path);
  if (setting === null) return null;
  return { meaning: JSON.stringify(setting), text: typeof setting === 'string' ? setting : listText(setting) };
}

function inputText({ written, value }: ResolvedInput): string {
  return value.form === 'uncertain' && value.kind === 'fixed but not measured' ? `${written}; not measured` : written;
}

function listText(list: Exclude<Setting, string>): string {
  const rows = list.map((row) =>
    Object.entries(row)
      .map(([name, value]) => (Array.isArray(row) ? String(value) : `${name} ${value}`))
      .join(', '),
  );
  return rows.length === 0 ? 'none' : rows.join('; ');
}

function correlationsOf({ correlations }: Scenario): string | null {
  if (correlations.length === 0) return null;
  return correlations
    .map(({ between, rank }) => `${[...between].sort().join(' with ')}: ${rank}`)
    .sort()
    .join('; ');
}

/** An entry in which two designs differ, as each design says it; null where a design leaves the entry out. */
export interface InputDifference {
  readonly path: string;
  readonly a: string | null;
  readonly b: string | null;
}
