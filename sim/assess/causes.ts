import { CAUSES, type FlightColumns, isSoft, OUTCOMES } from '../flight/record.js';
import { proportion } from '../statistics/proportion.js';
import type { CauseRow } from './decisions.js';

const NUMERICAL = OUTCOMES.indexOf('numerical');

/** Name of what took a flight that is not soft. A flight whose numbers diverged has no physical cause. */
export function causeName(outcome: number, cause: number): string {
  return outcome === NUMERICAL ? 'numerical failure' : CAUSES[cause];
}

/** Causes of the flights that are not soft, the most frequent first. */
export function causeRows(flown: FlightColumns): readonly CauseRow[] {
  const counts = new Map<string, number>();
  flown.outcome.forEach((outcome, flight) => {
    if (isSoft(outcome)) return;
    const name = causeName(outcome, flown.cause[flight]);
    counts.set(name, (counts.get(name) ?? 0) + 1);
  });
  const order = (name: string) => (CAUSES as readonly string[]).indexOf(name);
  return [...counts]
    .sort(([a, countA], [b, countB]) => countB - countA || order(a) - order(b))
    .map(([cause, count]) => ({ cause, risk: proportion(count, flown.outcome.length) }));
}
