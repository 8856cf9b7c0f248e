/** A command on the page repeats what the result holds, from the reader's own copy of the scenario file. */
import type { AssessResult } from '../../../sim/assess/result.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';

/** What names the same flights: seed and changes of the scenario. */
export function sameFlights({ seed, overrides }: Pick<AssessResult, 'seed' | 'overrides'>): readonly string[] {
  return [`--seed ${quoted(seed)}`, ...overrides.map((override) => `--set ${quoted(override)}`)];
}

export function commandLine(command: string, { scenario }: AssessResult, options: readonly string[]): string {
  return ['fallmargin', command, scenarioFile(scenario), ...options].join(' ');
}

/** As a shell takes it for one word. */
export function quoted(word: string): string {
  return /^[A-Za-z0-9_.,:=@%+/-]+$/.test(word) ? word : `'${word.replaceAll("'", `'\\''`)}'`;
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
