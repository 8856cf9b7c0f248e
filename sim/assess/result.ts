/**
 * The one versioned result of a study. JSON, CSV, terminal and HTML are views of it and need nothing else. It holds
 * no clock, no path and no thread count: the same scenario, seed, version and Node give the same bytes.
 */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { HandCalculation } from '../check/result.js';
import type { CriterionFigure } from '../decision/result.js';
import type { ColumnName, Outcome } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Convergence } from '../statistics/convergence.js';
import type { Histogram } from '../statistics/histogram.js';
import type { Proportion, Verdict } from '../statistics/proportion.js';
import type { Spread } from '../statistics/quantile.js';
import type { EnvelopePoint, ListedFlight, TimeHistory } from '../trace/result.js';
import type { CauseRow, Decisions } from './decisions.js';
import type { Doubt } from './doubt.js';

/** One point of the risk curve. */
export interface HeightPoint {
  readonly height: number;
  readonly outcomes: Readonly<Record<Outcome, number>>;
  /** Ground impact: all but soft. */
  readonly risk: Proportion;
  /** The one verdict on this height, by every criterion, which every view reads; of fresh flights where it was flown again. */
  readonly verdict: Verdict;
  /** Touchdown speeds at this height, for the report's slider. */
  readonly speeds: Histogram;
}

/** Where it comes down: counts on a square grid centred on the planned landing point, by outcome. */
export interface Footprint {
  readonly cell: number;
  readonly halfCells: number;
  /** Row-major from south-west, (2 halfCells)^2 cells; flights beyond the grid are counted in `beyond`. */
  readonly soft: readonly number[];
  readonly notSoft: readonly number[];
  readonly beyond: { readonly soft: number; readonly notSoft: number };
  readonly distance: Spread;
  readonly distanceNotSoft: Spread;
  readonly outsideCircle: Proportion | null;
  /** Flights that come down inside each keep-out circle, and how many of them softly. */
  readonly keepOut: readonly {
    readonly name: string;
    readonly inside: Proportion;
    readonly soft: number;
    readonly notSoft: number;
  }[];
  /** Distance from the landing point that 99 in 100 of the failed flights stay within, with its interval's upper end. */
  readonly keepAway: { readonly distance: number; readonly upper: number | null } | null;
}

export interface AssessResult extends Decisions {
  readonly kind: 'assess';
  readonly versions: Versions;
  readonly scenario: Scenario;
  /** `--set path=value` as given, in order; already in the scenario. */
  readonly overrides: readonly string[];
  readonly seed: string;
  /** When it was made, in the words of whoever made it; the program itself knows no clock. Absent where not given. */
  readonly date?: string;
  readonly flights: number;
  /** True when the study was interrupted: all numbers speak of the flights flown. */
  readonly partial: boolean;
  readonly acceptableRisk: number;
  readonly plannedHeight: number;
  /** The verdict on the ground-impact risk at the planned height. */
  readonly verdict: Verdict;
  readonly risk: Proportion;
  /** Every criterion of the scenario at the planned height, ground impact first. */
  readonly criteria: readonly CriterionFigure[];
  /** The worst verdict among the criteria; the exit code of `assess` says it. */
  readonly overall: Verdict;
  /** How far the verdict holds for what nobody has measured. */
  readonly doubt: Doubt;
  /** Flights that would settle a verdict "not shown" if the risk is as estimated; null where settled or not to be said. */
  readonly flightsToSettle: number | null;
  readonly outcomes: Readonly<Record<Outcome, number>>;
  readonly curve: readonly HeightPoint[];
  /** At the planned height. */
  readonly causes: readonly CauseRow[];
  readonly touchdownSpeed: Spread;
  readonly touchdownSpeedNotSoft: Spread;
  readonly verticalSpeed: Spread;
  readonly energyNotSoft: Spread;
  readonly arrested: Proportion;
  readonly orderTime: Spread;
  readonly orderHeight: Spread;
  readonly cueHeight: Spread;
  readonly stoppingHeight: Spread;
  readonly speedAtOrder: Spread;
  readonly uprightDelay: Spread;
  readonly arrestHeight: Spread;
  readonly lowestVoltage: Spread;
  readonly energyLeft: Spread;
  readonly envelope: readonly EnvelopePoint[];
  readonly histories: readonly TimeHistory[];
  readonly listed: readonly ListedFlight[];
  readonly footprint: Footprint;
  readonly convergence: Convergence;
  readonly hand: HandCalculation;
  readonly warnings: readonly Warning[];
  /** Typed columns of the planned height and outcomes of the curve, base64 of little-endian arrays. */
  readonly raw: {
    readonly planned: {
      readonly outcome: string;
      readonly cause: string;
      readonly columns: Readonly<Record<ColumnName, string>>;
    };
    readonly curve: readonly {
      readonly height: number;
      readonly flights: number;
      readonly outcome: string;
      readonly touchdownSpeed: string;
    }[];
  };
}

export type Result = AssessResult;
