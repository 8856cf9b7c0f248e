/** A study is planned, or refused, before anything is started for it. */

import { type Answer, ok } from '../basics/answer.js';
import { ejectionFloor, type HeightsRequest, heightGrid } from '../decision/height-grid.js';
import { flightsHeld, studySize } from '../ensemble/study-size.js';
import { fixedInput } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { FIRST_LOOK, MOST_FLIGHTS } from './until.js';

export interface AssessOptions {
  readonly seed: string;
  /** At each height; not used with `until`. */
  readonly flights: number;
  readonly heights: HeightsRequest;
  /** As given, for the record; they are already in the scenario. */
  readonly overrides: readonly string[];
  /**
   * Half-width of the 90 % interval, as a probability: the planned height is flown until the interval of its risk is so
   * narrow, and the other heights with as many flights.
   */
  readonly until?: number | undefined;
  /** Share of plausible worlds in which the planned height must be within the limit. */
  readonly assurance?: number | undefined;
  /** When the study is made, as its maker says it. */
  readonly date?: string | undefined;
}

export interface AssessPlan {
  readonly heights: readonly number[];
  readonly plannedHeight: number;
  /** Flights at each height that a result can still hold. */
  readonly mostFlights: number;
}

/** What would be flown, or why not; cheap, so that a study is refused before anything is started for it. */
export function planAssess(scenario: Scenario, options: AssessOptions): Answer<AssessPlan> {
  const plannedHeight = fixedInput(scenario, 'plan.throttle_up_height');
  const grid = heightGrid(options.heights, plannedHeight, ejectionFloor(scenario));
  if (grid.status === 'refused') return grid;
  const heights = grid.value;
  const size = studySize(options.until === undefined ? options.flights : FIRST_LOOK, heights.length);
  if (size.status === 'refused') return size;
  const mostFlights = Math.min(MOST_FLIGHTS, flightsHeld(heights.length));
  return ok({ heights, plannedHeight, mostFlights });
}
