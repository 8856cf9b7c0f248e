/** What flights teach about the unmeasured inputs, as a versioned result: plain data, no NaN, no path, ready for JSON. */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { QuantityName } from '../reconstruct/result.js';
import type { ScenarioChange } from '../scenario/scenario.js';

/** One unmeasured input, or parameter of one, before and after: 5, 50 and 95 % in the unit shown. */
export interface LearnedInput {
  /** As drawn: "can.drag_factor", or "pilot.reaction.median" for a parameter. */
  readonly name: string;
  readonly path: string;
  readonly unit: string;
  readonly before: readonly [number, number, number];
  readonly after: readonly [number, number, number];
  /** Standard deviation after over that before. */
  readonly narrowed: number;
}

/** A probability averaged over worlds, with the 90 % range that so few worlds and flights leave of it. */
export interface WorldsRisk {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** Standard deviation between worlds; null where it cannot be told from none. */
  readonly between: number | null;
}

export interface ObservedQuantity {
  readonly name: QuantityName;
  readonly value: number;
  /** Standard deviation of the log's own error. */
  readonly error: number;
  /** Mean over all plausible worlds, and the standard deviation of one flight among them. */
  readonly expected: number;
  readonly spread: number;
}

export interface LearnResult {
  readonly kind: 'learn';
  readonly versions: Versions;
  readonly scenario: {
    readonly title: string;
    readonly hash: string;
    readonly invented: boolean;
    readonly changed: readonly ScenarioChange[];
  };
  /** The scenario in which the logs were flown, where it is another. */
  readonly flownIn: { readonly title: string; readonly hash: string } | null;
  readonly seed: string;
  readonly worlds: number;
  /**
   * Worlds in each wave, `worlds` together: the first as held plausible, later ones drawn near what the logs say.
   * @minItems 1
   */
  readonly waves: readonly number[];
  /** Whether the study was stopped before it was done. */
  readonly partial: boolean;
  readonly flightsEach: number;
  readonly plannedHeight: number;
  readonly logs: readonly { readonly file: string; readonly observed: readonly ObservedQuantity[] }[];
  /** Worlds that as much weight in equal parts would make. */
  readonly effectiveWorlds: number;
  /** @minItems 1 */
  readonly inputs: readonly LearnedInput[];
  readonly riskBefore: WorldsRisk;
  readonly riskAfter: WorldsRisk;
  readonly fragment: string;
  readonly correlations: readonly { readonly between: readonly [string, string]; readonly rank: number }[];
  readonly warnings: readonly Warning[];
}
