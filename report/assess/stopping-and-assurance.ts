/**
 * A user may ask more than a number of flights: a width of the interval to stop at, or a share of plausible worlds to
 * be assured of.
 */

import type { AssuranceResult, StoppingNote } from '../../sim/assess/decisions.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { flightsText, metres, numberText, percentLimit, unbroken } from '../kit/words/numbers.js';

/** Null where no assurance was asked for, or its worlds were not all flown. */
export function assuranceSentence({ assurance, plannedHeight, warnings }: AssessResult): string | null {
  const exact = warnings.some(({ code }) => code === 'exact guesses');
  return assurance ? unbroken(assured(assurance, metres(plannedHeight), exact)) : null;
}

function assured({ demanded, worlds, met }: AssuranceResult, at: string, exact: boolean): string {
  const verdict = met ? 'met' : 'not met';
  const wanted = `Demanded: ${at} is within every limit, and in at least ${percentLimit(demanded)} of plausible worlds within the acceptable risk`;
  if (worlds === null && exact)
    return `${wanted}. Nothing is written as unmeasured, but guesses are taken as exact, so that no other world was flown: ${verdict}.`;
  if (worlds === null) return `${wanted}. Nothing is left unmeasured, so that there is one world only: ${verdict}.`;
  const { shareWithin } = worlds;
  const found =
    shareWithin === null
      ? 'the plausible worlds do not differ by more than chance'
      : `found are about ${Math.round(100 * shareWithin.estimate)} of 100 (${Math.floor(100 * shareWithin.lower)} to ${Math.ceil(100 * shareWithin.upper)})`;
  return `${wanted}; ${found}: ${verdict}.`;
}

/** Null where the number of flights was given. */
export function stoppingSentence({ stopping }: AssessResult): string | null {
  return stopping ? unbroken(stopped(stopping)) : null;
}

function stopped({ asked, reached, flights, reason }: StoppingNote): string {
  const width = (share: number) => `\u00b1${numberText(100 * share, 2)} in 100`;
  return reason === 'narrow enough'
    ? `Flown until the interval was as narrow as ${width(asked)}: after ${flightsText(flights)} it is ${width(reached)}. When it stops depends on the width alone, not on the verdict.`
    : `Asked for an interval of ${width(asked)}; after ${flightsText(flights)}, the most that are flown, it is ${width(reached)}.`;
}

/** The same as options of the command line. */
export function askedOptions({ stopping, assurance, flights }: AssessResult): readonly string[] {
  const percent = (share: number) => `${Number((100 * share).toPrecision(6))}%`;
  return [
    stopping ? `--until ${percent(stopping.asked)}` : `--flights ${flights}`,
    ...(assurance ? [`--assurance ${percent(assurance.demanded)}`] : []),
  ];
}
