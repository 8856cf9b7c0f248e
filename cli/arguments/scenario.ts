import { basename } from 'node:path';
import type { Answer } from '../../sim/basics/answer.js';
import type { Scenario } from '../../sim/scenario/scenario.js';

/** Reads a scenario file with the changes of the command line, or says everything that is wrong with them. */
export async function loadScenario(file: string, overrides: readonly string[]): Promise<Answer<Scenario>> {
  const { readScenario } = await import('../../sim/scenario/file/read.js');
  return readScenario(file, overrides);
}

/** What files about a scenario are called where --out does not say: "burdock" for configs/burdock.yaml. */
export function baseOf(file: string): string {
  return basename(file).replace(/\.[^.]+$/, '') || 'fallmargin';
}
