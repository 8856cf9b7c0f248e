/** What an assessment would fly, or why not; known before anything is started for it. */
import { quantileOf } from '../draws/quantile.js';
import type { Scenario } from '../scenario/scenario.js';
import { type HeightsRequest, heightGrid } from './height-grid.js';
import { studySize } from './study-size.js';

export interface AssessOptions {
  readonly seed: string;
  readonly flights: number;
  readonly heights: HeightsRequest;
  /** As given, for the record; they are already in the scenario. */
  readonly overrides: readonly string[];
}

export interface AssessPlan {
  readonly heights: readonly number[];
  readonly plannedHeight: number;
}

export type PlannedStudy =
  | { readonly status: 'ok'; readonly plan: AssessPlan }
  | { readonly status: 'refused'; readonly message: string };

/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;
/** What would be flown, or why not; cheap, so that a study is refused before anything is started for it. */
export function planAssess(scenario: Scenario, options: AssessOptions): PlannedStudy {
  const plannedHeight = fixedInput(scenario, 'plan.throttle_up_height');
  const ejection = scenario.inputs.find(({ path }) => path === 'ejection.height');
  if (!ejection) throw new Error('the scenario has no ejection height');
  const grid = heightGrid(options.heights, plannedHeight, quantileOf(ejection.value, LOW_EJECTION));
  if (grid.status === 'refused') return grid;
  const size = studySize(options.flights, grid.heights.length);
  return size.status === 'refused' ? size : { status: 'ok', plan: { heights: grid.heights, plannedHeight } };
}

/** A decision or a limit: one number, SI. */
export function fixedInput(scenario: Scenario, path: string): number {
  const value = scenario.inputs.find((input) => input.path === path)?.value;
  if (value?.form !== 'fixed') throw new Error(`${path} is not one fixed value`);
  return value.value;
}
