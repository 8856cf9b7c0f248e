/** The recommended height in words, where a study has one to give. */
import type { HeightDecision, HeightFigure } from '../../sim/result/decisions.js';
import { proportionText } from '../../sim/statistics/words.js';
import type { ReportedResult } from '../decisions.js';
import { countText, flightsText, metres, unbroken } from '../words/numbers.js';

export interface Recommendation {
  readonly sentence: string;
  readonly detail: string;
}

/** Null where the study did not look for a height: nothing is called recommended then. */
export function recommendation({ heightDecision, plannedHeight }: ReportedResult): Recommendation | null {
  if (heightDecision === undefined || heightDecision === null) return null;
  const { sentence, detail } = decided(heightDecision, plannedHeight);
  return { sentence: unbroken(sentence), detail: unbroken(detail) };
}

function decided(decision: HeightDecision, planned: number): Recommendation {
  const least = leastText(decision.least);
  if (decision.status === 'none serves') {
    return {
      sentence: 'No height serves: every one that was flown is above a limit.',
      detail: `The least risk seen is ${least}. Change the design, the cue or the day, not the height.`,
    };
  }
  if (decision.status === 'not shown' || decision.height === null) {
    const settle =
      decision.flightsToSettle === null
        ? ''
        : ` About ${flightsText(decision.flightsToSettle)} at each height would settle it.`;
    return {
      sentence: 'No height is recommended: one may serve, but these flights do not show it.',
      detail: `The least risk seen is ${least}.${settle}`,
    };
  }
  const fresh = decision.confirmed.find((figure) => figure.height === decision.height);
  const shown =
    fresh === undefined
      ? ''
      : ` Flown again on ${countText(fresh.flights)} fresh flights: ${fresh.criteria.map(({ name, risk }) => `${name} ${proportionText(risk)}`).join(', ')}.`;
  return {
    sentence:
      decision.height === planned
        ? `The planned ${metres(planned)} is also the recommended height.`
        : `Recommended throttle-up height: ${metres(decision.height)}; planned is ${metres(planned)}.`,
    detail: `It is the lowest in steps of ${metres(decision.step)} that keeps every limit, with the next step up.${shown}${windowText(decision)}`,
  };
}

function windowText({ window }: HeightDecision): string {
  if (window === null) return '';
  const next =
    window.next === null
      ? ', the highest flown'
      : `; ${metres(window.next.height)} is ${window.next.verdict === 'above' ? 'above a limit' : 'not shown'}`;
  return ` Heights within every limit: ${metres(window.from)} to ${metres(window.to)}${next}.`;
}

function leastText(figure: HeightFigure): string {
  const impact = figure.criteria[0];
  return impact === undefined
    ? `at ${metres(figure.height)}`
    : `${proportionText(impact.risk)} at ${metres(figure.height)}`;
}
