/** The worker threads of a command that flies, with how far they are on stderr. */
import type { FlyerPool } from '../../sim/ensemble/flyer-pool.js';
import { createProgress, NO_PROGRESS, type Progress } from './progress.js';

export interface Workers {
  readonly seed: string;
  readonly threads: number;
  /** What the progress counts, such as "flights". */
  readonly what: string;
  /** Without progress. */
  readonly quiet: boolean;
}

/** Flies with workers that stay warm from one scenario to the next; they and the progress are gone afterwards. */
export async function withWorkers<T>(
  { seed, threads, what, quiet }: Workers,
  fly: (pool: FlyerPool, progress: Progress) => Promise<T>,
): Promise<T> {
  const { createFlyerPool } = await import('../../sim/ensemble/flyer-pool.js');
  const progress = quiet ? NO_PROGRESS : createProgress(process.stderr, what);
  const pool = createFlyerPool(seed, threads);
  try {
    return await fly(pool, progress);
  } finally {
    progress.end();
    await pool.close();
  }
}
