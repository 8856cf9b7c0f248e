/** How far the verdict holds for what nobody has measured: the sentence under the risk, and the mark of the headline. */

import type { AssessResult } from '../../sim/assess/result.js';
import type { Verdict } from '../../sim/statistics/proportion.js';
import { percentEnd } from '../../sim/statistics/words.js';
import { countText, percentLimit, unbroken } from '../kit/words/numbers.js';
import { standingMark } from '../kit/words/standing.js';

type Judged = Pick<AssessResult, 'doubt' | 'overall' | 'acceptableRisk'>;

/** The range that nobody has measured, the share of plausible cases within the limit, and the guesses. */
export function doubtSentence({ doubt, acceptableRisk }: Judged): string {
  const { guesses, inputs } = doubt;
  const guessed = `${countText(guesses)} of ${countText(inputs)} inputs ${guesses === 1 ? 'is a guess' : 'are guesses'}.`;
  return unbroken(`${rangeText(doubt, acceptableRisk)} ${guessed}`);
}

function rangeText({ status, lower, upper, shareWithin }: AssessResult['doubt'], limit: number): string {
  switch (status) {
    case 'spread':
      return `What nobody has measured could make it ${percentEnd(lower ?? 0)} to ${percentEnd(upper ?? 1)} %: within the acceptable ${percentLimit(limit)} in about ${Math.round(100 * (shareWithin ?? 0))} of 100 plausible cases.`;
    case 'no spread seen':
      return 'What nobody has measured makes no difference that these flights can see, which does not prove that there is none.';
    case 'nothing unmeasured':
      return 'Nothing is said to be left unmeasured, so that there is one case only.';
    case 'not asked':
      return 'What nobody has measured was not asked here, so that nobody knows how far this holds (leave out --heights, or give --assurance).';
  }
}

/** Beside the verdict, where it is one: whether it holds in nine of ten plausible cases. */
export function firmness({ doubt, overall }: Pick<Judged, 'doubt' | 'overall'>): string {
  if (overall === 'not shown') return '';
  if (doubt.isFirm) return 'That holds in nine of ten plausible cases or more.';
  return doubt.shareHolding === null
    ? 'How firmly is not known.'
    : `That holds in about ${Math.round(100 * doubt.shareHolding)} of 100 plausible cases only.`;
}

/** The symbol of the headline: full where the verdict is firm, half where it is not. */
export function headlineMark({
  doubt,
  overall,
}: {
  readonly doubt: { readonly isFirm: boolean };
  readonly overall: Verdict;
}) {
  return overall === 'not shown' || doubt.isFirm ? standingMark(overall) : `${standingMark(overall)}-half`;
}

/** The same as a sign of text. */
export function headlineSign({ doubt, overall }: Pick<Judged, 'doubt' | 'overall'>): string {
  const signs = { within: ['●', '◐'], above: ['▲', '△'], 'not shown': ['◇', '◇'] } as const;
  return signs[overall][doubt.isFirm ? 0 : 1];
}
