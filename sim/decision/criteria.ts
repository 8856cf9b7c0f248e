/**
 * What must hold for a plan to be acceptable: the one list that every command judges by. It decides which heights serve, at
 * the planned height, in a search, in a part of a divided study, on the day card and for both designs of a comparison; what
 * is kept of each flight; the warnings; and the exit code.
 *
 * A new criterion is an entry of `CRITERIA`, and its inputs in the scenario's definition.
 */

import { columnOf } from '../ensemble/columns.js';
import { columnsKept, DETAILS, type Detail, seeksCauses, tells } from '../ensemble/flyer.js';
import type { ColumnName, FlightColumns } from '../flight/record.js';
import { isSoft } from '../flight/record.js';
import { fixedInput, inputByPath } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';

export interface Criterion {
  /** Its name in the code; also the code of its warning. */
  readonly id: string;
  /** Its name for people, in every output. */
  readonly name: string;
  /** Largest acceptable chance that a flight breaks it. */
  readonly limit: number;
  /** Columns by which a flight is judged, besides its outcome: they are kept of each flight. */
  readonly needs: readonly ColumnName[];
  /** Whether the flight with this index breaks it. What is not known of a flight counts as broken. */
  readonly breaks: (flown: FlightColumns, flight: number) => boolean;
  /** What is told where the planned height is not shown to keep it; null for ground impact, of which the headline speaks. */
  readonly warning: CriterionWarning | null;
}

export interface CriterionWarning {
  /** What flights that break it do, after "about 3 flights in 100". */
  readonly does: string;
  /** The same after "no flight in 100". */
  readonly did: string;
  /** What could be done about it. */
  readonly advice: string;
}

/** Every criterion that there is, in the order in which they are told, as the scenario demands it: none, one or several. */
const CRITERIA: readonly ((scenario: Scenario) => readonly Criterion[])[] = [
  (scenario) => [groundImpact(fixedInput(scenario, 'criteria.ground_impact_risk'))],
  (scenario) =>
    inputByPath(scenario, 'criteria.recovery_circle.radius') === null
      ? []
      : [
          outsideCircle(
            fixedInput(scenario, 'criteria.recovery_circle.radius'),
            fixedInput(scenario, 'criteria.recovery_circle.chance_outside'),
          ),
        ],
];

/** The criteria of a scenario, ground impact first. */
export function criteriaOf(scenario: Scenario): readonly Criterion[] {
  return CRITERIA.flatMap((demanded) => demanded(scenario));
}

const GROUND_IMPACT = 'ground impact';

/** The flight does not land softly. Every scenario demands it, and all that is said of causes and inputs speaks of it. */
export function groundImpact(limit: number): Criterion {
  return {
    id: GROUND_IMPACT,
    name: 'ground impact',
    limit,
    needs: [],
    breaks: ({ outcome }, flight) => !isSoft(outcome[flight]),
    warning: null,
  };
}

/** Ground impact of a scenario's criteria, for what speaks of it alone. */
export function groundImpactIn(criteria: readonly Criterion[]): Criterion {
  const found = criteria.find(({ id }) => id === GROUND_IMPACT);
  if (found === undefined) throw new Error('Ground impact is not among the criteria.');
  return found;
}

/** The id of the criterion that the map of touchdown points shows too. */
export const OUTSIDE_CIRCLE = 'outside the circle';

/** The flight comes down farther than the radius, in metres, from the planned landing point, or nowhere that is known (NaN). */
export function outsideCircle(radius: number, limit: number): Criterion {
  return {
    id: OUTSIDE_CIRCLE,
    name: 'outside the recovery circle',
    limit,
    needs: ['east', 'north'],
    breaks(flown, flight) {
      const [east, north] = [columnOf(flown, 'east')[flight], columnOf(flown, 'north')[flight]];
      return !(Math.sqrt(east ** 2 + north ** 2) <= radius);
    },
    warning: {
      does: 'come down outside the recovery circle',
      did: 'came down outside the recovery circle',
      advice:
        'Move the landing point or the circle, plan a lower wind, or fly more flights where it is only not shown.',
    },
  };
}

/** The least that must be kept of each flight to judge it by these criteria, and to tell all that `atLeast` tells. */
export function detailFor(criteria: readonly Criterion[], atLeast: Detail = 'outcomes'): Detail {
  const needed = criteria.flatMap(({ needs }) => needs);
  const found = DETAILS.find(
    (detail) =>
      tells(detail, atLeast) &&
      seeksCauses(detail) === seeksCauses(atLeast) &&
      needed.every((name) => columnsKept(detail).includes(name)),
  );
  if (found === undefined) throw new Error(`No detail keeps ${needed.join(', ')}.`);
  return found;
}
