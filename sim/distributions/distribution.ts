/** Distributions as a scenario states them: plain data, SI units. */

/** Which kind of uncertainty an input has. */
export type Uncertainty = 'varies from flight to flight' | 'fixed but not measured';

export interface FixedValue {
  readonly form: 'fixed';
  readonly value: number;
}

/** A parameter of a distribution: a number, or itself one fixed value that nobody has measured. */
export type Parameter = number | UncertainValue;

export type Distribution =
  | { readonly family: 'normal'; readonly mean: Parameter; readonly sd: Parameter }
  /** `spread` is the standard deviation of the natural logarithm. */
  | { readonly family: 'log-normal'; readonly median: Parameter; readonly spread: Parameter }
  | { readonly family: 'uniform'; readonly from: Parameter; readonly to: Parameter }
  | { readonly family: 'triangular'; readonly from: Parameter; readonly mode: Parameter; readonly to: Parameter }
  /** Beta with shapes a and b, stretched to [from, to]. */
  | {
      readonly family: 'beta';
      readonly a: Parameter;
      readonly b: Parameter;
      readonly from: Parameter;
      readonly to: Parameter;
    }
  | { readonly family: 'weibull'; readonly shape: Parameter; readonly scale: Parameter }
  /** Measured values, sorted; drawn by linear interpolation between them (R type 7). */
  | { readonly family: 'samples'; readonly values: readonly number[] }
  /** A chance known from trials: Beta(failures + 1/2, trials - failures + 1/2), the Jeffreys posterior. */
  | { readonly family: 'trials'; readonly trials: number; readonly failures: number };

export interface UncertainValue {
  readonly form: 'uncertain';
  readonly distribution: Distribution;
  readonly kind: Uncertainty;
  /** The distribution is cut to [atLeast, atMost] (renormalised); infinite where no bound. */
  readonly atLeast: number | null;
  readonly atMost: number | null;
}

/** Rank correlation (Spearman) between two scalar inputs of the same kind. */
export interface Correlation {
  readonly between: readonly [string, string];
  readonly rank: number;
}
