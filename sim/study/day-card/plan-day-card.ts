/** What a day card would lay out, or why not; known before anything is started for it. */
import { quantileOf } from '../../draws/quantile.js';
import type { DayCardResult, DayInput } from '../../result/day-card.js';
import { inputByPath } from '../../scenario/lookup.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import { flightsForBound } from '../../statistics/proportion.js';
import { type HeightsRequest, heightGrid, pilotStep } from '../assess/height-grid.js';
import { requirementsOf } from '../requirements-of.js';
import { studySize } from '../study-size.js';
import { readDayInput, WIND } from './day-input.js';

export interface DayCardOptions {
  readonly seed: string;
  /** Flights at which a height is judged in a cell. */
  readonly flights: number;
  /** A path, or path=value,value; see `readDayInput`. */
  readonly rows: string;
  readonly columns: string;
  readonly heights: HeightsRequest;
  /** As given, for the record; they are already in the scenario. */
  readonly overrides: readonly string[];
}

export interface DayCardPlan {
  readonly rows: DayInput;
  readonly columns: DayInput;
  readonly heights: readonly number[];
}

export type PlannedDayCard =
  | { readonly status: 'ok'; readonly plan: DayCardPlan }
  | { readonly status: 'refused'; readonly messages: readonly string[] };

export const STANDARD_ROWS = 6;
export const STANDARD_COLUMNS = 5;
/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;
/** The ladder of heights, as shares of the planned one. */
const LOWEST = 0.25;
const HIGHEST = 2;

export function planDayCard(scenario: Scenario, options: DayCardOptions): PlannedDayCard {
  const rows = readDayInput(scenario, options.rows, STANDARD_ROWS);
  const columns = readDayInput(scenario, options.columns, STANDARD_COLUMNS);
  const heights = ladder(scenario, options.heights);
  const size = studySize(options.flights, HEIGHTS_OF_ONE_CELL);
  const least = Math.max(...requirementsOf(scenario).map(({ limit }) => flightsForBound(0, limit) ?? 0));
  const messages = [
    ...(rows.status === 'refused' ? [`--rows: ${rows.message}`] : []),
    ...(columns.status === 'refused' ? [`--columns: ${columns.message}`] : []),
    ...(heights.status === 'refused' ? [heights.message] : []),
    ...(size.status === 'refused' ? [size.message] : []),
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

/** For the size of a study: about so many heights are held at once while a cell is sought. */
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

export function ceilingOf(scenario: Scenario, { rows, columns }: DayCardPlan): DayCardResult['windCeiling'] {
  const axis = rows.path === WIND ? 'rows' : columns.path === WIND ? 'columns' : null;
  return axis && { axis, speed: fixedInput(scenario, 'site.launch_wind_limit') };
}

/** The values at or under the ceiling; the wind ascends, so they come first. */
export function launchable({ values }: DayInput, ceiling: number): readonly number[] {
  return values.filter((speed) => speed <= ceiling * (1 + 1e-9));
}
