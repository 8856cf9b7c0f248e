/** A height that was flown stands in some way to the limit, with how much it was flown. */
import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import type { Verdict } from '../../../sim/statistics/proportion.js';
import { countText, flightsText } from './numbers.js';
import { framesSentence, VERDICT_WORDS } from './sentences.js';

/**
 * A verdict is passed on all flights, or earlier by the search where a stricter bound allows it: any other height with fewer
 * is clearly above, or has too few to judge.
 */
export type Standing = Verdict | 'given up' | 'too few';

export const STANDINGS: readonly Standing[] = ['within', 'not shown', 'above', 'given up', 'too few'];

export function standingOf(
  point: HeightPoint,
  { flights, heightDecision }: Pick<AssessResult, 'flights' | 'heightDecision'>,
): Standing {
  if (point.risk.flights >= flights) return point.verdict;
  if (heightDecision?.explored.find(({ height }) => height === point.height)?.verdict === 'within') return 'within';
  return point.verdict === 'above' ? 'given up' : 'too few';
}

/** The symbol of the page, and the style class, that stands for it. */
export function standingMark(standing: Standing): string {
  return `verdict-${standing.replace(' ', '-')}`;
}

export function standingText(standing: Standing): string {
  if (standing === 'given up') return `${VERDICT_WORDS.above}, given up early`;
  return standing === 'too few' ? 'too few flights to judge' : VERDICT_WORDS[standing];
}

/** What its symbol means in a legend; `flights` is the full number. */
export function standingMeaning(standing: Standing, flights: number): string {
  return {
    within: 'within the limit: the whole interval is at or under it',
    'not shown': 'not shown: the interval reaches across it',
    above: 'above: the whole interval is over it',
    'given up': `above, given up before ${countText(flights)} flights`,
    'too few': `fewer than ${countText(flights)} flights: only looked at, too few to judge`,
  }[standing];
}

/** One line about a height that was flown, as the height slider reads it out. */
export function heightLine(point: HeightPoint, standing: Standing): string {
  const sentence = framesSentence(point.risk).split(';')[0];
  const few = standing === 'given up' || standing === 'too few' ? ` (of ${flightsText(point.risk.flights)} only)` : '';
  return `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}${few}: ${standingText(standing)}`;
}
