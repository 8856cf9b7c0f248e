/** The plan of a day card says what it would lay out, or why not, before anything is started for it. */

import { type Answer, ok, prefixed, refused, together } from '../basics/answer.js';
import type { Criterion } from '../decision/criteria.js';
import { ejectionFloor, type HeightsRequest, heightGrid, pilotStep } from '../decision/height-grid.js';
import { studySize } from '../ensemble/study-size.js';
import { fixedInput } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { flightsForBound } from '../statistics/proportion.js';
import { readAxis, WIND } from './axis.js';
import type { CardAxis, LimitsResult } from './result.js';

export interface LimitsOptions {
  readonly seed: string;
  /** Flights at which a height is judged in a cell. */
  readonly flights: number;
  /** A path, or path=value,value; see `readAxis`. */
  readonly rows: string;
  readonly columns: string;
  readonly heights: HeightsRequest;
  /** As given, for the record; they are already in the scenario. */
  readonly overrides: readonly string[];
}

export interface LimitsPlan {
  readonly rows: CardAxis;
  readonly columns: CardAxis;
  readonly heights: readonly number[];
}

export const STANDARD_ROWS = 6;
export const STANDARD_COLUMNS = 5;
/** The ladder of heights, as shares of the planned height. */
const LOWEST = 0.25;
const HIGHEST = 2;

export function planLimits(
  scenario: Scenario,
  options: LimitsOptions,
  criteria: readonly Criterion[],
): Answer<LimitsPlan> {
  const asked = together({
    rows: prefixed('--rows: ', readAxis(scenario, options.rows, STANDARD_ROWS)),
    columns: prefixed('--columns: ', readAxis(scenario, options.columns, STANDARD_COLUMNS)),
    heights: ladder(scenario, options.heights),
    size: studySize(options.flights, HEIGHTS_OF_ONE_CELL),
    flights: enough(options.flights, criteria),
  });
  if (asked.status === 'refused') return asked;
  const { rows, columns, heights } = asked.value;
  if (rows.path === columns.path) return refused(`--rows and --columns both name ${rows.path}; name two inputs.`);
  const plan = { rows, columns, heights };
  const ceiling = ceilingOf(scenario, plan);
  const calm = ceiling === null || launchable(plan[ceiling.axis], ceiling.speed).length > 0;
  return calm ? ok(plan) : refused(`--${ceiling.axis}: every wind there is over the launch code's ceiling.`);
}

function enough(flights: number, criteria: readonly Criterion[]): Answer<number> {
  const least = Math.max(...criteria.map(({ limit }) => flightsForBound(0, limit) ?? 0));
  return flights >= least
    ? ok(flights)
    : refused(
        `--flights is ${flights}, which cannot show what the criteria demand even if none fails; at least ${least} are needed.`,
      );
}

/** For the size of a study: about this number of heights is held at once while a cell is sought. */
const HEIGHTS_OF_ONE_CELL = 12;

function ladder(scenario: Scenario, request: HeightsRequest): Answer<readonly number[]> {
  const planned = fixedInput(scenario, 'plan.throttle_up_height');
  const ceiling = ejectionFloor(scenario);
  const step = pilotStep(planned);
  const first = Math.max(1, Math.round((LOWEST * planned) / step));
  const last = Math.floor(Math.min(HIGHEST * planned, ceiling) / step);
  const steps = Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step);
  if (request.kind === 'planned') return heightGrid(request, planned, ceiling);
  const asked = request.kind === 'list' ? request.heights : steps;
  const grid = heightGrid({ kind: 'list', heights: asked }, planned, ceiling);
  return grid.status === 'ok' ? ok(grid.value.filter((height) => asked.includes(height))) : grid;
}

export function ceilingOf(scenario: Scenario, { rows, columns }: LimitsPlan): LimitsResult['windCeiling'] {
  const axis = rows.path === WIND ? 'rows' : columns.path === WIND ? 'columns' : null;
  return axis && { axis, speed: fixedInput(scenario, 'site.launch_wind_limit') };
}

/** The values at or under the ceiling; the wind ascends, so they come first. */
export function launchable({ values }: CardAxis, ceiling: number): readonly number[] {
  return values.filter((speed) => speed <= ceiling * (1 + 1e-9));
}
