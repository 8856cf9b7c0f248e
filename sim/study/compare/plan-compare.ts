/** What a comparison would fly, or why not; known before anything is started for it. */
import { quantileOf } from '../../draws/quantile.js';
import { inputByPath } from '../../scenario/lookup.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import { heightGrid } from '../assess/height-grid.js';
import { studySize } from '../study-size.js';

export interface CompareOptions {
  readonly seed: string;
  /** Pairs at the planned heights. */
  readonly flights: number;
  /** Least difference of two risks that matters, as a probability. */
  readonly matters: number;
  /** Whether each design is also flown at the height recommended for it, which takes most of the time. */
  readonly recommended: boolean;
}

export type PlannedComparison =
  /** Heights at which B is flown: its planned one first, then A's where it is another one that B can fly. */
  | { readonly status: 'ok'; readonly heightsOfB: readonly number[] }
  | { readonly status: 'refused'; readonly messages: readonly string[] };

/** Heights held in full at once: three at the planned heights, and about so many more in a search. */
const HEIGHTS_HELD = 6;
/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;

/** Fewer flights than this find no height at a limit of a few flights in 100. */
const LEAST_SEARCH = 2000;

/**
 * Flights a height in the search for the recommended heights: a quarter of the pairs, at least 2000 as far as there
 * are so many. So both searches cost about as much as the planned heights. A height found with fewer flights is shown
 * to serve all the same, but may lie a step higher than with more.
 */
export function searchFlights(flights: number): number {
  return Math.min(flights, Math.max(LEAST_SEARCH, Math.ceil(flights / 4)));
}

/** Fresh pairs at the recommended heights. */
export function freshPairs(flights: number): number {
  return Math.max(searchFlights(flights), Math.ceil(flights / 2));
}

/** The height over which 99 flights in 100 are ejected. */
export function ejectionFloor(scenario: Scenario): number {
  const ejection = inputByPath(scenario, 'ejection.height');
  if (ejection === null) throw new Error('the scenario has no ejection height');
  return quantileOf(ejection.value, LOW_EJECTION);
}

export function planCompare(a: Scenario, b: Scenario, { flights }: CompareOptions): PlannedComparison {
  const [heightA, heightB] = [a, b].map((scenario) => fixedInput(scenario, 'plan.throttle_up_height'));
  const size = studySize(flights, HEIGHTS_HELD);
  const messages = [
    ...tooHigh('The first scenario', heightA, a),
    ...tooHigh('The second scenario', heightB, b),
    ...(size.status === 'refused' ? [size.message] : []),
  ];
  if (messages.length > 0) return { status: 'refused', messages };
  const alsoAtHeightOfA = heightA !== heightB && heightA <= ejectionFloor(b);
  return { status: 'ok', heightsOfB: alsoAtHeightOfA ? [heightB, heightA] : [heightB] };
}

function tooHigh(which: string, planned: number, scenario: Scenario): readonly string[] {
  const grid = heightGrid({ kind: 'planned' }, planned, ejectionFloor(scenario));
  return grid.status === 'refused' ? [`${which}: ${grid.message}`] : [];
}
