/** What is known and decided of throttle-up heights, as pieces of a result: plain data, no NaN, ready for JSON. */

import type { SetName } from '../draws/draw.js';
import type { Proportion, Verdict } from '../statistics/proportion.js';

/** What was found of one criterion at one height. */
export interface CriterionFigure {
  readonly name: string;
  readonly limit: number;
  /** Only where the limit is the program's own, because the file names none. */
  readonly assumed?: true;
  readonly risk: Proportion;
  readonly verdict: Verdict;
}

/** All criteria at one height, on the first `flights` flights of a set. */
export interface HeightFigure {
  readonly height: number;
  readonly set: SetName;
  readonly flights: number;
  readonly criteria: readonly CriterionFigure[];
  /** "within": every criterion is; "above": one is; else "not shown". */
  readonly verdict: Verdict;
  /** Given up early: even the 99.9 % lower bound of a criterion, this one, is over its limit. Read as "more than". */
  readonly moreThan: { readonly name: string; readonly risk: number } | null;
}

/** The recommended throttle-up height. */
export interface HeightDecision {
  /** "none serves": every height is above a limit; "not shown": one may serve, but these flights do not show it. */
  readonly status: 'recommended' | 'not shown' | 'none serves';
  readonly height: number | null;
  /** The lowest height within on `explore`, which was flown again. */
  readonly candidate: number | null;
  /** Fresh flights in the order tried; the last is that of the recommended height. */
  readonly confirmed: readonly HeightFigure[];
  /** Every height flown on `explore`, ascending. */
  readonly explored: readonly HeightFigure[];
  /** Heights within every criterion: from the recommended one up to the highest shown; null without a recommendation. */
  readonly window: {
    readonly from: number;
    readonly to: number;
    /** The next height flown above `to` and what is known of it; null when `to` is the highest flown. */
    readonly next: { readonly height: number; readonly verdict: Verdict } | null;
  } | null;
  /** The height whose worst criterion takes the least share of its limit, of those with the most flights; picked from many, so a little too good. */
  readonly least: HeightFigure;
  /** Flights a height that would settle "not shown" at the height of least risk; null where not to be said. */
  readonly flightsToSettle: number | null;
  /** Step between heights that a pilot can fly, m. */
  readonly step: number;
  readonly flights: number;
}
