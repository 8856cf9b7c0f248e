/** Flies a day card on this machine: every cell is a scenario of its own, on workers that stay warm. */

import { criteriaOf } from '../../../sim/decision/criteria.js';
import { createFlyerPool } from '../../../sim/ensemble/flyer-pool.js';
import { type FoundLimits, findLimits } from '../../../sim/limits/limits.js';
import { type LimitsOptions, planLimits } from '../../../sim/limits/plan.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { createProgress, NO_PROGRESS } from '../../terminal/progress.js';

export async function flyLimits(
  scenario: Scenario,
  options: LimitsOptions,
  threads: number,
  quiet: boolean,
  stop: AbortSignal,
): Promise<FoundLimits> {
  const criteria = criteriaOf(scenario);
  const planned = planLimits(scenario, options, criteria);
  if (planned.status === 'refused') return planned;
  const progress = quiet ? NO_PROGRESS : createProgress(process.stderr, 'cells of the day card');
  const pool = createFlyerPool(options.seed, threads);
  try {
    const means = { criteria, flyerFor: (cell: Scenario) => pool.flyer(cell) };
    return await findLimits(scenario, options, means, { onProgress: progress.update, stop });
  } finally {
    progress.end();
    await pool.close();
  }
}
