/** Flies a comparison on this machine: one set of workers for both designs, progress part by part. */

import { type ComparePart, type Comparison, compareDesigns } from '../../../sim/compare/compare.js';
import { type CompareOptions, planCompare } from '../../../sim/compare/plan.js';
import { criteriaOf } from '../../../sim/decision/criteria.js';
import { createFlyerPool } from '../../../sim/ensemble/flyer-pool.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { createProgress, NO_PROGRESS } from '../../terminal/progress.js';

export interface Design {
  readonly scenario: Scenario;
  readonly overrides: readonly string[];
}

const PHASES: Readonly<Record<ComparePart, string>> = {
  planned: 'planned heights',
  'search for A': 'recommended height of A',
  'search for B': 'recommended height of B',
  recommended: 'recommended heights',
};

export async function flyComparison(
  a: Design,
  b: Design,
  options: CompareOptions,
  threads: number,
  quiet: boolean,
  stop: AbortSignal,
): Promise<Comparison> {
  const planned = planCompare(a.scenario, b.scenario, options);
  if (planned.status === 'refused') return planned;
  const pool = createFlyerPool(options.seed, threads);
  const progress = quiet ? NO_PROGRESS : createProgress(process.stderr, 'flights');
  const onProgress = (part: ComparePart, flown: number, total: number) => progress.update(flown, total, PHASES[part]);
  try {
    const flown = (design: Design) => ({
      ...design,
      flyer: pool.flyer(design.scenario),
      criteria: criteriaOf(design.scenario),
    });
    return await compareDesigns(flown(a), flown(b), options, { onProgress, stop });
  } finally {
    progress.end();
    await pool.close();
  }
}
