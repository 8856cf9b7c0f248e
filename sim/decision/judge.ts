/** Flights at one height, judged by a list of criteria. */

import type { SetName } from '../draws/draw.js';
import type { FlightColumns } from '../flight/record.js';
import type { Proportion, Verdict } from '../statistics/proportion.js';
import { clopperPearson, proportion, verdictOf } from '../statistics/proportion.js';
import { type Criterion, groundImpactIn, named } from './criteria.js';
import type { CriterionFigure, HeightDecision, HeightFigure } from './result.js';

/** Flights at one height and those that break each criterion, in the order of the list: all that a decision needs. */
export interface Tally {
  readonly height: number;
  readonly flights: number;
  readonly counts: readonly number[];
}

export function tally(flown: FlightColumns, criteria: readonly Criterion[]): Tally {
  const counts = criteria.map((criterion) => broken(flown, criterion));
  return { height: flown.height, flights: flown.outcome.length, counts };
}

/** Number of the flights that break it, from flight `from` up to the one before `to`; of all where neither is given. */
export function broken(flown: FlightColumns, { breaks }: Criterion, from = 0, to = flown.outcome.length): number {
  let count = 0;
  for (let flight = from; flight < to; flight++) if (breaks(flown, flight)) count += 1;
  return count;
}

/** The chance that a flight breaks it. */
export function riskOf(criterion: Criterion, flown: FlightColumns): Proportion {
  return proportion(broken(flown, criterion), flown.outcome.length);
}

/** Two-sided level whose lower end is a 99.9 % lower bound. */
const HOPELESS_LEVEL = 0.998;

/** The first criterion whose 99.9 % lower bound is over its limit, with that bound; null while the height may serve. */
export function hopelessBy(found: Tally, criteria: readonly Criterion[]): HeightFigure['moreThan'] {
  for (let index = 0; index < criteria.length; index++) {
    const { name, limit } = criteria[index];
    const { lower } = clopperPearson(found.counts[index], found.flights, HOPELESS_LEVEL);
    if (lower > limit) return { name, risk: lower };
  }
  return null;
}

/** One verdict from many: within only if all are, above if any is. */
function jointVerdict(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.every((verdict) => verdict === 'within')) return 'within';
  return verdicts.includes('above') ? 'above' : 'not shown';
}

/**
 * The verdict on one height: acceptance is judged only with the planned number of flights. With fewer, a height that looks
 * within stays "not shown".
 */
export function heightVerdict(risk: Proportion, limit: number, plannedFlights: number): Verdict {
  const found = verdictOf(risk, limit);
  return found === 'within' && risk.flights < plannedFlights ? 'not shown' : found;
}

/** The figures of a tally, one for each criterion in the order of the list, and the verdict of all together. */
export function heightFigure(
  found: Tally,
  criteria: readonly Criterion[],
  set: SetName,
  plannedFlights: number,
): HeightFigure {
  const figures = criteria.map((criterion, index): CriterionFigure => {
    const risk = proportion(found.counts[index], found.flights);
    return { ...named(criterion), risk, verdict: heightVerdict(risk, criterion.limit, plannedFlights) };
  });
  return {
    height: found.height,
    set,
    flights: found.flights,
    criteria: figures,
    verdict: jointVerdict(figures.map((figure) => figure.verdict)),
    moreThan: found.flights < plannedFlights ? hopelessBy(found, criteria) : null,
  };
}

/** The verdict of a search on a height: that of its fresh flights where there are any; null where it did not look at it. */
export function verdictAt(decision: HeightDecision | null, height: number): Verdict | null {
  if (decision === null) return null;
  const { confirmed, aim, explored } = decision;
  const figures = [...confirmed, ...(aim === null ? [] : [aim.figure]), ...explored];
  return figures.find((figure) => figure.height === height)?.verdict ?? null;
}

/** The figure of ground impact among those of a height, for what speaks of it alone. */
export function groundImpactAt({ criteria: figures }: HeightFigure, criteria: readonly Criterion[]): CriterionFigure {
  return figures[criteria.indexOf(groundImpactIn(criteria))];
}
