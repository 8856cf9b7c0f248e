/** Height and speed over time, of single flights and of many, are plain data, ready for JSON. */

import type { Outcome } from '../flight/record.js';

/** Height and speed over time for a few flights and the envelope of all at the planned height. */
export interface TimeHistory {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly time: readonly number[];
  readonly height: readonly number[];
  /** Fall speed, downwards positive. */
  readonly speed: readonly number[];
  readonly events: readonly { readonly name: string; readonly time: number; readonly height: number }[];
}

export interface EnvelopePoint {
  readonly time: number;
  /** 5, 50 and 95 % of height and of fall speed over flights still in the air; `flying` is their share. */
  readonly height: readonly [number, number, number];
  readonly speed: readonly [number, number, number];
  readonly flying: number;
}

/** A flight worth looking at again; `id` names it for `trace`, as "explore:17@250". */
export interface ListedFlight {
  readonly id: string;
  readonly why: string;
  readonly outcome: Outcome;
  readonly cause: string;
  readonly touchdownSpeed: number;
}
