import { basename } from 'node:path';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { ok, type Parsed, refused } from './parsed.js';

/** Reads a scenario file with the changes of the command line, or says everything that is wrong with them. */
export async function loadScenario(file: string, overrides: readonly string[]): Promise<Parsed<Scenario>> {
  const { describeProblem, readScenario } = await import('../../sim/scenario/file/read.js');
  const read = readScenario(file, overrides);
  return read.status === 'ok' ? ok(read.scenario) : refused(...read.problems.map(describeProblem));
}

/** What files about a scenario are called where --out does not say: "burdock" for configs/burdock.yaml. */
export function baseOf(file: string): string {
  return basename(file).replace(/\.[^.]+$/, '') || 'fallmargin';
}
