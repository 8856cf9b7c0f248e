/** What bench data say, as a versioned result: plain data, no NaN, no path, ready for JSON. */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { CriticalPoint } from '../statistics/anderson-darling.js';

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
