/** Puts what was flown together to the one result that every output is a view of. */
import { jointVerdict } from '../../decision/requirement.js';
import { isAssured, WORLDS } from '../../decision/worlds.js';
import type { FlightDraw } from '../../draws/draw.js';
import type { Drawer } from '../../draws/drawer.js';
import { type FlightColumns, failureFlags, isSoft, OUTCOMES, type Outcome } from '../../flight/record.js';
import type { AssuranceResult, Decisions, StoppingNote, WorldsResult } from '../../result/decisions.js';
import { encodedOnReading } from '../../result/raw.js';
import type { AssessResult, HeightPoint, ListedFlight, Verdict } from '../../result/result.js';
import type { Scenario } from '../../scenario/scenario.js';
import { convergence } from '../../statistics/convergence.js';
import { speedHistogram } from '../../statistics/histogram.js';
import { flightsToSettle, proportion, verdictOf } from '../../statistics/proportion.js';
import { spread } from '../../statistics/quantile.js';
import { presentVersions } from '../../version.js';
import { criteriaOf } from '../criteria.js';
import { columnOf, countOutcome, difference, whereOutcome } from '../flying/columns-of.js';
import { parseFlightId } from '../flying/flight-id.js';
import type { FlightMaker } from '../flying/fly-block.js';
import type { Flyer } from '../flying/flyer.js';
import { handCalculation } from '../hand/hand-calculation.js';
import type { Phase } from '../study-progress.js';
import { warningsOf } from '../warnings/warnings.js';
import { causeRows } from './causes.js';
import { footprintOf } from './footprint.js';
import { envelopeOf, historyOf, pathOf } from './histories.js';
import { listedFlights } from './listed-flights.js';
import type { AssessOptions } from './plan-assess.js';
import { hasUnmeasured } from './worlds-at.js';

/** What flies: batches through the flyer, single flights in full through the maker, on the same draws. */
export interface AssessMeans {
  readonly flyer: Flyer;
  readonly maker: FlightMaker;
  /** The same draws with the uniform numbers behind them, for the questions asked of the inputs. */
  readonly drawer: Drawer;
  /** Every input at its median, no event, no gusts. */
  readonly nominal: FlightDraw;
}

/** Flights flown again in full for the envelope over time. */
const ENVELOPE_FLIGHTS = 300;

/** What was flown, and what it was flown for. */
export interface AssessedStudy {
  readonly scenario: Scenario;
  readonly options: AssessOptions;
  readonly means: AssessMeans;
  /** One for each height, ascending. */
  readonly curve: readonly FlightColumns[];
  /** The planned height in full and with causes. */
  readonly planned: FlightColumns;
  readonly decisions: Decisions;
  /** How `until` stopped; undefined where it was not asked for. */
  readonly stopping: StoppingNote | null | undefined;
  /** The worlds at the planned height; undefined where no assurance was asked for. */
  readonly assured: WorldsResult | null | undefined;
  /** The phase in which it was stopped from outside. */
  readonly interrupted: Phase | null;
}

export function resultOf(study: AssessedStudy): AssessResult {
  const { scenario, options, means, curve, planned: flown, interrupted } = study;
  const { criteria, site } = means.nominal.inputs;
  const flights = flown.outcome.length;
  const acceptableRisk = criteria.ground_impact_risk;
  const risk = groundImpact(flown);
  const verdict = verdictOf(risk, acceptableRisk);
  const points = curve.map((columns) => heightPoint(columns, acceptableRisk, flights));
  const footprint = footprintOf(flown, criteria, site.keep_out);
  const rows = criteriaOf(risk, footprint.outsideCircle, criteria);
  const settle = flightsToSettle(risk, acceptableRisk);
  const notSoft = (values: ArrayLike<number>) => whereOutcome(flown, values, (outcome) => !isSoft(outcome));
  const column = (name: Parameters<typeof columnOf>[1]) => columnOf(flown, name);
  const listed = listedFlights(flown);
  const overall = jointVerdict(rows.map((row) => row.verdict));
  const arrested = column('arrest_time').reduce((count, time) => (Number.isNaN(time) ? count : count + 1), 0);
  const hand = handCalculation(scenario, means.nominal, means.maker.model);
  const assurance = assuranceOf(study, overall);
  const decisions: Decisions = {
    ...study.decisions,
    ...(study.stopping === undefined ? {} : { stopping: study.stopping }),
    ...(assurance === undefined ? {} : { assurance }),
  };

  return {
    kind: 'assess',
    versions: presentVersions(),
    scenario,
    overrides: options.overrides,
    seed: options.seed,
    ...(options.date === undefined ? {} : { date: options.date }),
    flights,
    partial: interrupted !== null,
    acceptableRisk,
    plannedHeight: flown.height,
    verdict,
    risk,
    criteria: rows,
    overall,
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
    convergence: convergence(failureFlags(flown.outcome)),
    hand,
    ...decisions,
    warnings: warningsOf({
      scenario,
      inputs: means.nominal.inputs,
      flights,
      interrupted,
      risk,
      verdict,
      flightsToSettle: settle,
      numerical: countOutcome(flown, (outcome) => OUTCOMES[outcome] === 'numerical'),
      curve: points,
      criteria: rows,
      keepOut: footprint.keepOut,
      decisions,
    }),
    raw: rawColumns(curve, flown),
  };
}

/** Null while the worlds are not all flown; undefined where nothing was demanded. */
function assuranceOf(
  { options, means, assured, interrupted }: AssessedStudy,
  overall: Verdict,
): AssuranceResult | null | undefined {
  const { assurance: demanded } = options;
  if (demanded === undefined || assured === undefined) return undefined;
  if (!hasUnmeasured(means.drawer)) return { demanded, worlds: null, met: overall === 'within' };
  if (interrupted !== null && assured?.worlds !== WORLDS) return null;
  return { demanded, worlds: assured, met: isAssured(overall, assured, demanded) };
}

function groundImpact(flown: FlightColumns) {
  return proportion(
    countOutcome(flown, (outcome) => !isSoft(outcome)),
    flown.outcome.length,
  );
}

function outcomeCounts(flown: FlightColumns): Readonly<Record<Outcome, number>> {
  const count = (name: Outcome) => countOutcome(flown, (outcome) => OUTCOMES[outcome] === name);
  return { soft: count('soft'), hard: count('hard'), crash: count('crash'), numerical: count('numerical') };
}

/** Acceptance is judged only with all flights: with fewer a height that looks within is not shown. */
function heightPoint(flown: FlightColumns, acceptableRisk: number, flights: number): HeightPoint {
  const risk = groundImpact(flown);
  const found = verdictOf(risk, acceptableRisk);
  return {
    height: flown.height,
    outcomes: outcomeCounts(flown),
    risk,
    verdict: found === 'within' && risk.flights < flights ? 'not shown' : found,
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

function rawColumns(curve: readonly FlightColumns[], { outcome, cause, columns }: FlightColumns): AssessResult['raw'] {
  return {
    planned: encodedOnReading({
      outcome,
      cause,
      columns: encodedOnReading(columns as Readonly<Record<string, Float32Array>>),
    }),
    curve: curve.map((point) =>
      encodedOnReading({
        height: point.height,
        flights: point.outcome.length,
        outcome: point.outcome,
        touchdownSpeed: columnOf(point, 'touchdown_speed'),
      }),
    ),
  };
}
