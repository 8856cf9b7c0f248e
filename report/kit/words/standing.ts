/** A height that was flown stands in some way to the limit, with how much it was flown. */
import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import type { Verdict } from '../../../sim/statistics/proportion.js';
import { countText, flightsText } from './numbers.js';
import { framesSentence, VERDICT_WORDS } from './sentences.js';

/**
 * How a view shows the one verdict on a height, which stands in the result. It is passed on all flights, or earlier by the search where a stricter bound allows it: any other height with fewer
 * is clearly above, or has too few to judge.
 */
export type Standing = Verdict | 'given up' | 'too few';

export const STANDINGS: readonly Standing[] = ['within', 'not shown', 'above', 'given up', 'too few'];

export function standingOf(point: HeightPoint, { flights }: Pick<AssessResult, 'flights'>): Standing {
  if (point.risk.flights >= flights || point.verdict === 'within') return point.verdict;
  return point.verdict === 'above' ? 'given up' : 'too few';
}

/** The symbol of the page, and the style class, that stands for it. */
export function standingMark(standing: Standing): string {
  return `verdict-${standing.replace(' ', '-')}`;
}

export function standingText(standing: Standing): string {
  if (standing === 'given up') return 'over the limit, given up early';
  return standing === 'too few' ? 'too few flights to judge' : VERDICT_WORDS[standing];
}

/** What its symbol means in a legend; `flights` is the full number. */
export function standingMeaning(standing: Standing, flights: number): string {
  return {
    within: 'within every limit: all intervals are at or under theirs',
    'not shown': 'not shown: an interval reaches across its limit',
    above: 'above a limit: an interval lies over it',
    'given up': `over a limit, given up before ${countText(flights)} flights`,
    'too few': `fewer than ${countText(flights)} flights: only looked at, too few to judge`,
  }[standing];
}

/** One line about a height that was flown, as the height slider reads it out. */
export function heightLine(point: HeightPoint, standing: Standing): string {
  const sentence = framesSentence(point.risk).split(';')[0];
  const few = standing === 'given up' || standing === 'too few' ? ` (of ${flightsText(point.risk.flights)} only)` : '';
  return `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}${few}: ${standingText(standing)}`;
}
