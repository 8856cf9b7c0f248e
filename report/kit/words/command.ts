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

/** The scenario's own file as a word of the command line; the result keeps no folder, so the command is for the folder that holds it. */
export function scenarioFile({ file }: Scenario): string {
  return quoted(file.startsWith('-') ? `./${file}` : file);
}
