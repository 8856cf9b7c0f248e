/** Two designs that need no flight model: synthetic flyers with a known risk under real scenarios. */

import { type CompareHooks, compareDesigns } from '../../sim/compare/compare.js';
import type { CompareOptions } from '../../sim/compare/plan.js';
import type { CompareResult } from '../../sim/compare/result.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import type { StudyAnswer } from '../../sim/ensemble/study-answer.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { createSyntheticFlyer, type SyntheticModel } from '../decision/synthetic-flyer.js';
import { burdock } from '../ensemble/burdock.js';

/** Without circles outcomes are all that is judged, which is all that a synthetic flight has. */
export function plainBurdock(...overrides: readonly string[]): Scenario {
  return burdock('criteria.recovery_circle=none', 'site.keep_out=[]', ...overrides);
}

/** A falling flank and a floor, as a function of the throttle-up height. */
export function fallingRisk(flank: number, floor: number): SyntheticModel['risk'] {
  return (height) => Math.min(1, floor + 0.5 * Math.exp(-(height - flank) / 15));
}

export interface SyntheticDesign {
  readonly risk: SyntheticModel['risk'];
  readonly cause?: SyntheticModel['cause'];
  readonly overrides?: readonly string[];
}

export const OPTIONS: CompareOptions = { seed: '1', flights: 8000, matters: 0.005, aims: true };

export function compareSynthetic(
  a: SyntheticDesign,
  b: SyntheticDesign,
  options: Partial<CompareOptions> = {},
  hooks: CompareHooks = {},
): Promise<StudyAnswer<CompareResult>> {
  const asked = { ...OPTIONS, ...options };
  const design = ({ risk, cause, overrides = [] }: SyntheticDesign) => {
    const scenario = plainBurdock(...overrides);
    const flyer = createSyntheticFlyer({ seed: asked.seed, risk, ...(cause ? { cause } : {}) });
    return { scenario, overrides, flyer, criteria: criteriaOf(scenario) };
  };
  return compareDesigns(design(a), design(b), asked, hooks);
}
