import { type Answer, ok } from '../../sim/basics/answer.js';
import type { DecidedPath } from '../../sim/scenario/definition/paths.js';
import { type Given, givenText } from './command.js';
import { parseRisk } from './numbers.js';

const LIMIT: DecidedPath = 'criteria.ground_impact_risk';

/**
 * All changes to the scenario that the command line asks for, as path=value; the acceptable risk is one of them. What
 * is wrong with a path or a value, the reader of scenarios says.
 */
export function givenOverrides(given: Given): Answer<readonly string[]> {
  const sets = (Array.isArray(given.set) ? given.set : []).map(String);
  const risk = givenText(given, 'acceptable-risk');
  if (risk.status === 'refused') return risk;
  if (risk.value === undefined) return ok(sets);
  const limit = parseRisk(risk.value);
  return limit.status === 'refused' ? limit : ok([...sets, `${LIMIT}=${risk.value.trim()}`]);
}
