/**
 * The one versioned result of a study. JSON, CSV, terminal and HTML are views of it and need nothing else. It holds
 * no clock, no path and no thread count: the same scenario, seed, version and Node give the same bytes.
 */

import type { Outcome } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import type { Decisions } from './decisions.js';

export const RESULT_SCHEMA = 2;
export const DRAW_SCHEME = 2;

/** A probability counted from flights, with its Clopper-Pearson two-sided 90 % interval. */
export interface Proportion {
  readonly count: number;
  readonly flights: number;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

export type Verdict = 'within' | 'above' | 'not shown';

export interface Versions {
  readonly program: string;
  readonly resultSchema: number;
  readonly drawScheme: number;
  readonly node: string;
}

/** A quantity over flights: R-7 quantiles of the flights in which it is defined. */
export interface Spread {
  readonly flights: number;
  readonly mean: number;
  readonly quantiles: {
    readonly p: number;
    readonly value: number;
    readonly lower: number | null;
    readonly upper: number | null;
  }[];
}

export interface Histogram {
  readonly from: number;
  readonly width: number;
  /** Counts for each bin by outcome, in the order of OUTCOMES without `numerical`. */
  readonly soft: readonly number[];
  readonly hard: readonly number[];
  readonly crash: readonly number[];
  /** Flights at or above the last bin's end, by the same outcomes. */
  readonly beyond: readonly [number, number, number];
}

/** One point of the risk curve. */
export interface HeightPoint {
  readonly height: number;
  readonly outcomes: Readonly<Record<Outcome, number>>;
  /** Ground impact: all but soft. */
  readonly risk: Proportion;
  readonly verdict: Verdict;
  /** Touchdown speeds at this height, for the report's slider. */
  readonly speeds: Histogram;
}

/** One cause with the flights it took at the planned height. */
export interface CauseRow {
  readonly cause: string;
  readonly risk: Proportion;
  /** MIL-STD-882E probability word of the interval's upper end. */
  readonly word: string;
}

/** A flight worth looking at again; `id` names it for `trace`, as "explore:17@250". */
export interface ListedFlight {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly cause: string;
  readonly touchdownSpeed: number;
}

/** Height and speed over time for a few flights and the envelope of all at the planned height. */
export interface TimeHistory {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly time: readonly number[];
  readonly height: readonly number[];
  /** Fall speed, downwards positive. */
  readonly speed: readonly number[];
  readonly events: readonly { readonly name: string; readonly time: number; readonly height: number }[];
}

export interface EnvelopePoint {
  readonly time: number;
  /** 5, 50 and 95 % of height and of fall speed over flights still in the air; `flying` is their share. */
  readonly height: readonly [number, number, number];
  readonly speed: readonly [number, number, number];
  readonly flying: number;
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
  readonly keepOut: readonly { readonly name: string; readonly inside: Proportion }[];
  /** Distance from the landing point that 99 in 100 of the failed flights stay within, with its interval's upper end. */
  readonly keepAway: { readonly distance: number; readonly upper: number | null } | null;
}

export interface Convergence {
  readonly flights: readonly number[];
  readonly estimate: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/** A warning about the result, with what to do about it. */
export interface Warning {
  readonly code: string;
  readonly text: string;
  readonly advice: string;
}

/** One criterion of the scenario at the planned height. */
export interface Criterion {
  readonly name: string;
  readonly limit: number;
  readonly risk: Proportion;
  readonly verdict: Verdict;
}

/** One line of the hand calculation. Null where it does not apply; `why` says so, or why the two differ. */
export interface HandRow {
  readonly name: string;
  readonly unit: string;
  readonly byHand: number | null;
  readonly simulated: number | null;
  readonly formula: string;
  readonly why: string;
}

/** How far one guess moves the lowest throttle-up height by hand, from its 5 % to its 95 % quantile, all else at the median. */
export interface HandGuess {
  readonly path: string;
  readonly source: string;
  /** Metres; null where it cannot stop at all. */
  readonly heightAtLow: number | null;
  readonly heightAtHigh: number | null;
  readonly thrustToWeightAtLow: number;
  readonly thrustToWeightAtHigh: number;
}

/** The hand calculation that anybody can check with a pencil, and the simulated nominal flight beside it. */
export interface HandCalculation {
  readonly rows: readonly HandRow[];
  /** Unmeasured inputs that move it, the strongest first. */
  readonly guesses: readonly HandGuess[];
  /** Guesses written as one fixed number, whose effect nobody can rank before they get a spread. */
  readonly withoutSpread: readonly string[];
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
  readonly criteria: readonly Criterion[];
  /** The worst verdict among the criteria; the exit code of `assess` says it. */
  readonly overall: Verdict;
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
      readonly columns: Readonly<Record<string, string>>;
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
