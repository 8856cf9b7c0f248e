/** How far the verdict at the planned height holds for what nobody has measured. */

import { countGuesses } from '../check/scenario-warnings.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Verdict } from '../statistics/proportion.js';
import type { WorldsResult } from './decisions.js';

export interface Doubt {
  /**
   * "spread": the plausible cases differ, and how much is known. "no spread seen": they do not differ by more than chance, which
   * is no proof that they do not. "nothing unmeasured": there is one case. "not asked": they were not flown.
   */
  readonly status: 'spread' | 'no spread seen' | 'nothing unmeasured' | 'not asked';
  /** 5 and 95 % of the ground-impact risk over the plausible cases; null without a spread. */
  readonly lower: number | null;
  readonly upper: number | null;
  /** Share of plausible cases in which the risk of ground impact is within its limit; null without a spread. */
  readonly shareWithin: number | null;
  /** Share of plausible cases in which the verdict on all limits holds, as far as they tell; null where they do not. */
  readonly shareHolding: number | null;
  /** Whether the verdict holds in nine of ten plausible cases. */
  readonly isFirm: boolean;
  /** Inputs that are guesses, not measured or of no stated source, of all that the team has to find out. */
  readonly guesses: number;
  readonly inputs: number;
}

/** Share of plausible cases in which a firm verdict holds (common practice, no source). */
export const FIRM = 0.9;

export interface DoubtRequest {
  readonly scenario: Scenario;
  readonly overall: Verdict;
  readonly groundImpact: Verdict;
  /** At the planned height. */
  readonly worlds: WorldsResult | null;
  readonly hasUnmeasured: boolean;
}

export function doubtOf({ scenario, overall, groundImpact, worlds, hasUnmeasured }: DoubtRequest): Doubt {
  const shareWithin = worlds?.shareWithin?.estimate ?? null;
  const shareHolding = hasUnmeasured ? holding(overall, groundImpact, shareWithin) : overall === 'not shown' ? null : 1;
  return {
    status: !hasUnmeasured
      ? 'nothing unmeasured'
      : worlds === null
        ? 'not asked'
        : shareWithin === null
          ? 'no spread seen'
          : 'spread',
    lower: worlds?.lower ?? null,
    upper: worlds?.upper ?? null,
    shareWithin,
    shareHolding,
    isFirm: shareHolding !== null && shareHolding >= FIRM,
    ...countGuesses(scenario),
  };
}

/** The plausible cases tell of ground impact alone: they say nothing of a verdict that another criterion decides. */
function holding(overall: Verdict, groundImpact: Verdict, shareWithin: number | null): number | null {
  if (shareWithin === null || overall === 'not shown' || groundImpact !== overall) return null;
  return overall === 'within' ? shareWithin : 1 - shareWithin;
}
