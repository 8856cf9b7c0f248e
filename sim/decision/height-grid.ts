/** Which throttle-up heights a study flies. */

export type HeightsRequest =
  | { readonly kind: 'standard' }
  | { readonly kind: 'planned' }
  | { readonly kind: 'list'; readonly heights: readonly number[] };

export type HeightGrid =
  | { readonly status: 'ok'; readonly heights: readonly number[] }
  | { readonly status: 'refused'; readonly message: string };

/** Shares of the planned height: close around the lower heights, where the risk turns, wider above. */
const SHARES = [0.25, 0.35, 0.45, 0.55, 0.65, 0.8, 1, 1.25, 1.6, 2];

/** Metres between heights that a pilot can tell apart; finer only for drop tests. */
export function pilotStep(planned: number): number {
  if (planned >= 100) return 10;
  if (planned >= 30) return 5;
  return planned >= 10 ? 1 : 0.5;
}

/**
 * The heights of a study, ascending, always with the planned one.
 *
 * @param ceiling highest height that a throttle-up can be planned at, m: the 1 % quantile of the ejection height
 */
export function heightGrid(request: HeightsRequest, planned: number, ceiling: number): HeightGrid {
  const limit = `the can is ejected lower than ${Math.floor(ceiling)} m in 1 flight of 100`;
  if (planned > ceiling) {
    return {
      status: 'refused',
      message: `plan.throttle_up_height is ${planned} m, but ${limit}; plan a throttle-up height of at most ${Math.floor(ceiling)} m.`,
    };
  }
  const asked =
    request.kind === 'list' ? request.heights : request.kind === 'planned' ? [] : standardHeights(planned, ceiling);
  const tooHigh = asked.filter((height) => height > ceiling);
  if (request.kind === 'list' && tooHigh.length > 0) {
    return {
      status: 'refused',
      message: `--heights holds ${tooHigh.join(', ')} m, but ${limit}; write heights of at most ${Math.floor(ceiling)} m.`,
    };
  }
  const heights = [...asked.filter((height) => height <= ceiling), planned];
  return { status: 'ok', heights: [...new Set(heights)].sort((a, b) => a - b) };
}

/** Where the ceiling cuts the shares off, the highest step under it stands for them. */
function standardHeights(planned: number, ceiling: number): readonly number[] {
  const step = pilotStep(planned);
  const heights = SHARES.map((share) => Math.max(step, step * Math.round((share * planned) / step)));
  const top = step * Math.floor(ceiling / step);
  return heights.some((height) => height > top) ? [...heights.filter((height) => height < top), top] : heights;
}
