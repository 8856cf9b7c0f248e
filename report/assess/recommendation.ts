/**
 * The recommendation names the height that a study has found, or says what would have to change where it found none.
 */

import type { AssessResult } from '../../sim/assess/result.js';
import type { HeightDecision, HeightFigure } from '../../sim/decision/result.js';
import { proportionText } from '../../sim/statistics/words.js';
import { inputName } from '../kit/words/inputs.js';
import { countText, fixedText, flightsText, metres, percentLimit, unbroken } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { windowText } from './curve-finding.js';

export interface Recommendation {
  readonly sentence: string;
  readonly detail: string;
}

/** Null where the study did not look for a height: nothing is called recommended then. */
export function recommendation(result: AssessResult): Recommendation | null {
  const { heightDecision } = result;
  if (heightDecision === undefined || heightDecision === null) return null;
  const { sentence, detail } =
    heightDecision.status === 'recommended' && heightDecision.height !== null
      ? recommended(heightDecision, heightDecision.height, result.plannedHeight)
      : notRecommended(heightDecision, result);
  return { sentence: unbroken(sentence), detail: unbroken(detail) };
}

function recommended(decision: HeightDecision, height: number, planned: number): Recommendation {
  const fresh = decision.confirmed.find((figure) => figure.height === height);
  const again = fresh === undefined ? '' : `, and did so again on ${countText(fresh.flights)} fresh flights`;
  const window = decision.window === null ? '' : ` ${capitalised(windowText(decision.window))}.`;
  return {
    sentence:
      height === planned
        ? `The planned ${metres(planned)} is also the recommended height.`
        : `Recommended throttle-up height: ${metres(height)}; planned is ${metres(planned)}.`,
    detail: `It is the lowest, in steps of ${metres(decision.step)}, that keeps every limit together with the next step up${again}.${window}`,
  };
}

function notRecommended(decision: HeightDecision, result: AssessResult): Recommendation {
  const none = decision.status === 'none serves';
  const settle =
    none || decision.flightsToSettle === null
      ? ''
      : ` About ${flightsText(decision.flightsToSettle)} at each height would settle it.`;
  return {
    sentence: none
      ? 'No height serves: every one that was flown is above a limit.'
      : 'No height is recommended: one may serve, but these flights do not show it.',
    detail: `${leastText(decision.least, none)}${settle}${changeText(decision, result)}`,
  };
}

/** The least risk seen, and how far each limit is missed there. */
function leastText({ height, criteria }: HeightFigure, none: boolean): string {
  const told = criteria.filter(({ verdict }, index) => index === 0 || verdict !== 'within');
  const missed = told.map(({ name, limit, risk }) => {
    const excess = 100 * (risk.estimate - limit);
    const found = `${name} ${proportionText(risk)}, acceptable ${percentLimit(limit)}`;
    return excess > 0 ? `${found}: about ${fixedText(excess, excess < 10 ? 1 : 0)} flights in 100 too many` : found;
  });
  return `${none ? 'The best height seen is' : 'The most promising is'} ${metres(height)}, picked from many and so a little flattered: ${missed.join('; ')}.`;
}

/** What could be changed, with the strongest help that the study knows. */
function changeText({ status, flightsToSettle, least }: HeightDecision, { help }: AssessResult): string {
  const first = help?.rows[0];
  const strongest =
    first !== undefined && first.lower > 0
      ? ` At ${metres(help?.height ?? 0)} most would be gained by the ${inputName(first.path)} at its ${first.heldAt}: ${fixedText(first.savedInHundred, 1)} flights saved in 100 (${fixedText(first.lower, 1)} to ${fixedText(first.upper, 1)}).`
      : '';
  const what =
    status === 'none serves'
      ? ' Change the design, the cue or the day: the height alone does not do it.'
      : flightsToSettle === null && least.verdict !== 'within'
        ? ' More flights would hardly settle it: change the design, the cue or the day.'
        : '';
  return `${what}${strongest}`;
}
