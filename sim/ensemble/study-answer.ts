/** What comes of a study: its result, or why it cannot be flown, or nothing because it was stopped at once. */

import type { Answer } from '../basics/answer.js';

export type StudyAnswer<T> = Answer<T> | NothingFlown;

/** Stopped before there was anything to keep: not a flight, a pair of flights or a cell. */
export interface NothingFlown {
  readonly status: 'nothing flown';
}

export const NOTHING_FLOWN: NothingFlown = { status: 'nothing flown' };
