/** Puts what was flown together to the one result that every output is a view of. */

import { presentVersions } from '../basics/versions.js';
import { handCalculation } from '../check/hand-calculation.js';
import { type Criterion, groundImpactIn, OUTSIDE_CIRCLE } from '../decision/criteria.js';
import { groundImpactAt, heightFigure, riskOf, tally, verdictAt } from '../decision/judge.js';
import type { HeightFigure } from '../decision/result.js';
import type { FlightDraw } from '../draws/draw.js';
import type { Drawer } from '../draws/drawer.js';
import { columnOf, countOutcome, difference, whereOutcome } from '../ensemble/columns.js';
import { parseFlightId } from '../ensemble/flight-id.js';
import type { FlightMaker } from '../ensemble/fly-block.js';
import type { Flyer } from '../ensemble/flyer.js';
import { encodedOnReading } from '../ensemble/raw-columns.js';
import { type ColumnName, type FlightColumns, isSoft, OUTCOMES, type Outcome } from '../flight/record.js';
import { keepOutCircles } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { convergence } from '../statistics/convergence.js';
import { speedHistogram } from '../statistics/histogram.js';
import type { Verdict } from '../statistics/proportion.js';
import { flightsToSettle, proportion } from '../statistics/proportion.js';
import { spread } from '../statistics/quantile.js';
import { envelopeOf, historyOf, pathOf } from '../trace/histories.js';
import type { ListedFlight } from '../trace/result.js';
import { causeRows } from './causes.js';
import type { AssuranceResult, Decisions, StoppingNote, WorldsResult } from './decisions.js';
import { doubtOf } from './doubt.js';
import { footprintOf } from './footprint.js';
import { listedFlights } from './listed-flights.js';
import type { AssessOptions } from './plan.js';
import type { Phase } from './progress.js';
import type { AssessResult, HeightPoint } from './result.js';
import { exactGuessesOf } from './warnings/chances.js';
import { warningsOf } from './warnings/warnings.js';
import { isAssured, WORLDS } from './worlds.js';
import { hasUnmeasured } from './worlds-at.js';

/** What flies and what judges: batches through the flyer, single flights in full through the maker, on the same draws. */
export interface AssessMeans {
  readonly flyer: Flyer;
  readonly maker: FlightMaker;
  /** The same draws with the uniform numbers behind them, for the questions asked of the inputs. */
  readonly drawer: Drawer;
  /** Every input at its median, no event, no gusts. */
  readonly nominal: FlightDraw;
  /** What must hold. */
  readonly criteria: readonly Criterion[];
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
  const { criteria } = means;
  const { inputs } = means.nominal;
  const flights = flown.outcome.length;
  const judged = heightFigure(tally(flown, criteria), criteria, 'explore', flights);
  const groundImpact = groundImpactAt(judged, criteria);
  const { risk, limit: acceptableRisk, verdict } = groundImpact;
  const points = curve.map((columns) => heightPoint(columns, study));
  const footprint = footprintOf(flown, recoveryCircle(study, judged), keepOutCircles(scenario));
  const settle = flightsToSettle(risk, acceptableRisk);
  const notSoft = (values: ArrayLike<number>) => whereOutcome(flown, values, (outcome) => !isSoft(outcome));
  const column = (name: Parameters<typeof columnOf>[1]) => columnOf(flown, name);
  const listed = listedFlights(flown);
  const arrested = column('arrest_time').reduce((count, time) => (Number.isNaN(time) ? count : count + 1), 0);
  const hand = handCalculation(scenario, means.nominal, means.maker.model);
  const causes = causeRows(flown);
  const assurance = assuranceOf(study, judged.verdict, exactGuessesOf(scenario, causes) !== null);
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
    criteria: judged.criteria,
    overall: judged.verdict,
    doubt: doubtOf({
      scenario,
      overall: judged.verdict,
      groundImpact: verdict,
      worlds: decisions.worlds ?? decisions.assurance?.worlds ?? null,
      hasUnmeasured: hasUnmeasured(means.drawer),
    }),
    flightsToSettle: settle,
    outcomes: outcomeCounts(flown),
    curve: points,
    causes,
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
    ...decisions,
    warnings: warningsOf({
      scenario,
      inputs,
      flights,
      interrupted,
      groundImpact,
      flightsToSettle: settle,
      numerical: countOutcome(flown, (outcome) => OUTCOMES[outcome] === 'numerical'),
      curve: points,
      causes,
      judged: criteria.map((criterion, index) => ({ criterion, found: judged.criteria[index] })),
      keepOut: footprint.keepOut,
      decisions,
    }),
    raw: rawColumns(curve, flown),
  };
}

/**
 * Null while the worlds are not all flown; undefined where nothing was demanded.
 *
 * @param exact whether failures come from guesses taken as exact: then one world alone assures of nothing
 */
function assuranceOf(
  { options, means, assured, interrupted }: AssessedStudy,
  overall: Verdict,
  exact: boolean,
): AssuranceResult | null | undefined {
  const { assurance: demanded } = options;
  if (demanded === undefined || assured === undefined) return undefined;
  if (!hasUnmeasured(means.drawer)) return { demanded, worlds: null, met: overall === 'within' && !exact };
  if (interrupted !== null && assured?.worlds !== WORLDS) return null;
  return { demanded, worlds: assured, met: isAssured(overall, assured, demanded) };
}

/** The circle of the map, with the chance that the criterion found. */
function recoveryCircle({ means: { criteria, nominal } }: AssessedStudy, judged: HeightFigure) {
  const circle = nominal.inputs.criteria.recovery_circle;
  const found = judged.criteria[criteria.findIndex(({ id }) => id === OUTSIDE_CIRCLE)];
  return circle && found ? { radius: circle.radius, outside: found.risk } : null;
}

function outcomeCounts(flown: FlightColumns): Readonly<Record<Outcome, number>> {
  const count = (name: Outcome) => countOutcome(flown, (outcome) => OUTCOMES[outcome] === name);
  return { soft: count('soft'), hard: count('hard'), crash: count('crash'), numerical: count('numerical') };
}

/** The one verdict on a height: that of the search where there was one, else by all criteria on the flights flown. */
function heightPoint(flown: FlightColumns, { means: { criteria }, decisions, planned }: AssessedStudy): HeightPoint {
  const searched = flown.height === planned.height ? null : verdictAt(decisions.heightDecision ?? null, flown.height);
  return {
    height: flown.height,
    outcomes: outcomeCounts(flown),
    risk: riskOf(groundImpactIn(criteria), flown),
    verdict: searched ?? heightFigure(tally(flown, criteria), criteria, 'explore', planned.outcome.length).verdict,
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
      columns: encodedOnReading(columns as Readonly<Record<ColumnName, Float32Array>>),
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
