/**
 * The main study: thousands of descents at the planned throttle-up height and over a curve of heights, on the same
 * draws, put together to one result. It is a pure function of scenario, seed and options; an interrupted study gives
 * the result of the flights flown, which a study of that many flights would give too.
 */

import { jointVerdict } from '../decision/requirement.js';
import type { FlightDraw } from '../draws/draw.js';
import { quantileOf } from '../draws/quantile.js';
import { type FlightColumns, OUTCOMES, type Outcome } from '../flight/record.js';
import { encodeColumn } from '../result/raw.js';
import {
  type AssessResult,
  DRAW_SCHEME,
  type HeightPoint,
  type ListedFlight,
  RESULT_SCHEMA,
} from '../result/result.js';
import type { Scenario } from '../scenario/scenario.js';
import { convergence } from '../statistics/convergence.js';
import { speedHistogram } from '../statistics/histogram.js';
import { flightsToSettle, proportion, verdictOf } from '../statistics/proportion.js';
import { spread } from '../statistics/quantile.js';
import { PROGRAM_VERSION } from '../version.js';
import { causeRows } from './causes.js';
import { columnOf, countOutcome, difference, whereOutcome } from './columns-of.js';
import { criteriaOf } from './criteria.js';
import { parseFlightId } from './flight-id.js';
import type { FlightMaker } from './fly-block.js';
import { flyCurve } from './fly-curve.js';
import type { Flyer } from './flyer.js';
import { footprintOf } from './footprint.js';
import { handCalculation } from './hand-calculation.js';
import { type HeightsRequest, heightGrid } from './height-grid.js';
import { envelopeOf, historyOf, pathOf } from './histories.js';
import { listedFlights } from './listed-flights.js';
import { studySize } from './study-size.js';
import { warningsOf } from './warnings.js';

export interface AssessOptions {
  readonly seed: string;
  readonly flights: number;
  readonly heights: HeightsRequest;
  /** As given, for the record; they are already in the scenario. */
  readonly overrides: readonly string[];
}

export interface AssessHooks {
  /** Hears how many flights of how many are flown. */
  readonly onProgress?: (flown: number, total: number) => void;
  /** Ends the flying early; what was flown is kept and the result is marked partial. */
  readonly stop?: AbortSignal;
}

/** What flies: batches through the flyer, single flights in full through the maker, on the same draws. */
export interface AssessMeans {
  readonly flyer: Flyer;
  readonly maker: FlightMaker;
  /** Every input at its median, no event, no gusts. */
  readonly nominal: FlightDraw;
}

export type Assessment =
  | { readonly status: 'ok'; readonly result: AssessResult }
  | { readonly status: 'refused'; readonly message: string }
  /** Stopped before a single flight was flown. */
  | { readonly status: 'nothing flown' };

export interface AssessPlan {
  readonly heights: readonly number[];
  readonly plannedHeight: number;
}

export type PlannedStudy =
  | { readonly status: 'ok'; readonly plan: AssessPlan }
  | { readonly status: 'refused'; readonly message: string };

/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;
/** Flights flown again in full for the envelope over time. */
const ENVELOPE_FLIGHTS = 300;

/** What would be flown, or why not; cheap, so that a study is refused before anything is started for it. */
export function planAssess(scenario: Scenario, options: AssessOptions): PlannedStudy {
  const plannedHeight = fixedInput(scenario, 'plan.throttle_up_height');
  const ejection = scenario.inputs.find(({ path }) => path === 'ejection.height');
  if (!ejection) throw new Error('the scenario has no ejection height');
  const grid = heightGrid(options.heights, plannedHeight, quantileOf(ejection.value, LOW_EJECTION));
  if (grid.status === 'refused') return grid;
  const size = studySize(options.flights, grid.heights.length);
  return size.status === 'refused' ? size : { status: 'ok', plan: { heights: grid.heights, plannedHeight } };
}

export async function assess(
  scenario: Scenario,
  options: AssessOptions,
  means: AssessMeans,
  hooks: AssessHooks = {},
): Promise<Assessment> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  const { heights, plannedHeight } = planned.plan;
  let flown = 0;
  const curve = await flyCurve(
    {
      flights: options.flights,
      heights,
      plannedHeight,
      acceptableRisk: fixedInput(scenario, 'criteria.ground_impact_risk'),
    },
    means.flyer,
    (flights) => {
      flown += flights;
      hooks.onProgress?.(flown, options.flights);
    },
    hooks.stop,
  );
  const atPlanned = curve[heights.indexOf(plannedHeight)];
  if (atPlanned.outcome.length === 0) return { status: 'nothing flown' };
  return { status: 'ok', result: resultOf(scenario, options, means, curve, atPlanned) };
}

function resultOf(
  scenario: Scenario,
  options: AssessOptions,
  means: AssessMeans,
  curve: readonly FlightColumns[],
  flown: FlightColumns,
): AssessResult {
  const { criteria, site } = means.nominal.inputs;
  const flights = flown.outcome.length;
  const acceptableRisk = criteria.ground_impact_risk;
  const risk = groundImpact(flown);
  const verdict = verdictOf(risk, acceptableRisk);
  const points = curve.map((columns) => heightPoint(columns, acceptableRisk));
  const footprint = footprintOf(flown, criteria, site.keep_out);
  const rows = criteriaOf(risk, footprint.outsideCircle, criteria);
  const settle = flightsToSettle(risk, acceptableRisk);
  const notSoft = (values: ArrayLike<number>) => whereOutcome(flown, values, (outcome) => outcome !== SOFT);
  const column = (name: Parameters<typeof columnOf>[1]) => columnOf(flown, name);
  const listed = listedFlights(flown);
  const partial = flights < options.flights;
  const arrested = column('arrest_time').reduce((count, time) => (Number.isNaN(time) ? count : count + 1), 0);
  const hand = handCalculation(scenario, means.nominal, means.maker.model);

  return {
    kind: 'assess',
    versions: {
      program: PROGRAM_VERSION,
      resultSchema: RESULT_SCHEMA,
      drawScheme: DRAW_SCHEME,
      node: process.versions.node,
    },
    scenario,
    overrides: options.overrides,
    seed: options.seed,
    flights,
    partial,
    acceptableRisk,
    plannedHeight: flown.height,
    verdict,
    risk,
    criteria: rows,
    overall: jointVerdict(rows.map((row) => row.verdict)),
    flightsToSettle: settle,
    outcomes: outcomeCounts(flown),
    curve: points,
    causes: causeRows(flown),
    touchdownSpeed: spread(column('touchdown_speed')),
    touchdownSpeedNotSoft: spread(notSoft(column('touchdown_speed'))),
    verticalSpeed: spread(column('vertical_speed')),
    energyNotSoft: spread(notSoft(column('energy'))),
    arrested: proportion(arrested, flights),
    orderTime: spread(column('order_time')),
    orderHeight: spread(column('order_height')),
    cueHeight: spread(column('cue_height')),
    stoppingHeight: spread(difference(flown, 'order_height', 'arrest_height')),
    speedAtOrder: spread(column('speed_at_order')),
    uprightDelay: spread(difference(flown, 'upright_time', 'running_time')),
    arrestHeight: spread(column('arrest_height')),
    lowestVoltage: spread(column('lowest_voltage')),
    energyLeft: spread(column('energy_left')),
    envelope: envelopeOf(pathsOf(means, flown)),
    histories: historiesOf(means, listed),
    listed,
    footprint,
    convergence: convergence(flown.outcome),
    hand,
    warnings: warningsOf({
      scenario,
      inputs: means.nominal.inputs,
      flights,
      partial,
      risk,
      verdict,
      flightsToSettle: settle,
      numerical: countOutcome(flown, (outcome) => OUTCOMES[outcome] === 'numerical'),
      curve: points,
      criteria: rows,
      keepOut: footprint.keepOut,
    }),
    raw: rawColumns(curve, flown),
  };
}

const SOFT = OUTCOMES.indexOf('soft');

function fixedInput(scenario: Scenario, path: string): number {
  const value = scenario.inputs.find((input) => input.path === path)?.value;
  if (value?.form !== 'fixed') throw new Error(`${path} is not one fixed value`);
  return value.value;
}

function groundImpact(flown: FlightColumns) {
  return proportion(
    countOutcome(flown, (outcome) => outcome !== SOFT),
    flown.outcome.length,
  );
}

function outcomeCounts(flown: FlightColumns): Readonly<Record<Outcome, number>> {
  const count = (name: Outcome) => countOutcome(flown, (outcome) => OUTCOMES[outcome] === name);
  return { soft: count('soft'), hard: count('hard'), crash: count('crash'), numerical: count('numerical') };
}

function heightPoint(flown: FlightColumns, acceptableRisk: number): HeightPoint {
  const risk = groundImpact(flown);
  return {
    height: flown.height,
    outcomes: outcomeCounts(flown),
    risk,
    verdict: verdictOf(risk, acceptableRisk),
    speeds: speedHistogram(flown.outcome, columnOf(flown, 'touchdown_speed')),
  };
}

/** The first flights at the planned height again, in full. */
function pathsOf({ maker }: AssessMeans, flown: FlightColumns) {
  return Array.from({ length: Math.min(ENVELOPE_FLIGHTS, flown.outcome.length) }, (_, id) =>
    pathOf(maker.model.trace(maker.drawer.draw('explore', id), flown.height)),
  );
}

function historiesOf({ maker }: AssessMeans, listed: readonly ListedFlight[]) {
  const ascending = listed.toSorted((a, b) => flightNumber(a) - flightNumber(b));
  const traced = new Map(
    ascending.map((flight) => {
      const { set, flight: id, height } = nameOf(flight);
      return [flight.id, historyOf(maker.model.trace(maker.drawer.draw(set, id), height), flight)];
    }),
  );
  return listed.flatMap(({ id }) => traced.get(id) ?? []);
}

function nameOf({ id }: ListedFlight) {
  const name = parseFlightId(id, 1);
  if (!name) throw new Error(`${id} names no flight`);
  return name;
}

function flightNumber(listed: ListedFlight): number {
  return nameOf(listed).flight;
}

function rawColumns(curve: readonly FlightColumns[], flown: FlightColumns): AssessResult['raw'] {
  const columns = Object.entries(flown.columns).map(([name, values]) => [name, encodeColumn(values)]);
  return {
    planned: {
      outcome: encodeColumn(flown.outcome),
      cause: encodeColumn(flown.cause),
      columns: Object.fromEntries(columns),
    },
    curve: curve.map((point) => ({
      height: point.height,
      flights: point.outcome.length,
      outcome: encodeColumn(point.outcome),
      touchdownSpeed: encodeColumn(columnOf(point, 'touchdown_speed')),
    })),
  };
}
