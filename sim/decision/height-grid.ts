/** Which throttle-up heights a study flies. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { quantileOf } from '../distributions/law.js';
import { inputByPath } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';

export type HeightsRequest =
  | { readonly kind: 'standard' }
  | { readonly kind: 'planned' }
  | { readonly kind: 'list'; readonly heights: readonly number[] };

/** Shares of the planned height: close around the lower heights, where the risk turns, wider above. */
const SHARES = [0.25, 0.35, 0.45, 0.55, 0.65, 0.8, 1, 1.25, 1.6, 2];

/** Heights below the ejection: a flight in a hundred is ejected lower. */
const LOW_EJECTION = 0.01;

/** The height over which 99 flights in 100 are ejected, m. */
export function ejectionFloor(scenario: Scenario): number {
  const ejection = inputByPath(scenario, 'ejection.height');
  if (ejection === null) throw new Error('the scenario has no ejection height');
  return quantileOf(ejection.value, LOW_EJECTION);
}

/** Metres between heights that a pilot can tell apart; finer only for drop tests. */
export function pilotStep(planned: number): number {
  if (planned >= 100) return 10;
  if (planned >= 30) return 5;
  return planned >= 10 ? 1 : 0.5;
}

/**
 * The heights of a study, ascending, always with the planned one.
 *
 * @param ceiling highest height that a throttle-up can be planned at, m: `ejectionFloor` of the scenario
 */
export function heightGrid(request: HeightsRequest, planned: number, ceiling: number): Answer<readonly number[]> {
  const limit = `the can is ejected lower than ${Math.floor(ceiling)} m in 1 flight of 100`;
  if (planned > ceiling) {
    return refused(
      `plan.throttle_up_height is ${planned} m, but ${limit}; plan a throttle-up height of at most ${Math.floor(ceiling)} m.`,
    );
  }
  const asked =
    request.kind === 'list' ? request.heights : request.kind === 'planned' ? [] : standardHeights(planned, ceiling);
  const tooHigh = asked.filter((height) => height > ceiling);
  if (request.kind === 'list' && tooHigh.length > 0) {
    return refused(
      `--heights holds ${tooHigh.join(', ')} m, but ${limit}; write heights of at most ${Math.floor(ceiling)} m.`,
    );
  }
  const heights = [...asked.filter((height) => height <= ceiling), planned];
  return ok([...new Set(heights)].sort((a, b) => a - b));
}

/** Where the ceiling cuts the shares off, the highest step under it stands for them. */
function standardHeights(planned: number, ceiling: number): readonly number[] {
  const step = pilotStep(planned);
  const heights = SHARES.map((share) => Math.max(step, step * Math.round((share * planned) / step)));
  const top = step * Math.floor(ceiling / step);
  return heights.some((height) => height > top) ? [...heights.filter((height) => height < top), top] : heights;
}
