/** The plan of a comparison says what it would fly, or why not, before anything is started for it. */

import { type Answer, ok, prefixed, together } from '../basics/answer.js';
import { ejectionFloor, heightGrid } from '../decision/height-grid.js';
import { studySize } from '../ensemble/study-size.js';
import { fixedInput } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';

export interface CompareOptions {
  readonly seed: string;
  /** Pairs at the planned heights. */
  readonly flights: number;
  /** Least difference of two risks that matters, as a probability. */
  readonly matters: number;
  /** Whether each design is also flown at its own aim, which takes most of the time. */
  readonly aims: boolean;
}

/** Heights held in full at once: three at the planned heights, and about as many more in a search. */
const HEIGHTS_HELD = 6;

/** Fewer flights than this find no height at a limit of a few flights in 100. */
const LEAST_SEARCH = 2000;

/**
 * Flights a height in the search for the aims: a quarter of the pairs, at least 2000 as far as there
 * are as many. So both searches cost about as much as the planned heights. A height found with fewer flights is shown
 * to serve all the same, but may lie a step higher than with more.
 */
export function searchFlights(flights: number): number {
  return Math.min(flights, Math.max(LEAST_SEARCH, Math.ceil(flights / 4)));
}

/** Fresh pairs at the aims. */
export function freshPairs(flights: number): number {
  return Math.max(searchFlights(flights), Math.ceil(flights / 2));
}

/** Heights at which B is flown: its own planned height first, then A's where that differs and B can fly it. */
export function planCompare(a: Scenario, b: Scenario, { flights }: CompareOptions): Answer<readonly number[]> {
  const asked = together({
    ofA: prefixed('The first scenario: ', plannedIn(a)),
    ofB: prefixed('The second scenario: ', plannedIn(b)),
    size: studySize(flights, HEIGHTS_HELD),
  });
  if (asked.status === 'refused') return asked;
  const { ofA, ofB } = asked.value;
  const alsoAtHeightOfA = ofA !== ofB && ofA <= ejectionFloor(b);
  return ok(alsoAtHeightOfA ? [ofB, ofA] : [ofB]);
}

/** The planned height, where it is below the ejection. */
function plannedIn(scenario: Scenario): Answer<number> {
  const planned = fixedInput(scenario, 'plan.throttle_up_height');
  const grid = heightGrid({ kind: 'planned' }, planned, ejectionFloor(scenario));
  return grid.status === 'ok' ? ok(planned) : grid;
}
