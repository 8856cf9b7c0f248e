/** One flight as its page is handed it. */
import type { Scenario } from '../../sim/scenario/scenario.js';

/** One flight with all that names it; the trace itself as the flight model hands it over. */
export interface ReportedTrace {
  /** Such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  readonly scenario: Scenario;
  readonly seed: string;
  /** Version of the program. */
  readonly program: string;
  readonly trace: {
    readonly record: { readonly outcome: number; readonly cause: number; readonly values: ArrayLike<number> };
    readonly events: readonly { readonly name: string; readonly time: number; readonly height: number }[];
    readonly columns: readonly string[];
    readonly rows: readonly (readonly number[])[];
  };
}
