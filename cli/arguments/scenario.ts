/** The scenario that a command line asks for: its file, the changes to it, and the name of what is written about it. */
import { basename } from 'node:path';
import { type Answer, ok } from '../../sim/basics/answer.js';
import type { DecidedPath } from '../../sim/scenario/definition/paths.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { type Given, givenText } from './command.js';
import { parseRisk } from './values.js';

const LIMIT: DecidedPath = 'criteria.ground_impact_risk';

/**
 * All changes to the scenario that the command line asks for, as path=value; the acceptable risk is among them.
 * The reader of scenarios says what is wrong with a path or a value.
 */
export function givenOverrides(given: Given): Answer<readonly string[]> {
  const sets = (Array.isArray(given.set) ? given.set : []).map(String);
  const risk = givenText(given, 'acceptable-risk');
  if (risk.status === 'refused') return risk;
  if (risk.value === undefined) return ok(sets);
  const limit = parseRisk(risk.value);
  return limit.status === 'refused' ? limit : ok([...sets, `${LIMIT}=${risk.value.trim()}`]);
}

/** Reads a scenario file with the changes of the command line, or says everything that is wrong with them. */
export async function loadScenario(file: string, overrides: readonly string[]): Promise<Answer<Scenario>> {
  const { readScenario } = await import('../../sim/scenario/file/read.js');
  return readScenario(file, overrides);
}

/** What files about a scenario are called where --out does not say: "burdock" for configs/burdock.yaml. */
export function baseOf(file: string): string {
  return basename(file).replace(/\.[^.]+$/, '') || 'fallmargin';
}
