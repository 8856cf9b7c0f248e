/** What learning from flights is asked with. */
import type { FlightColumns } from '../flight/record.js';
import type { ReconstructResult } from '../reconstruct/result.js';
import type { Scenario } from '../scenario/scenario.js';

export interface LearnRequest {
  /** The scenario to learn about, and its flights at the planned height, world after world. */
  readonly scenario: Scenario;
  readonly flights: FlightColumns;
  /** The scenario in which the logs were flown, where it is another, with its flights in the same worlds. */
  readonly flownIn: { readonly scenario: Scenario; readonly flights: FlightColumns } | null;
  readonly seed: string;
  readonly worlds: number;
  readonly each: number;
  readonly logs: readonly ReconstructResult[];
  /** As the fragment should name the scenario's file. */
  readonly file: string;
  readonly moved?: MovedWorlds;
  /** Whether the study was stopped before it was done. */
  readonly partial?: boolean;
}

/** Worlds that were not drawn as they are held plausible. */
export interface MovedWorlds {
  /** Worlds in each wave, all `worlds` together; the first wave is of plausible worlds as they are. */
  readonly waves: readonly number[];
  /** ln of plausible density over that by which each world was drawn. */
  readonly corrections: Float64Array;
  /** Uniform numbers of all worlds for a drawn number that was moved; null for one that was not. */
  uniforms(name: string): Float64Array | null;
}
