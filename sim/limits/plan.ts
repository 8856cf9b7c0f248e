/** The plan of a day card says what it would lay out, or why not, before anything is started for it. */

import type { Criterion } from '../decision/criteria.js';
import { type HeightsRequest, heightGrid, pilotStep } from '../decision/height-grid.js';
import { quantileOf } from '../distributions/law.js';
import { studySize } from '../ensemble/study-size.js';
import { fixedInput, inputByPath } from '../scenario/lookup.js';
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

export type PlannedLimits =
  | { readonly status: 'ok'; readonly plan: LimitsPlan }
  | { readonly status: 'refused'; readonly messages: readonly string[] };

export const STANDARD_ROWS = 6;
export const STANDARD_COLUMNS = 5;
/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;
/** The ladder of heights, as shares of the planned height. */
const LOWEST = 0.25;
const HIGHEST = 2;

export function planLimits(scenario: Scenario, options: LimitsOptions, criteria: readonly Criterion[]): PlannedLimits {
  const rows = readAxis(scenario, options.rows, STANDARD_ROWS);
  const columns = readAxis(scenario, options.columns, STANDARD_COLUMNS);
  const heights = ladder(scenario, options.heights);
  const size = studySize(options.flights, HEIGHTS_OF_ONE_CELL);
  const least = Math.max(...criteria.map(({ limit }) => flightsForBound(0, limit) ?? 0));
  const messages = [
    ...(rows.status === 'refused' ? [`--rows: ${rows.message}`] : []),
    ...(columns.status === 'refused' ? [`--columns: ${columns.message}`] : []),
    ...(heights.status === 'refused' ? [heights.message] : []),
    ...(size.status === 'refused' ? size.messages : []),
    ...(options.flights < least
      ? [
          `--flights is ${options.flights}, which cannot show what the criteria demand even if none fails; at least ${least} are needed.`,
        ]
      : []),
  ];
  if (rows.status === 'refused' || columns.status === 'refused' || heights.status === 'refused' || messages.length > 0)
    return { status: 'refused', messages };
  const plan = { rows: rows.input, columns: columns.input, heights: heights.heights };
  if (plan.rows.path === plan.columns.path)
    return { status: 'refused', messages: [`--rows and --columns both name ${plan.rows.path}; name two inputs.`] };
  const ceiling = ceilingOf(scenario, plan);
  const calm = ceiling === null || launchable(plan[ceiling.axis], ceiling.speed).length > 0;
  return calm
    ? { status: 'ok', plan }
    : { status: 'refused', messages: [`--${ceiling.axis}: every wind there is over the launch code's ceiling.`] };
}

/** For the size of a study: about this number of heights is held at once while a cell is sought. */
const HEIGHTS_OF_ONE_CELL = 12;

function ladder(scenario: Scenario, request: HeightsRequest) {
  const planned = fixedInput(scenario, 'plan.throttle_up_height');
  const ejection = inputByPath(scenario, 'ejection.height');
  if (ejection === null) throw new Error('the scenario has no ejection height');
  const ceiling = quantileOf(ejection.value, LOW_EJECTION);
  const step = pilotStep(planned);
  const first = Math.max(1, Math.round((LOWEST * planned) / step));
  const last = Math.floor(Math.min(HIGHEST * planned, ceiling) / step);
  const steps = Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step);
  if (request.kind === 'planned') return heightGrid(request, planned, ceiling);
  const asked = request.kind === 'list' ? request.heights : steps;
  const grid = heightGrid({ kind: 'list', heights: asked }, planned, ceiling);
  return grid.status === 'ok' ? { ...grid, heights: grid.heights.filter((height) => asked.includes(height)) } : grid;
}

export function ceilingOf(scenario: Scenario, { rows, columns }: LimitsPlan): LimitsResult['windCeiling'] {
  const axis = rows.path === WIND ? 'rows' : columns.path === WIND ? 'columns' : null;
  return axis && { axis, speed: fixedInput(scenario, 'site.launch_wind_limit') };
}

/** The values at or under the ceiling; the wind ascends, so they come first. */
export function launchable({ values }: CardAxis, ceiling: number): readonly number[] {
  return values.filter((speed) => speed <= ceiling * (1 + 1e-9));
}
