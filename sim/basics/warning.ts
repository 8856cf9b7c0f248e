/** A warning about the result, with what to do about it. */
export interface Warning {
  readonly code: string;
  readonly text: string;
  readonly advice: string;
}
