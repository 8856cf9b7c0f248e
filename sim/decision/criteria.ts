import type { FlightInputs } from '../scenario/definition/definition.js';
import type { Proportion } from '../statistics/proportion.js';
import { verdictOf } from '../statistics/proportion.js';
import type { Criterion } from './result.js';

/** The scenario's criteria against what was flown at the planned height, ground impact first. */
export function criteriaOf(
  risk: Proportion,
  outsideCircle: Proportion | null,
  criteria: FlightInputs['criteria'],
): readonly Criterion[] {
  const row = (name: string, limit: number, found: Proportion) => ({
    name,
    limit,
    risk: found,
    verdict: verdictOf(found, limit),
  });
  const circle = criteria.recovery_circle;
  return [
    row('ground impact', criteria.ground_impact_risk, risk),
    ...(circle && outsideCircle ? [row('outside the recovery circle', circle.chance_outside, outsideCircle)] : []),
  ];
}
