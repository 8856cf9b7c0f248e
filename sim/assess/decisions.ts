/** What a study decides, as pieces of a result: plain data, no NaN, ready for JSON. */
import type { HeightDecision } from '../decision/result.js';
import type { SetName } from '../draws/draw.js';
import type { Proportion, Verdict } from '../statistics/proportion.js';
import type { Spread } from '../statistics/quantile.js';

/** The ground-impact probability over the inputs that nobody has measured. */
export interface WorldsResult {
  readonly height: number;
  readonly limit: number;
  readonly worlds: number;
  readonly flightsEach: number;
  /** Failures in each world. */
  readonly counts: readonly number[];
  readonly mean: number;
  readonly status: 'spread' | 'not distinguishable from none';
  /** Standard deviation between worlds; 0 where not distinguishable from none. */
  readonly sd: number;
  /** 5, 50 and 95 % of the probability over the worlds, and the beta law they come from; null where no spread. */
  readonly lower: number | null;
  readonly median: number | null;
  readonly upper: number | null;
  readonly law: { readonly a: number; readonly b: number } | null;
  /** Share of plausible worlds in which this height is within the limit, 90 % interval; null where no spread. */
  readonly shareWithin: { readonly estimate: number; readonly lower: number; readonly upper: number } | null;
}

/** What a measurement of one unmeasured input would leave of the spread between worlds. */
export interface MeasureRow {
  readonly path: string;
  /** Standard deviation of the risk that this input alone causes. */
  readonly sd: number;
  /** Its share of the variance between worlds, at most 1; null where the worlds show no spread. */
  readonly share: number | null;
  /** Standard deviation between worlds expected after a perfect measurement; null as above. */
  readonly sdAfter: number | null;
  /** Chance of an effect at least as large if there were none, Holm-corrected. */
  readonly pValue: number;
  readonly shown: boolean;
  /** For a chance from trials: what that many more trials would leave. */
  readonly moreTrials: readonly { readonly trials: number; readonly sdAfter: number | null }[];
}

/** One input's uniform draws in the failed flights against the uniform law. */
export interface DriverRow {
  readonly path: string;
  readonly distance: number;
  /** Holm-corrected over all inputs and groups of the study. */
  readonly pValue: number;
  readonly flagged: boolean;
  /** Where the failed flights crowd. */
  readonly crowds: 'low values' | 'high values' | 'both ends' | 'middle values';
}

export interface DriverGroup {
  /** "all" or a cause. */
  readonly cause: string;
  readonly failures: number;
  readonly status: 'ranked' | 'too few to rank';
  /** By distance, largest first; empty when too few. */
  readonly rows: readonly DriverRow[];
}

export interface DriversResult {
  readonly height: number;
  readonly flights: number;
  readonly groups: readonly DriverGroup[];
}

/** Flights saved in 100 when an input is held at one value; 90 % interval. */
export interface HelpRow {
  readonly path: string;
  readonly heldAt: 'median' | 'better end' | 'low end' | 'high end';
  readonly quantile: number;
  readonly savedInHundred: number;
  readonly lower: number;
  readonly upper: number;
  /** Failed flights that turned soft, of those flown again. */
  readonly saved: number;
  readonly failedFlown: number;
  /** Soft flights that turned, of those flown again. */
  readonly broken: number;
  readonly softFlown: number;
}

export interface HelpResult {
  readonly height: number;
  readonly flights: number;
  readonly failed: number;
  readonly rows: readonly HelpRow[];
}

/** A place in the range of a guess: its quantile in its own law, and the value there, SI. */
export interface TippingPlace {
  readonly quantile: number;
  readonly value: number;
}

/** How far one guess may be off before the verdict turns. */
export interface TippingRow {
  readonly path: string;
  readonly side: 'low' | 'high';
  /**
   * "turns": held there in all flights the estimated risk crosses the limit; "holds": it does not, up to the end of
   * the plausible range; "not on this side": even at its median it stands on the other side of the limit.
   */
  readonly status: 'turns' | 'holds' | 'not on this side';
  /** Where the estimate crosses the limit; null where it does not. */
  readonly crossing: TippingPlace | null;
  /** From the median to here the risk is clearly (one-sided 95 %) on the verdict's side; null where not even there. */
  readonly keeps: TippingPlace | null;
  /** Whether that is the end of the plausible range. */
  readonly keepsToEnd: boolean;
  /** From here on it is clearly on the other side; null where these flights do not show it. */
  readonly turned: TippingPlace | null;
  /** Risk with the input held at the end of the range; lower and upper each by one-sided 95 %. */
  readonly riskAtEnd: { readonly estimate: number; readonly lower: number; readonly upper: number };
  /** Flights flown for it with the input held; 0 where it is read off the plain flights. */
  readonly flights: number;
}

export interface TippingResult {
  readonly height: number;
  readonly limit: number;
  readonly plain: Proportion;
  /** Flights at that height from which they are read: the plain ones, and those of the search where there are any. */
  readonly flights: number;
  readonly rows: readonly TippingRow[];
}

/** All guesses at their pessimistic quarter at once. */
export interface PessimisticResult {
  readonly height: number;
  readonly limit: number;
  readonly held: readonly { readonly path: string; readonly quantile: number }[];
  /** Guesses left as drawn because their worse side is not known. */
  readonly left: readonly string[];
  readonly risk: Proportion;
  readonly verdict: Verdict;
}

/** How a study with `--until` stopped. */
export interface StoppingNote {
  /** Half-width asked for and reached, as probabilities. */
  readonly asked: number;
  readonly reached: number;
  readonly flights: number;
  readonly reason: 'narrow enough' | 'most flights reached';
}

/** `--assurance`: what nobody has measured, at the planned height, against the share of plausible worlds demanded. */
export interface AssuranceResult {
  /** Share of plausible worlds in which the planned height must be within the limit. */
  readonly demanded: number;
  /** The worlds at the planned height; null where nothing is unmeasured, so that there is one world alone. */
  readonly worlds: WorldsResult | null;
  /** Every criterion is within its limit at the planned height, and so is that share of the worlds. */
  readonly met: boolean;
}

/** What happens at one height, from the fresh flights flown there. */
export interface HeightFacts {
  readonly height: number;
  readonly set: SetName;
  readonly risk: Proportion;
  readonly orderTime: Spread;
  readonly orderHeight: Spread;
  readonly cueHeight: Spread;
  readonly arrestHeight: Spread;
}

/** What a study may have decided beyond its curve; null or absent where it was not asked or was interrupted. */
export interface Decisions {
  readonly heightDecision?: HeightDecision | null;
  /** The aim in numbers to act on; null where there is none. */
  readonly aim?: HeightFacts | null;
  readonly worlds?: WorldsResult | null;
  readonly drivers?: DriversResult | null;
  readonly help?: HelpResult | null;
  readonly measureFirst?: readonly MeasureRow[] | null;
  readonly tipping?: TippingResult | null;
  readonly pessimistic?: PessimisticResult | null;
  readonly stopping?: StoppingNote | null;
  readonly assurance?: AssuranceResult | null;
}

/** One cause with the flights it took at the planned height. */
export interface CauseRow {
  readonly cause: string;
  readonly risk: Proportion;
}
