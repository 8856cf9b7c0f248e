/** Commands that repeat what a result holds, for the reader's own copy of the scenario file. */
import type { AssessResult } from '../../../sim/assess/result.js';
import { scenarioFile } from './inputs.js';

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
