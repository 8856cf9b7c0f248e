/** What bench data and flight logs say, as versioned results: plain data, no NaN, no path, ready for JSON. */
import type { CriticalPoint } from '../statistics/anderson-darling.js';
import type { EnvelopePoint, Versions, Warning } from './result.js';

export type FitFamily = 'normal' | 'log-normal' | 'weibull' | 'triangular' | 'samples';

/** One parameter as fitted, with the 95 % range of what it may be. */
export interface FittedParameter {
  readonly name: string;
  readonly unit: string;
  /** By maximum likelihood. */
  readonly estimate: number;
  readonly low: number;
  readonly high: number;
}

export interface FamilyFit {
  readonly family: FitFamily;
  readonly parameters: readonly FittedParameter[];
  readonly logLikelihood: number | null;
  /** Twice the parameters less twice the log-likelihood: lower is better. */
  readonly akaike: number | null;
  readonly fit: {
    /** Anderson-Darling A2, and as modified for estimated parameters (null where none is published). */
    readonly statistic: number;
    readonly modified: number | null;
    /** Published, or of redrawn samples. */
    readonly points: readonly CriticalPoint[];
    /** From redrawn samples; null where the published points decide. */
    readonly pValue: number | null;
    /** The strictest level at which the family is refused; null: at none. */
    readonly refusedAt: number | null;
  } | null;
  /** In words. */
  readonly verdict: string;
}

export interface SamplesFit {
  readonly kind: 'fit';
  readonly form: 'samples';
  readonly versions: Versions;
  /** Name of the file, its column, and the unit of its numbers. */
  readonly data: { readonly file: string; readonly column: string; readonly unit: string };
  readonly count: number;
  /** Rows whose cell was empty. */
  readonly empty: number;
  readonly mean: number;
  /** With n - 1 under the root. */
  readonly sd: number;
  /** Ascending, in the unit; evenly thinned where there are more than 400. */
  readonly values: readonly number[];
  readonly families: readonly FamilyFit[];
  readonly chosen: FitFamily;
  readonly why: string;
  /** Density and quantiles of the chosen family: as many quantiles as `values`, at (i - 1/2)/n. */
  readonly curve: readonly { readonly x: number; readonly density: number }[];
  readonly quantiles: readonly number[];
  readonly path: string | null;
  readonly fragment: string;
  readonly warnings: readonly Warning[];
}

export interface TrialsFit {
  readonly kind: 'fit';
  readonly form: 'trials';
  readonly versions: Versions;
  readonly trials: number;
  readonly failures: number;
  /** Mean and 95 % range of the chance by Jeffreys. */
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly path: string | null;
  readonly fragment: string;
  readonly warnings: readonly Warning[];
}

/** One measured number with the standard error that its own residuals give; null where they give none. */
export interface Measured {
  readonly value: number;
  readonly error: number | null;
}

export interface Residual {
  readonly line: number;
  readonly x: number;
  readonly measured: number;
  readonly fitted: number;
}

/** SI units throughout. */
export interface ThrustStandFit {
  readonly kind: 'fit';
  readonly form: 'thrust stand';
  readonly versions: Versions;
  readonly file: string;
  readonly rows: number;
  readonly rotors: number;
  /** Of one rotor, over the rows at full throttle. */
  readonly full: {
    readonly rows: number;
    readonly thrust: Measured;
    readonly power: Measured;
    readonly voltage: number;
  };
  /** V = E - R I over all rows: the pack and its leads, where the stand ran from a pack. */
  readonly pack: {
    readonly openCircuit: Measured;
    readonly resistance: Measured;
    readonly residuals: readonly Residual[];
  } | null;
  /** T ~ V^k over the rows at full throttle; null where their voltages are too alike. */
  readonly exponent: { readonly value: Measured; readonly residuals: readonly Residual[] } | null;
  /** Power against (thrust over full thrust)^1.5, which the model rests on at part throttle. */
  readonly partThrottle: readonly Residual[];
  readonly fragment: string;
  readonly warnings: readonly Warning[];
}

export type FitResult = SamplesFit | TrialsFit | ThrustStandFit;

/** A moment of a flight: seconds after ejection with its 90 % range, and the height then. */
export interface LogEvent {
  readonly name: 'ejection' | 'throttle-up' | 'arrest' | 'touchdown';
  readonly time: number;
  readonly low: number;
  readonly high: number;
  readonly height: number | null;
}

/** A quantity of the flight with its 90 % range, SI. */
export interface LogQuantity {
  readonly name: QuantityName;
  readonly unit: string;
  readonly status: 'known' | 'not identifiable';
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Why it is not identifiable, or how it was taken. */
  readonly why: string;
  /** Share of the scenario's flights under value, low and high; null without a scenario. */
  readonly percentile: readonly [number, number, number] | null;
}

export const QUANTITIES = {
  throttle_up_time: 's',
  throttle_up_height: 'm',
  height_below_plan: 'm',
  delay: 's',
  speed_at_throttle_up: 'm/s',
  mean_fall_speed: 'm/s',
  stopping_height: 'm',
  stopping_time: 's',
  touchdown_time: 's',
  touchdown_speed: 'm/s',
  peak_reading: 'gee',
} as const;
export type QuantityName = keyof typeof QUANTITIES;

export interface CoursePoint {
  /** s after ejection. */
  readonly time: number;
  /** 5, 50 and 95 %; fall speed downwards positive. Null where the log cannot tell. */
  readonly height: readonly [number, number, number];
  readonly speed: readonly [number, number, number];
}

export interface ReconstructResult {
  readonly kind: 'reconstruct';
  readonly versions: Versions;
  readonly file: string;
  readonly invented: boolean;
  readonly channels: 'reading and height' | 'reading' | 'height';
  readonly rows: number;
  /** s */
  readonly duration: number;
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Smallest step between readings, gee and m; null without that channel. */
  readonly rounding: { readonly reading: number | null; readonly height: number | null };
  /** Reading at rest less 1, gee; null where no rest was seen. */
  readonly zeroError: number | null;
  readonly events: readonly LogEvent[];
  readonly quantities: readonly LogQuantity[];
  /** Empty where heights cannot be told at all. */
  readonly course: readonly CoursePoint[];
  /** The readings, thinned: time after ejection, gee, barometric height. */
  readonly measured: readonly {
    readonly time: number;
    readonly reading: number | null;
    readonly height: number | null;
  }[];
  readonly plannedHeight: number | null;
  readonly scenario: {
    readonly title: string;
    readonly hash: string;
    readonly seed: string;
    readonly flights: number;
    readonly envelope: readonly EnvelopePoint[];
  } | null;
  readonly warnings: readonly Warning[];
}

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
  readonly scenario: { readonly title: string; readonly hash: string; readonly invented: boolean };
  /** The scenario in which the logs were flown, where it is another. */
  readonly flownIn: { readonly title: string; readonly hash: string } | null;
  readonly seed: string;
  readonly worlds: number;
  /** Worlds in each wave, `worlds` together: the first as held plausible, later ones drawn near what the logs say. */
  readonly waves: readonly number[];
  /** Whether the study was stopped before it was done. */
  readonly partial: boolean;
  readonly flightsEach: number;
  readonly plannedHeight: number;
  readonly logs: readonly { readonly file: string; readonly observed: readonly ObservedQuantity[] }[];
  /** Worlds that as much weight in equal parts would make. */
  readonly effectiveWorlds: number;
  readonly inputs: readonly LearnedInput[];
  readonly riskBefore: WorldsRisk;
  readonly riskAfter: WorldsRisk;
  readonly fragment: string;
  readonly correlations: readonly { readonly between: readonly [string, string]; readonly rank: number }[];
  readonly warnings: readonly Warning[];
}
