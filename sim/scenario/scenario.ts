/** A scenario as read and resolved: plain data, SI units, safe to send to a worker or to keep in a result. */

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

export interface ResolvedInput {
  /** Path in the scenario file, such as "can.mass"; also the name of the input's random stream. */
  readonly path: string;
  readonly shape: 'quantity' | 'chance';
  readonly value: FixedValue | UncertainValue;
  /** Unit for showing, and the factor and offset from SI: shown = si * perSi + offset. */
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
  /** Where it comes from: "measured", "datasheet", "guess" or "standard" (the program's default); free note after it. */
  readonly source: 'measured' | 'datasheet' | 'guess' | 'standard' | 'decided' | 'not said';
  readonly note: string;
  /** As written in the file, on one line, such as "normal, mean 610 g, sd 5 g". */
  readonly written: string;
}

/** Rank correlation (Spearman) between two scalar inputs of the same kind. */
export interface Correlation {
  readonly between: readonly [string, string];
  readonly rank: number;
}

export interface Scenario {
  readonly title: string;
  readonly about: string;
  readonly invented: boolean;
  /** Every quantity and chance that the scenario has (left-out optional ones are absent), in the definition's order. */
  readonly inputs: readonly ResolvedInput[];
  /** Choices, texts, tables and lists by path. */
  readonly settings: Readonly<
    Record<string, string | readonly (readonly number[])[] | readonly Readonly<Record<string, string | number>>[]>
  >;
  /** Paths of optional sections that the scenario leaves out. */
  readonly leftOut: readonly string[];
  readonly correlations: readonly Correlation[];
  /** SHA-256 (hex) of the title and of all that decides how flights go and are judged; provenance is not in it. */
  readonly hash: string;
}

/** A fixed input in SI units; null where the scenario has none or gives a distribution. */
export function fixedOrNull(scenario: Scenario, path: string): number | null {
  const value = scenario.inputs.find((input) => input.path === path)?.value;
  return value?.form === 'fixed' ? value.value : null;
}

/** A decision or a limit: one number, SI. Anything else is a bug. */
export function fixedInput(scenario: Scenario, path: string): number {
  const value = fixedOrNull(scenario, path);
  if (value === null) throw new Error(`${path} is not one fixed value`);
  return value;
}
