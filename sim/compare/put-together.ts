/** A comparison is put together to the result of which every output is a view. */

import { presentVersions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { SetName } from '../draws/draw.js';
import { columnOf, firstFlights, whereOutcome } from '../ensemble/columns.js';
import { encodeColumn } from '../ensemble/raw-columns.js';
import type { FlightColumns } from '../flight/record.js';
import { isSoft } from '../flight/record.js';
import { inputDifferences } from '../scenario/input-differences.js';
import { speedHistogram } from '../statistics/histogram.js';
import { spread } from '../statistics/quantile.js';
import { comparePairs } from './pairs.js';
import type {
  ComparedDesign,
  ComparedSpeeds,
  CompareResult,
  ComparisonBasis,
  DesignComparison,
  NoComparison,
  RawPairs,
} from './result.js';
import { compareWarnings } from './warnings.js';

/** What a comparison was made of, wherever its flights come from. */
export interface Compared {
  readonly seed: string;
  readonly source: CompareResult['source'];
  readonly partial: boolean;
  readonly matters: number;
  readonly a: ComparedDesign;
  readonly b: ComparedDesign;
  readonly comparisons: CompareResult['comparisons'];
  /** Those that only the maker of the flights can know. */
  readonly warnings: readonly Warning[];
}

export function compareResult(compared: Compared): CompareResult {
  const { seed, source, partial, matters, a, b, warnings } = compared;
  const differences = inputDifferences(a.scenario, b.scenario);
  const comparisons = differences.length === 0 ? sameDesign(compared.comparisons) : compared.comparisons;
  const [{ pairs }] = comparisons;
  return {
    kind: 'compare',
    versions: presentVersions(),
    seed,
    flights: pairs.riskA.flights,
    partial,
    source,
    matters,
    a,
    b,
    verdict: pairs.verdict,
    identical: pairs.identical,
    comparisons,
    differences,
    warnings: [...warnings, ...compareWarnings({ ...compared, comparisons }, differences)],
  };
}

/**
 * Two scenarios that say the same are one design: where all pairs ended alike, as they must, there is no difference,
 * however few they are.
 */
function sameDesign([first, second, third]: CompareResult['comparisons']): CompareResult['comparisons'] {
  const settled = <C extends DesignComparison | NoComparison>(one: C): C =>
    one.status === 'compared' && one.pairs.identical
      ? { ...one, pairs: { ...one.pairs, verdict: 'no difference that matters', flightsToSettle: null } }
      : one;
  return [settled(first), settled(second), settled(third)];
}

/** Pairs flight i of A with flight i of B, over the flights that both flew. */
export function comparisonOf(
  basis: ComparisonBasis,
  flownA: FlightColumns,
  flownB: FlightColumns,
  set: SetName,
  matters: number,
): DesignComparison {
  const flights = Math.min(flownA.outcome.length, flownB.outcome.length);
  const [a, b] = [firstFlights(flownA, flights), firstFlights(flownB, flights)];
  return {
    basis,
    status: 'compared',
    pairs: comparePairs(a, b, set, matters),
    speeds: { a: speedsOf(a), b: speedsOf(b) },
    raw: { a: rawOf(a), b: rawOf(b) },
  };
}

function speedsOf(columns: FlightColumns): ComparedSpeeds {
  const speed = columnOf(columns, 'touchdown_speed');
  return {
    histogram: speedHistogram(columns.outcome, speed),
    all: spread(speed),
    notSoft: spread(whereOutcome(columns, speed, (outcome) => !isSoft(outcome))),
  };
}

function rawOf(columns: FlightColumns): RawPairs {
  return {
    outcome: encodeColumn(columns.outcome),
    cause: encodeColumn(columns.cause),
    touchdownSpeed: encodeColumn(columnOf(columns, 'touchdown_speed')),
  };
}
