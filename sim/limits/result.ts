/** The day card has a result of its own: for two inputs of the day the lowest acceptable throttle-up height. */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { CriterionFigure } from '../decision/result.js';
import type { Correlation } from '../distributions/distribution.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Proportion } from '../statistics/proportion.js';

/** One of the two inputs of the day. */
export interface CardAxis {
  readonly path: string;
  /** What it is, in a sentence. */
  readonly meaning: string;
  /** SI, from easy to hard where `ordered`, else ascending. */
  readonly values: readonly number[];
  /** Whether it is known which values are harder. */
  readonly ordered: boolean;
  /** How values are shown: si * perSi + offset, in `unit`. */
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
  /** What the scenario itself says of it. */
  readonly inScenario: string;
}

/** "height shown": the lowest height at which every limit is shown to be kept. "no launch": the wind is over the launch code's ceiling; not flown. "not reached": the study was stopped before. */
export type CardCellStatus = 'height shown' | 'do not fly' | 'no launch' | 'not reached';

export interface CardCell extends WalkedCell {
  readonly status: CardCellStatus;
}

export interface LimitsResult {
  readonly kind: 'limits';
  readonly versions: Versions;
  readonly scenario: Scenario;
  /** `--set path=value` as given, in order; already in the scenario. */
  readonly overrides: readonly string[];
  readonly seed: string;
  /** Flights at which a height is judged in a cell. */
  readonly flights: number;
  /** True when the study was interrupted. */
  readonly partial: boolean;
  readonly plannedHeight: number;
  /** What must hold in each cell. */
  readonly criteria: readonly Pick<CriterionFigure, 'name' | 'limit' | 'assumed'>[];
  readonly rows: CardAxis;
  readonly columns: CardAxis;
  /**
   * Heights to choose from, ascending, m.
   * @minItems 1
   */
  readonly heights: readonly number[];
  /** Every cell, row by row. */
  readonly cells: readonly CardCell[];
  /** The launch code's wind ceiling, m/s, where the wind is one of the two inputs. */
  readonly windCeiling: { readonly axis: 'rows' | 'columns'; readonly speed: number } | null;
  /** Whether some cell has a height. The exit code of `limits` says it. */
  readonly anyShown: boolean;
  /** Rank correlations that do not hold on the card, because an input of the pair is held. */
  readonly dropped: readonly Correlation[];
  readonly flightsFlown: number;
  /** Inputs that are guesses, of all that the team has to find out: what they could make of a cell is not told. */
  readonly guesses: number;
  readonly inputs: number;
  readonly warnings: readonly Warning[];
}

/** One cell of the day card. */
export interface WalkedCell {
  readonly row: number;
  readonly column: number;
  /** Lowest acceptable throttle-up height found, m; null: do not fly. */
  readonly height: number | null;
  /** The ground-impact risk there; null where no height serves. */
  readonly risk: Proportion | null;
  /** Heights just under it that were passed over: the height may be as many steps higher than need be. */
  readonly untried: number;
  /** True when it was not flown because an easier cell has no height. */
  readonly inherited: boolean;
  /** Where no height serves: the height that came nearest, and the criteria that it is not shown to keep. */
  readonly closest: { readonly height: number; readonly criteria: readonly CriterionFigure[] } | null;
  /** Flights flown for this cell. */
  readonly flights: number;
}

export interface WalkedCard {
  readonly rows: { readonly path: string; readonly values: readonly number[] };
  readonly columns: { readonly path: string; readonly values: readonly number[] };
  readonly heights: readonly number[];
  readonly flights: number;
  /** Row by row. */
  readonly cells: readonly WalkedCell[];
  readonly flightsFlown: number;
}
