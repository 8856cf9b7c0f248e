import type { SetName } from '../draws/draw.js';
import { type FlightColumns, isSoft } from '../flight/record.js';
import type { HeightFigure } from '../result/decisions.js';
import type { Criterion, Verdict } from '../result/result.js';
import { clopperPearson, proportion, verdictOf } from '../statistics/proportion.js';

/** Something that must hold at an acceptable height: the chance that a flight breaks it is limited. */
export interface Requirement {
  readonly name: string;
  readonly limit: number;
  /** Whether flight `index` of the columns breaks it. */
  readonly breaks: (columns: FlightColumns, index: number) => boolean;
}

/** The first requirement of every study: the flight does not land softly. Needs outcomes only. */
export function groundImpact(limit: number): Requirement {
  return { name: 'ground impact', limit, breaks: (columns, index) => !isSoft(columns.outcome[index]) };
}

/** Comes down outside the recovery circle, or nowhere that is known. Needs every column. */
export function outsideCircle(radius: number, limit: number): Requirement {
  return {
    name: 'outside the recovery circle',
    limit,
    breaks: ({ columns }, index) => {
      const { east, north } = columns;
      if (east === undefined || north === undefined) throw new Error('The recovery circle needs every column.');
      return !(Math.hypot(east[index], north[index]) <= radius);
    },
  };
}

/** Flights at one height and those that break each requirement: all that a decision needs. */
export interface Tally {
  readonly height: number;
  readonly flights: number;
  readonly counts: readonly number[];
}

export function tally(columns: FlightColumns, requirements: readonly Requirement[]): Tally {
  const counts = requirements.map(({ breaks }) => {
    let count = 0;
    for (let index = 0; index < columns.outcome.length; index++) if (breaks(columns, index)) count += 1;
    return count;
  });
  return { height: columns.height, flights: columns.outcome.length, counts };
}

/** Two-sided level whose lower end is a 99.9 % lower bound. */
const HOPELESS_LEVEL = 0.998;

/** The first requirement whose 99.9 % lower bound is over its limit, with that bound; null while the height may serve. */
export function hopelessBy(found: Tally, requirements: readonly Requirement[]): HeightFigure['moreThan'] {
  for (let index = 0; index < requirements.length; index++) {
    const { name, limit } = requirements[index];
    const { lower } = clopperPearson(found.counts[index], found.flights, HOPELESS_LEVEL);
    if (lower > limit) return { name, risk: lower };
  }
  return null;
}

/** One verdict from many: within only if all are, above if any is. */
export function jointVerdict(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.every((verdict) => verdict === 'within')) return 'within';
  return verdicts.includes('above') ? 'above' : 'not shown';
}

/**
 * The figures of a tally. Acceptance is judged only with the planned number of flights: with fewer, a height that
 * looks within stays "not shown".
 */
export function heightFigure(
  found: Tally,
  requirements: readonly Requirement[],
  set: SetName,
  plannedFlights: number,
): HeightFigure {
  const judge = (verdict: Verdict): Verdict =>
    verdict === 'within' && found.flights < plannedFlights ? 'not shown' : verdict;
  const figures: Criterion[] = requirements.map(({ name, limit }, index) => {
    const risk = proportion(found.counts[index], found.flights);
    return { name, limit, risk, verdict: judge(verdictOf(risk, limit)) };
  });
  return {
    height: found.height,
    set,
    flights: found.flights,
    criteria: figures,
    verdict: jointVerdict(figures.map((figure) => figure.verdict)),
    moreThan: found.flights < plannedFlights ? hopelessBy(found, requirements) : null,
  };
}
