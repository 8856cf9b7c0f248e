/** A warning about a result, with advice on what to do. */
export interface Warning {
  readonly code: string;
  readonly text: string;
  readonly advice: string;
}
