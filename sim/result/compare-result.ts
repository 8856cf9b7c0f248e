/** Two designs on the same draws, as a result of its own. */
import type { Scenario } from '../scenario/scenario.js';
import type { CompareVerdict, HeightDecision, PairedComparison } from './decisions.js';
import type { Histogram, Spread, Versions, Warning } from './result.js';

/** One of the two designs. */
export interface ComparedDesign {
  readonly scenario: Scenario;
  /** `--set`, `--set-a` and `--set-b` as given, in order; already in the scenario. */
  readonly overrides: readonly string[];
  readonly plannedHeight: number;
  /** The search for its recommended height; null where none was made. */
  readonly recommendation: HeightDecision | null;
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
 * "recommended": each at the height recommended for it, on fresh flights.
 */
export type ComparisonBasis = 'planned' | 'planned of A' | 'recommended';

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

/** An entry of the scenario in which the two designs differ, as each of them says it; null where one has no such entry. */
export interface InputDifference {
  readonly path: string;
  readonly a: string | null;
  readonly b: string | null;
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
  /** The verdict at the planned heights. The exit code of `compare` says whether it is "A safer". */
  readonly verdict: CompareVerdict;
  /** Whether every pair ended alike there. */
  readonly identical: boolean;
  /** The planned heights first; then A's planned height, then the recommended heights. */
  readonly comparisons: readonly [DesignComparison, DesignComparison | NoComparison, DesignComparison | NoComparison];
  readonly differences: readonly InputDifference[];
  readonly warnings: readonly Warning[];
}
