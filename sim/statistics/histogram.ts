export interface Bins {
  readonly from: number;
  readonly width: number;
  readonly count: number;
}

/** Touchdown speeds: half metres a second up to 40 m/s, over the fall speed of most cans. */
export const SPEED_BINS: Bins = { from: 0, width: 0.5, count: 80 };

/**
 * Counts flights by touchdown speed and outcome. A bin holds its lower edge, not its upper one. Flights without a
 * speed (NaN) and those that failed numerically are left out; a speed under the first bin counts in the first.
 */
export function speedHistogram(
  outcome: ArrayLike<number>,
  speed: ArrayLike<number>,
  bins: Bins = SPEED_BINS,
): Histogram {
  const byOutcome = [0, 1, 2].map(() => new Array<number>(bins.count).fill(0));
  const beyond: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < outcome.length; i++) {
    const kind = outcome[i];
    if (kind > 2 || Number.isNaN(speed[i])) continue;
    const bin = Math.max(0, Math.floor((speed[i] - bins.from) / bins.width));
    if (bin < bins.count) byOutcome[kind][bin] += 1;
    else beyond[kind] += 1;
  }
  const [soft, hard, crash] = byOutcome;
  return { from: bins.from, width: bins.width, soft, hard, crash, beyond };
}

export interface Histogram {
  readonly from: number;
  readonly width: number;
  /** Counts for each bin by outcome, in the order of OUTCOMES without `numerical`. */
  readonly soft: readonly number[];
  readonly hard: readonly number[];
  readonly crash: readonly number[];
  /** Flights at or above the last bin's end, by the same outcomes. */
  readonly beyond: readonly [number, number, number];
}
