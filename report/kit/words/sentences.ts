/** Several parts of a page share these sentences. */
import type { CriterionFigure } from '../../../sim/decision/result.js';
import type { Proportion, Verdict } from '../../../sim/statistics/proportion.js';
import { bothFrames, percentParts } from '../../../sim/statistics/words.js';
import { flightsText, unbroken } from './numbers.js';

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  within: 'within the limit',
  above: 'above the limit',
  'not shown': 'not shown',
};

/** Whether all limits are kept, as what follows "A" or "The design": "is above a limit: ground impact". */
export function limitsKept(overall: Verdict, criteria: readonly CriterionFigure[]): string {
  const names = criteria.filter(({ verdict }) => verdict === overall).map(({ name }) => name);
  if (overall === 'within') return 'keeps every limit';
  return overall === 'above'
    ? `is above a limit: ${names.join(' and ')}`
    : `is not shown to keep every limit: ${names.join(' and ')}`;
}

export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "About 4 flights in 100 do not land softly; about 96 flights in 100 do." */
export function framesSentence(risk: Proportion): string {
  const { count, flights } = risk;
  if (flights === 0) return 'Nothing was flown.';
  if (count === 0) return `All of ${flightsText(flights)} landed softly.`;
  if (count === flights) return `None of ${flightsText(flights)} landed softly.`;
  const { hitsHard, landsSoftly } = bothFrames(risk);
  return unbroken(
    `${capitalised(hitsHard)} ${verb(hitsHard, 'does', 'do')} not land softly; ${landsSoftly} ${verb(landsSoftly, 'does', 'do')}.`,
  );
}

/** "about 4 do not land softly, about 96 do", of a hundred. */
export function inHundred(risk: Proportion): string {
  const { hitsHard, landsSoftly } = bothFrames(risk);
  const short = (words: string) => words.replace(/ flights? in 100$/, '');
  return `${short(hitsHard)} ${verb(hitsHard, 'does', 'do')} not land softly, ${short(landsSoftly)} ${verb(landsSoftly, 'does', 'do')}`;
}

/** The form of a verb that goes with a frequency in words. */
export function verb(flights: string, one: string, many: string): string {
  return /\b1 flight\b/.test(flights) ? one : many;
}

/** The end of the interval that decides, in percent, rounded away from the middle. */
export function upperEnd(risk: Proportion): string {
  return `${percentParts(risk).upper}\u00a0%`;
}

/** The lower end, rounded away from the middle as well. */
export function lowerEnd(risk: Proportion): string {
  return `${percentParts(risk).lower}\u00a0%`;
}
