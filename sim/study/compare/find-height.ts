/** The recommended height of one design, for a comparison on fresh flights. */
import { type Flown, remember } from '../../decision/flown.js';
import { studyHeights } from '../../decision/height-rule.js';
import type { SetName } from '../../draws/draw.js';
import type { FlightColumns } from '../../flight/record.js';
import type { HeightDecision } from '../../result/decisions.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import { heightGrid, pilotStep } from '../assess/height-grid.js';
import type { Flyer } from '../flying/flyer.js';
import { detailFor, requirementsOf } from '../requirements-of.js';
import { ejectionFloor } from './plan-compare.js';

export interface FoundHeight {
  readonly decision: HeightDecision;
  /** Holds the fresh flights at the recommended height, with their causes. */
  readonly flown: Flown;
}

/**
 * @param known flights of `explore` that need not be flown again
 * @param flights at each height
 * @param onFlown hears of every flight of the search, and of what `flown` flies later
 */
export async function findHeight(
  scenario: Scenario,
  flyer: Flyer,
  known: readonly FlightColumns[],
  flights: number,
  onFlown: (flights: number) => void,
  stop?: AbortSignal,
): Promise<FoundHeight | null> {
  if (stop?.aborted) return null;
  const requirements = requirementsOf(scenario);
  const planned = fixedInput(scenario, 'plan.throttle_up_height');
  const grid = heightGrid({ kind: 'standard' }, planned, ejectionFloor(scenario));
  if (grid.status === 'refused') throw new Error(grid.message);
  // The fresh flights are the ones compared, so their causes are sought; the others only judge a height.
  const detailOf = (set: SetName) => (set === 'confirm' ? 'facts and causes' : detailFor(requirements));
  const flown = remember(flyer, detailOf, onFlown, stop);
  for (const columns of known) flown.put('explore', columns);
  const request = { requirements, coarse: grid.heights, step: pilotStep(planned), planned, flights, upperEnd: false };
  const { decision } = await studyHeights(flown, request);
  return stop?.aborted ? null : { decision, flown };
}
