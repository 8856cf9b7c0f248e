/** What the question "how wrong may a guess be" is asked with. */
import type { SetName } from '../../draws/draw.js';
import type { Flyer } from '../../ensemble/flyer.js';
import type { FlightColumns } from '../../flight/record.js';
import type { AskedInput } from './held-input.js';

/** Sets in which every flight draws its guesses anew. */
export type PlainSet = Exclude<SetName, 'worlds'>;

/** A guess: one fixed value that nobody has measured, or a parameter of a distribution. */
export interface TippingInput extends AskedInput {
  /** Its quantile in each plain flight of a set. */
  readonly uniforms: (set: SetName, flights: number) => ArrayLike<number>;
  /**
   * Whether it must be held in flights of its own: it is drawn together with other inputs, so that where it is high they
   * are too, or it takes a few values, over which the risk jumps.
   */
  readonly mustBeHeld?: boolean;
}

export interface TippingRequest {
  readonly flyer: Flyer;
  /** Plain flights 0 to n - 1 of the set at the height; in each, every guess was drawn anew. */
  readonly plain: FlightColumns;
  readonly set: PlainSet;
  /** Plain flights of another set at the same height, if there are any. */
  readonly further?: { readonly plain: FlightColumns; readonly set: PlainSet };
  readonly limit: number;
  readonly inputs: readonly TippingInput[];
  /** The value of an input at a quantile of its own law, SI. */
  readonly valueAt: (path: string, quantile: number) => number;
  /** Flights flown at the end of the range of a guess that must be held. */
  readonly sample?: number;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}
