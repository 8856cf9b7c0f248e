/** A comparison of two designs on the same draws has a result of its own. */

import type { Doubt } from '../assess/doubt.js';
import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { CriterionFigure, HeightDecision } from '../decision/result.js';
import type { SetName } from '../draws/draw.js';
import type { InputDifference } from '../scenario/input-differences.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Histogram } from '../statistics/histogram.js';
import type { Proportion, Verdict } from '../statistics/proportion.js';
import type { Spread } from '../statistics/quantile.js';

/** One of the two designs. */
export interface ComparedDesign {
  readonly scenario: Scenario;
  /** `--set`, `--set-a` and `--set-b` as given, in order; already in the scenario. */
  readonly overrides: readonly string[];
  readonly plannedHeight: number;
  /** Every criterion of the design at its planned height, ground impact first. */
  readonly criteria: readonly CriterionFigure[];
  /** The worst verdict among them: whether the design keeps its limits, whichever of the two is the safer. */
  readonly overall: Verdict;
  /** How far that verdict holds for what nobody has measured; "not asked" where both were flown for the comparison. */
  readonly doubt: Doubt;
  /** The search for its heights; null where none was made. */
  readonly heights: HeightDecision | null;
}

/** How fast one design touches down in the flights of a comparison. */
export interface ComparedSpeeds {
  readonly histogram: Histogram;
  readonly all: Spread;
  readonly notSoft: Spread;
}

/** One flight of each pair, as typed columns: base64 of little-endian arrays. */
export interface RawPairs {
  readonly outcome: string;
  readonly cause: string;
  readonly touchdownSpeed: string;
}

/**
 * "planned": each design at its own planned height. "planned of A": both at A's, so that only the design differs.
 * "aims": each at its own aim, the height of least risk with room on both sides, on fresh flights.
 */
export type ComparisonBasis = 'planned' | 'planned of A' | 'aims';

export interface DesignComparison {
  readonly basis: ComparisonBasis;
  readonly status: 'compared';
  readonly pairs: PairedComparison;
  readonly speeds: { readonly a: ComparedSpeeds; readonly b: ComparedSpeeds };
  readonly raw: { readonly a: RawPairs; readonly b: RawPairs };
}

export interface NoComparison {
  readonly basis: ComparisonBasis;
  readonly status: 'not compared';
  readonly why: string;
}

export interface CompareResult {
  readonly kind: 'compare';
  readonly versions: Versions;
  readonly seed: string;
  /** Pairs at the planned heights. */
  readonly flights: number;
  /** True when the study was interrupted: all numbers speak of the pairs flown. */
  readonly partial: boolean;
  /** Whether the flights come from two earlier results, or were flown for this comparison. */
  readonly source: 'flown' | 'earlier results';
  /** Least difference of two risks that matters, as a probability. */
  readonly matters: number;
  readonly a: ComparedDesign;
  readonly b: ComparedDesign;
  /**
   * Which is safer at the planned heights, by ground impact. The exit code of `compare` says whether it is "A safer", and
   * whether B keeps its limits.
   */
  readonly verdict: CompareVerdict;
  /** Whether every pair ended alike there. */
  readonly identical: boolean;
  /** The planned heights first; then A's planned height, then the aims. */
  readonly comparisons: readonly [DesignComparison, DesignComparison | NoComparison, DesignComparison | NoComparison];
  readonly differences: readonly InputDifference[];
  readonly warnings: readonly Warning[];
}

export type CompareVerdict = 'B safer' | 'A safer' | 'no difference that matters' | 'not settled';

/** Two designs on the same draws. */
export interface PairedComparison {
  readonly heightA: number;
  readonly heightB: number;
  readonly set: SetName;
  readonly pairs: { readonly both: number; readonly onlyA: number; readonly onlyB: number; readonly neither: number };
  readonly riskA: Proportion;
  readonly riskB: Proportion;
  /** Risk of A minus risk of B (positive: B is safer), with Tango's 95 % interval. */
  readonly difference: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /** Exact McNemar, two-sided. */
  readonly pValue: number;
  readonly matters: number;
  readonly verdict: CompareVerdict;
  readonly identical: boolean;
  /** Pairs after which the interval is no wider than -+ matters; null where settled. */
  readonly flightsToSettle: number | null;
  /** Flights that fail in A and are soft in B, by A's cause; the other way round, by B's cause. Most first. */
  readonly saves: readonly { readonly cause: string; readonly flights: number }[];
  readonly breaks: readonly { readonly cause: string; readonly flights: number }[];
}
