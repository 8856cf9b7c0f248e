/**
 * Pairs of flights on the same draws tell which of two designs is safer, by how much and how surely. Nothing is flown
 * here.
 */

import type { AssessResult } from '../assess/result.js';
import { MATTERS } from '../decision/aim.js';
import type { SetName } from '../draws/draw.js';
import { CAUSES, type FlightColumns, isSoft } from '../flight/record.js';
import { flightsForWidth, mcNemar, type PairedCounts, tangoInterval } from '../statistics/paired.js';
import type { Interval } from '../statistics/proportion.js';
import { proportion } from '../statistics/proportion.js';
import type { CompareVerdict, PairedComparison } from './result.js';

/** Level of the McNemar test. */
const LEVEL = 0.05;

/**
 * The verdict: "no difference that matters" when the interval of the difference lies within -+ matters, also when a
 * difference that small is there; else by the exact McNemar test at 5 %, which is the master; else "not settled".
 * Tango's interval stands beside the test and may disagree with it at the edge.
 */
export function compareVerdict(
  counts: PairedCounts,
  pValue: number,
  interval: Interval,
  matters: number,
): CompareVerdict {
  if (interval.lower >= -matters && interval.upper <= matters) return 'no difference that matters';
  if (pValue > LEVEL) return 'not settled';
  return counts.onlyA > counts.onlyB ? 'B safer' : 'A safer';
}

/**
 * Pairs flight i of A with flight i of B, over the flights that both flew: the same draws as far as the two designs
 * share their inputs.
 */
export function comparePairs(
  a: FlightColumns,
  b: FlightColumns,
  set: SetName,
  matters: number = MATTERS,
): PairedComparison {
  const flights = Math.min(a.outcome.length, b.outcome.length);
  const pairs = { both: 0, onlyA: 0, onlyB: 0, neither: 0 };
  const saves = new Map<number, number>();
  const breaks = new Map<number, number>();
  for (let id = 0; id < flights; id++) {
    const [failsA, failsB] = [!isSoft(a.outcome[id]), !isSoft(b.outcome[id])];
    if (failsA && failsB) pairs.both += 1;
    else if (failsA) {
      pairs.onlyA += 1;
      saves.set(a.cause[id], (saves.get(a.cause[id]) ?? 0) + 1);
    } else if (failsB) {
      pairs.onlyB += 1;
      breaks.set(b.cause[id], (breaks.get(b.cause[id]) ?? 0) + 1);
    } else pairs.neither += 1;
  }
  const pValue = mcNemar(pairs);
  const interval = tangoInterval(pairs);
  const verdict = compareVerdict(pairs, pValue, interval, matters);
  return {
    heightA: a.height,
    heightB: b.height,
    set,
    pairs,
    riskA: proportion(pairs.both + pairs.onlyA, flights),
    riskB: proportion(pairs.both + pairs.onlyB, flights),
    difference: { estimate: flights === 0 ? 0 : (pairs.onlyA - pairs.onlyB) / flights, ...interval },
    pValue,
    matters,
    verdict,
    identical: flights > 0 && pairs.onlyA + pairs.onlyB === 0,
    flightsToSettle: verdict === 'not settled' ? flightsForWidth(pairs, matters) : null,
    saves: byCause(saves),
    breaks: byCause(breaks),
  };
}

function byCause(counts: ReadonlyMap<number, number>): PairedComparison['saves'] {
  return [...counts]
    .sort(([causeA, flightsA], [causeB, flightsB]) => flightsB - flightsA || causeA - causeB)
    .map(([cause, flights]) => ({ cause: CAUSES[cause], flights }));
}

/** Why two saved results were not flown on the same draws; null where they were, so that they compare without flying again. */
export function otherDraws(
  a: Pick<AssessResult, 'versions' | 'seed'>,
  b: Pick<AssessResult, 'versions' | 'seed'>,
): string | null {
  const unlike = (what: string, ofA: string | number, ofB: string | number) =>
    `The first result has ${what} ${ofA}, the second ${ofB}: their flights do not share their draws. ` +
    'Give the two scenario files instead, so that both are flown again.';
  if (a.seed !== b.seed) return unlike('seed', JSON.stringify(a.seed), JSON.stringify(b.seed));
  const [ofA, ofB] = [a.versions, b.versions];
  if (ofA.drawScheme !== ofB.drawScheme) return unlike('draw scheme', ofA.drawScheme, ofB.drawScheme);
  if (ofA.program !== ofB.program) return unlike('program version', ofA.program, ofB.program);
  if (ofA.node !== ofB.node) return unlike('Node version', ofA.node, ofB.node);
  return null;
}
