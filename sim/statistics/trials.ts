/**
 * Share of the variance of an unmeasured chance with law Beta(a, b) that is expected to be left after n more trials:
 * (a + b)/(a + b + n). Exact: the mean of the posterior variance over the outcomes of the trials.
 */
export function varianceLeft(a: number, b: number, trials: number): number {
  return (a + b) / (a + b + trials);
}

/** Shapes of the Jeffreys law of a chance after `failures` in `trials`: Beta(failures + 1/2, trials - failures + 1/2). */
export function jeffreysShapes(failures: number, trials: number): { readonly a: number; readonly b: number } {
  return { a: failures + 0.5, b: trials - failures + 0.5 };
}
