/** A comparison finds the aim of each design and flies it on fresh flights. */

import { type Criterion, detailFor } from '../decision/criteria.js';
import { ejectionFloor, heightGrid, pilotStep } from '../decision/height-grid.js';
import type { HeightDecision } from '../decision/result.js';
import { studyHeights } from '../decision/study-heights.js';
import type { SetName } from '../draws/draw.js';
import { type Flown, remember } from '../ensemble/flown.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import { fixedInput } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';

export interface FoundHeight {
  readonly decision: HeightDecision;
  /** Holds the fresh flights at the aim, with their causes. */
  readonly flown: Flown;
}

/** A design, what flies it and what it is judged by. */
export interface SoughtDesign {
  readonly scenario: Scenario;
  readonly flyer: Flyer;
  readonly criteria: readonly Criterion[];
}

/**
 * @param known flights of `explore` that need not be flown again
 * @param flights at each height
 * @param onFlown hears of every flight of the search, and of what `flown` flies later
 */
export async function findHeight(
  { scenario, flyer, criteria }: SoughtDesign,
  known: readonly FlightColumns[],
  flights: number,
  onFlown: (flights: number) => void,
  stop?: AbortSignal,
): Promise<FoundHeight | null> {
  if (stop?.aborted) return null;
  const planned = fixedInput(scenario, 'plan.throttle_up_height');
  const grid = heightGrid({ kind: 'standard' }, planned, ejectionFloor(scenario));
  if (grid.status === 'refused') throw new Error(grid.messages.join(' '));
  // The fresh flights are compared, so their causes are sought; all other flights only judge a height.
  const detailOf = (set: SetName) => detailFor(criteria, set === 'confirm' ? 'facts and causes' : 'outcomes');
  const flown = remember(flyer, detailOf, onFlown, stop);
  for (const columns of known) flown.put('explore', columns);
  const request = { criteria, coarse: grid.value, step: pilotStep(planned), planned, flights, upperEnd: false };
  const { decision } = await studyHeights(flown, request);
  return stop?.aborted ? null : { decision, flown };
}
