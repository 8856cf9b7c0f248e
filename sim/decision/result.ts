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

/** The three heights of a plan: the aim, at the latest, not before. */
export interface HeightDecision {
  /** "shown": there is a lowest height that serves; "none serves": every height is above a limit; "not shown": one may serve, but these flights do not show it. */
  readonly status: 'shown' | 'not shown' | 'none serves';
  /** At the latest: the lowest height shown to keep every limit, on two sets of flights; null without one. */
  readonly latest: number | null;
  /** The lowest height within on `explore`, which was flown again. */
  readonly candidate: number | null;
  /** Fresh flights in the order tried; the last is that of `latest`. */
  readonly confirmed: readonly HeightFigure[];
  /** Every height flown on `explore`, ascending. */
  readonly explored: readonly HeightFigure[];
  /** From "at the latest" up to "not before", the highest height shown to keep every limit; null where there is no latest. */
  readonly window: HeightWindow | null;
  /** The height to plan; null where there is no latest, and where none was sought. */
  readonly aim: HeightAim | null;
  /** The planned height against these heights; null where there is no latest, and where no aim was sought. */
  readonly plan: PlanAgainstHeights | null;
  /** The height whose worst criterion takes the least share of its limit, of those with the most flights; picked from many, so a little too good. */
  readonly least: HeightFigure;
  /** Flights a height that would settle "not shown" at the height of least risk; null where not to be said. */
  readonly flightsToSettle: number | null;
  /** Step between heights that a pilot can fly, m. */
  readonly step: number;
  readonly flights: number;
}

export interface HeightWindow {
  readonly from: number;
  readonly to: number;
  /** Heights shown to keep every limit, ascending, from `from` to `to`: those between them were not judged. */
  readonly shown: readonly number[];
  /** Whether every step from `from` to `to` is among them. */
  readonly isWhole: boolean;
  /** The next height flown above `to` and what is known of it; null when `to` is the highest flown. */
  readonly next: { readonly height: number; readonly verdict: Verdict } | null;
}

export interface HeightAim {
  readonly height: number;
  /** Its own fresh flights: nothing was picked by them, and they did not have to pass. */
  readonly figure: HeightFigure;
  /** Heights that differ from the least by no more than matters, as the smoothed curve has it. */
  readonly about: { readonly from: number; readonly to: number };
}

/** Where the planned height lies, by its own verdict. */
export interface PlanAgainstHeights {
  readonly place: 'inside' | 'under' | 'over' | 'not shown';
  /** Risk of the planned height minus that of the aim on the same fresh flights, 95 % interval; null where the plan is the aim. */
  readonly toAim: {
    readonly flights: number;
    readonly estimate: number;
    readonly lower: number;
    readonly upper: number;
    readonly matters: number;
    readonly verdict: 'aim saves' | 'plan saves' | 'no difference that matters' | 'not settled';
  } | null;
}
