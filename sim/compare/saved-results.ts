/** Two results flown earlier on the same draws are compared from their raw columns: nothing is flown again. */

import type { AssessResult } from '../assess/result.js';
import { type Answer, ok, refused } from '../basics/answer.js';
import type { Warning } from '../basics/warning.js';
import { decodeBytes, decodeNumbers } from '../ensemble/raw-columns.js';
import { CAUSES, type FlightColumns } from '../flight/record.js';
import { otherDraws } from './pairs.js';
import { compareResult, comparisonOf } from './put-together.js';
import type { ComparedDesign, CompareResult, DesignComparison, NoComparison } from './result.js';

const NOT_SOUGHT = CAUSES.indexOf('not sought');

export function compareResults(a: AssessResult, b: AssessResult, matters: number): Answer<CompareResult> {
  const unlike = otherDraws(a, b);
  if (unlike !== null) return refused(unlike);
  const result = compareResult({
    seed: a.seed,
    source: 'earlier results',
    partial: false,
    matters,
    a: design(a),
    b: design(b),
    comparisons: [
      comparisonOf('planned', plannedOf(a), plannedOf(b), 'explore', matters),
      atPlannedOfA(a, b, matters),
      noFresh(),
    ],
    warnings: prefixWarning(a, b),
  });
  return ok(result);
}

function design(result: AssessResult): ComparedDesign {
  const { scenario, overrides, plannedHeight, criteria, overall, doubt, heightDecision } = result;
  return { scenario, overrides, plannedHeight, criteria, overall, doubt, heights: heightDecision ?? null };
}

function plannedOf({ plannedHeight, raw }: AssessResult): FlightColumns {
  const { outcome, cause, columns } = raw.planned;
  return {
    height: plannedHeight,
    outcome: decodeBytes(outcome),
    cause: decodeBytes(cause),
    columns: { touchdown_speed: decodeNumbers(columns.touchdown_speed) },
  };
}

/** What B flew at A's planned height, if its curve has that height: without the causes, which a curve does not seek. */
function atPlannedOfA(a: AssessResult, b: AssessResult, matters: number): DesignComparison | NoComparison {
  const none = (why: string): NoComparison => ({ basis: 'planned of A', status: 'not compared', why });
  if (a.plannedHeight === b.plannedHeight) return none('Both plan the same height: the first comparison is this one.');
  const point = b.raw.curve.find(({ height }) => height === a.plannedHeight);
  if (point === undefined)
    return none(
      `The second result did not fly A's planned height of ${a.plannedHeight} m; give the scenario files instead.`,
    );
  const columns: FlightColumns = {
    height: point.height,
    outcome: decodeBytes(point.outcome),
    cause: new Uint8Array(point.flights).fill(NOT_SOUGHT),
    columns: { touchdown_speed: decodeNumbers(point.touchdownSpeed) },
  };
  return comparisonOf('planned of A', plannedOf(a), columns, 'explore', matters);
}

function noFresh(): NoComparison {
  const why = 'A saved result does not hold the fresh flights at the aim; give the scenario files instead.';
  return { basis: 'aims', status: 'not compared', why };
}

function prefixWarning(a: AssessResult, b: AssessResult): readonly Warning[] {
  if (a.flights === b.flights) return [];
  return [
    {
      code: 'common flights',
      text: `The first result holds ${a.flights} flights, the second ${b.flights}: the first ${Math.min(a.flights, b.flights)} of both are compared.`,
      advice: 'Fly both with the same number for the narrower interval.',
    },
  ];
}
