/** A flight on its way: everything that the code that flies it is handed. */
import type { Craft } from './craft.js';
import type { Journal } from './journal.js';
import type { Situation } from './situation.js';
import type { Timers } from './timers.js';

/** Everything one flight is flown with. */
export interface Course {
  readonly craft: Craft;
  readonly s: Situation;
  readonly timers: Timers;
  readonly journal: Journal;
  /** Factor on all steps: 1, or less to check the steps. */
  readonly stepScale: number;
  /** Hears of every accepted step, for the trace. */
  observer: (() => void) | null;
}
