/** What every family of distributions can do; its parameters lie in one array, in the order that the family states. */
export interface Family {
  /** Names of the parameters, as in a scenario's distribution, in the order in which they lie in the array. */
  readonly names: readonly string[];
  /**
   * The x with P(X < x) = `below` and P(X > x) = `above`. Their sum is 1; both are given so that neither tail loses
   * digits: the smaller one is used.
   */
  quantile(below: number, above: number, parameters: Float64Array): number;
  /** P(X < x). */
  below(x: number, parameters: Float64Array): number;
  /** P(X > x). */
  above(x: number, parameters: Float64Array): number;
  /**
   * Puts parameters that were drawn themselves into the family's range (no negative scale, from <= mode <= to), so
   * that an unlucky draw of an ill-chosen parameter never gives NaN. Absent where no parameter can be drawn.
   */
  settle?(parameters: Float64Array): void;
}

/** The smallest shape of a Weibull or beta distribution that `settle` leaves: with it no quantile overflows. */
export const LEAST_SHAPE = 0.05;
