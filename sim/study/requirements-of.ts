/** What a scenario demands of a throttle-up height, as the decisions judge it. */
import { groundImpact, outsideCircle, type Requirement } from '../decision/requirement.js';
import { inputByPath } from '../scenario/lookup.js';
import { fixedInput, type Scenario } from '../scenario/scenario.js';
import type { Detail } from './flying/flyer.js';

const CIRCLE = 'criteria.recovery_circle';

/** The criteria of the scenario, ground impact first. */
export function requirementsOf(scenario: Scenario): readonly Requirement[] {
  const impact = groundImpact(fixedInput(scenario, 'criteria.ground_impact_risk'));
  if (inputByPath(scenario, `${CIRCLE}.radius`) === null) return [impact];
  const radius = fixedInput(scenario, `${CIRCLE}.radius`);
  return [impact, outsideCircle(radius, fixedInput(scenario, `${CIRCLE}.chance_outside`))];
}

/** What must be kept of each flight to judge it. */
export function detailFor(requirements: readonly Requirement[]): Detail {
  return requirements.length > 1 ? 'places' : 'outcomes';
}
