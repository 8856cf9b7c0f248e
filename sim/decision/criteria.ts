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
import { fixedInput, inputByPath, type KeepOutCircle, keepOutCircles } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import type { CriterionFigure } from './result.js';

export interface Criterion {
  /** Its name in the code; also the code of its warning, where that has none of its own. */
  readonly id: string;
  /** Its name for people, in every output. */
  readonly name: string;
  /** Largest acceptable chance that a flight breaks it. */
  readonly limit: number;
  /** True where the file gives no limit and the program's own stands. */
  readonly assumed?: true;
  /** Columns by which a flight is judged, besides its outcome: they are kept of each flight. */
  readonly needs: readonly ColumnName[];
  /** Whether the flight with this index breaks it. What is not known of a flight counts as broken. */
  readonly breaks: (flown: FlightColumns, flight: number) => boolean;
  /** What is told where the planned height is not shown to keep it; null for ground impact, of which the headline speaks. */
  readonly warning: CriterionWarning | null;
}

export interface CriterionWarning {
  /** The code of the warning, where it is not the id. */
  readonly code?: string;
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
  (scenario) => keepOutCircles(scenario).map(insideKeepOut),
  (scenario) =>
    inputByPath(scenario, 'criteria.touchdown_energy.most') === null
      ? []
      : [
          touchdownEnergy(
            fixedInput(scenario, 'criteria.touchdown_energy.most'),
            fixedInput(scenario, 'criteria.touchdown_energy.chance_over'),
          ),
        ],
];

/** A criterion as it is named in results. */
export function named({ name, limit, assumed }: Criterion): Pick<CriterionFigure, 'name' | 'limit' | 'assumed'> {
  return { name, limit, ...(assumed === undefined ? {} : { assumed }) };
}

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

/**
 * Acceptable chance of coming down inside a keep-out circle where the file names none. The program's own: a round number
 * that 2000 flights of which none comes down inside can show (0.15 %), and no more than that.
 */
export const CHANCE_INSIDE = 0.002;

/** Whether a place is inside; so is a place that is not known (NaN). */
export function isInside({ east, north, radius }: KeepOutCircle, atEast: number, atNorth: number): boolean {
  return !(Math.sqrt((atEast - east) ** 2 + (atNorth - north) ** 2) > radius);
}

/** The code of the warnings of keep-out circles; the id of each begins with it. */
export const KEEP_OUT = 'keep-out';

/** The flight comes down inside the circle, softly or not, or nowhere that is known. Circles of one name are numbered. */
function insideKeepOut(circle: KeepOutCircle, index: number, all: readonly Pick<KeepOutCircle, 'name'>[]): Criterion {
  const namesakes = all.filter(({ name }) => name === circle.name).length;
  const number = all.slice(0, index + 1).filter(({ name }) => name === circle.name).length;
  const name = `inside the keep-out circle "${circle.name}"${namesakes > 1 ? ` (${number})` : ''}`;
  return {
    id: `${KEEP_OUT} ${index + 1}`,
    name,
    limit: circle.chanceInside ?? CHANCE_INSIDE,
    ...(circle.chanceInside === null ? { assumed: true } : {}),
    needs: ['east', 'north'],
    breaks: (flown, flight) => isInside(circle, columnOf(flown, 'east')[flight], columnOf(flown, 'north')[flight]),
    warning: {
      code: KEEP_OUT,
      does: `come down ${name}`,
      did: `came down ${name}`,
      advice: 'Move the people or the landing point, and show the range safety officer this figure.',
    },
  };
}

/** The flight touches down with more than this energy, in joules, or with an energy that is not known (NaN). */
export function touchdownEnergy(most: number, limit: number): Criterion {
  const joules = `${Number(most.toPrecision(6))} J`;
  return {
    id: 'touchdown energy',
    name: `touchdown with more than ${joules}`,
    limit,
    needs: ['energy'],
    breaks: (flown, flight) => !(columnOf(flown, 'energy')[flight] <= most),
    warning: {
      does: `touch down with more than ${joules}`,
      did: `touched down with more than ${joules}`,
      advice: 'Make it lighter or land it more slowly; where it is only not shown, fly more flights.',
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
