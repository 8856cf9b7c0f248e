/**
 * Three heights in words: the aim, at the latest, not before; and the planned height against them. Where the study found
 * none, what would have to change.
 */

import type { AssessResult } from '../../sim/assess/result.js';
import type { HeightAim, HeightDecision, HeightFigure, HeightWindow } from '../../sim/decision/result.js';
import { differenceParts, proportionText } from '../../sim/statistics/words.js';
import { inputName } from '../kit/words/inputs.js';
import {
  countText,
  fixedText,
  flightsText,
  metres,
  percentLimit,
  plainText,
  unbroken,
  withMinus,
} from '../kit/words/numbers.js';

export interface ThreeHeights {
  /** The planned height against the three, or that there are none. */
  readonly sentence: string;
  /** The three heights, each with what it is; empty where there are none. */
  readonly heights: readonly { readonly word: string; readonly text: string }[];
  /** What was judged, or what would have to change. */
  readonly detail: string;
}

/** Null where the study did not look for heights. */
export function threeHeights(result: AssessResult): ThreeHeights | null {
  const { heightDecision } = result;
  if (heightDecision === undefined || heightDecision === null) return null;
  const { window } = heightDecision;
  const found = window === null ? noHeights(heightDecision, result) : someHeights(heightDecision, window, result);
  return {
    sentence: unbroken(found.sentence),
    heights: found.heights.map(({ word, text }) => ({ word, text: unbroken(text) })),
    detail: unbroken(found.detail),
  };
}

function someHeights(decision: HeightDecision, window: HeightWindow, result: AssessResult): ThreeHeights {
  const { aim } = decision;
  const lowest = decision.confirmed[decision.confirmed.length - 1];
  return {
    sentence: planSentence(decision, window, result.plannedHeight),
    heights: [
      ...(aim === null ? [] : [{ word: 'Aim', text: aimText(aim) }]),
      {
        word: 'At the latest',
        text: `${metres(window.from)}: ${figureText(lowest)}. The lowest height shown to keep every limit, together with the next step up: the riskiest that is still acceptable.${littleLow(lowest.flights)}`,
      },
      { word: 'Not before', text: notBeforeText(window) },
    ],
    detail: `${shownText(window)}.`,
  };
}

/** Fresh flights under which a figure that had to pass is told to be a little low. */
const FEW_FRESH = 2000;

/** In simulated studies 3 to 11 % of itself with 1000 flights, 10 to 29 % with 500. */
function littleLow(flights: number): string {
  if (flights >= FEW_FRESH) return '';
  return ` With so few flights its figure is still a little low, because it had to pass: by about ${flights >= 1000 ? 'a twentieth' : 'a fifth'} of itself.`;
}

function figureText({ criteria, flights }: HeightFigure): string {
  return `risk ${proportionText(criteria[0].risk)} on ${countText(flights)} fresh flights`;
}

function aimText({ height, figure, about }: HeightAim): string {
  const alike =
    about.from === about.to
      ? 'The height of least risk.'
      : `From ${metres(about.from)} to ${metres(about.to)} the smoothed risk differs from the least by half a flight in 100 or less; of these heights the aim is the most central with at most a tenth of a flight over the least.`;
  if (figure.verdict === 'within') return `${metres(height)}: ${figureText(figure)}. ${alike}`;
  return `none. ${metres(height)} looked the least risky, but its fresh flights do not show it to keep every limit: ${figureText(figure)}.`;
}

function notBeforeText({ to, next }: HeightWindow): string {
  const over =
    next === null
      ? 'no higher one was flown'
      : `at ${metres(next.height)} ${next.verdict === 'above' ? 'one is broken' : 'that is not shown'}`;
  return `${metres(to)}, the highest height shown to keep every limit; ${over}.`;
}

/** Which heights were judged and keep every limit: "from .. to" only where every step between was. */
export function shownText({ from, to, shown, isWhole }: HeightWindow): string {
  if (from === to) return `Shown to keep every limit at ${metres(from)} alone`;
  if (isWhole) return `Shown to keep every limit from ${metres(from)} to ${metres(to)}, at every step`;
  return `Shown to keep every limit at ${shown.map(plainText).join(', ')}\u00a0m; heights between them were not judged`;
}

function planSentence({ plan, aim }: HeightDecision, { from, to }: HeightWindow, planned: number): string {
  if (plan === null) return `Heights from ${metres(from)} on are shown to keep every limit.`;
  const place = {
    inside: `The planned ${metres(planned)} lies inside the window of ${metres(from)} to ${metres(to)}`,
    under: `The planned ${metres(planned)} lies under the lowest height shown to serve, ${metres(from)}`,
    over: `The planned ${metres(planned)} lies over the highest height shown to serve, ${metres(to)}`,
    'not shown': `The planned ${metres(planned)} lies between ${metres(from)} and ${metres(to)}, but is not itself shown to keep every limit`,
  }[plan.place];
  if (aim === null || aim.figure.verdict !== 'within') return `${place}.`;
  if (plan.toAim === null) return `${place}, and it is the aim.`;
  const at = metres(aim.height);
  const { estimate, lower, upper } = differenceParts(plan.toAim);
  const range = `${withMinus(lower)} to ${withMinus(upper)}`;
  const keep = plan.place === 'inside' ? ': keep your plan' : '';
  switch (plan.toAim.verdict) {
    case 'aim saves':
      return `${place}; moving to the aim of ${at} would save about ${withMinus(estimate)} flights in 100 (${range}).`;
    case 'plan saves':
      return `${place}; moving to the aim of ${at} would save nothing (${range} flights in 100)${keep}.`;
    case 'no difference that matters':
      return `${place}; to the aim of ${at} there is no difference that matters (${range} flights in 100)${keep}.`;
    case 'not settled':
      return `${place}; whether moving to the aim of ${at} saves anything is not settled (${range} flights in 100).`;
  }
}

function noHeights(decision: HeightDecision, result: AssessResult): ThreeHeights {
  const none = decision.status === 'none serves';
  const settle =
    none || decision.flightsToSettle === null
      ? ''
      : ` About ${flightsText(decision.flightsToSettle)} at each height would settle it.`;
  return {
    sentence: none
      ? 'No height serves: every one that was flown is above a limit.'
      : 'No height is shown to serve: one may, but these flights do not show it.',
    heights: [],
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
