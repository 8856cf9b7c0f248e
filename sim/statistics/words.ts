import type { Proportion } from './proportion.js';

/**
 * Probability level of MIL-STD-882E (2012), table A-II, for a probability per flight. The word only: no severity and
 * no compliance is claimed. It belongs to a hazard, all its causes together: each part of a divided hazard would get a
 * milder word, though nothing became less likely.
 */
export function riskWord(probability: number): 'frequent' | 'probable' | 'occasional' | 'remote' | 'improbable' {
  if (probability >= 1e-1) return 'frequent';
  if (probability >= 1e-2) return 'probable';
  if (probability >= 1e-3) return 'occasional';
  return probability >= 1e-6 ? 'remote' : 'improbable';
}

/**
 * Decimals that a figure bears whose interval has this half-width: one significant digit of the half-width, two when
 * it begins with 1 (common practice, no source; JCGM 100:2008, 7.2.6 allows at most two).
 */
export function decimalsBorne(halfWidth: number): number {
  if (!(halfWidth > 0)) return 0;
  const exponent = Math.floor(Math.log10(halfWidth));
  const leading = halfWidth / 10 ** exponent;
  return Math.min(12, Math.max(0, -exponent + (leading < 2 ? 1 : 0)));
}

/** Tolerance in units of the last digit, so that 0.05 * 100 stays 5. */
const SLACK = 1e-9;

/** Rounds away from the middle of the interval: an end that is printed never looks better than it is. */
export function roundDown(value: number, decimals: number): string {
  return (Math.floor(value * 10 ** decimals + SLACK) / 10 ** decimals).toFixed(decimals);
}

export function roundUp(value: number, decimals: number): string {
  return (Math.ceil(value * 10 ** decimals - SLACK) / 10 ** decimals).toFixed(decimals);
}

/** A proportion in percent with the digits its interval bears, ends rounded outwards, such as 3.1, 2.6 and 3.7. */
export function percentParts(risk: Proportion): {
  readonly estimate: string;
  readonly lower: string;
  readonly upper: string;
} {
  const decimals = decimalsBorne(50 * (risk.upper - risk.lower));
  return {
    estimate: (100 * risk.estimate).toFixed(decimals),
    lower: roundDown(100 * risk.lower, decimals),
    upper: roundUp(100 * risk.upper, decimals),
  };
}

/**
 * An end of a spread over what nobody has measured, in %: one digit under 10 %, whole percents from there (one digit would
 * turn 13 % into 10 %).
 */
export function percentEnd(probability: number): string {
  const percent = 100 * probability;
  const rounded = percent >= 9.5 ? Math.round(percent) : Number(percent.toPrecision(1));
  if (!(rounded > 0)) return '0';
  return rounded.toFixed(Math.min(12, Math.max(0, -Math.floor(Math.log10(rounded)))));
}

/** "3.1 % (2.6 to 3.7 %)"; "none in 8000; up to 3 in 8000"; "all of 40; at least 37 in 40". */
export function proportionText(risk: Proportion): string {
  const { count, flights } = risk;
  if (flights === 0) return 'not flown';
  if (count === 0) return `none in ${flights}; up to ${Math.ceil(risk.upper * flights - SLACK)} in ${flights}`;
  if (count === flights) {
    return `all of ${flights}; at least ${Math.floor(risk.lower * flights + SLACK)} in ${flights}`;
  }
  const { estimate, lower, upper } = percentParts(risk);
  return `${estimate} % (${lower} to ${upper} %)`;
}

/** As `proportionText`, but "none in 8000: at most 0.04 %": for what stands beside a limit in percent. */
export function boundedText(risk: Proportion): string {
  if (risk.flights === 0 || risk.count > 0) return proportionText(risk);
  return `none in ${risk.flights}: at most ${upperPercent(risk)} %`;
}

/** The upper end with one digit that does not look better than it is, two where a figure begins with 1. */
function upperPercent({ upper }: Proportion): string {
  return roundUp(100 * upper, decimalsBorne(100 * upper));
}

/** "about 4 flights in 100", always with the denominator 100; "fewer than 1 flight in 100" under a half. */
export function flightsInHundred(probability: number): string {
  const hundredth = Math.round(100 * probability);
  if (probability === 0) return 'no flight in 100';
  if (probability === 1) return 'all flights in 100';
  if (hundredth === 0) return 'fewer than 1 flight in 100';
  if (hundredth === 100) return 'more than 99 flights in 100';
  return `about ${hundredth} ${hundredth === 1 ? 'flight' : 'flights'} in 100`;
}

/** Both frames with one denominator, which always add up to 100 flights. */
export function bothFrames(risk: Proportion): { readonly hitsHard: string; readonly landsSoftly: string } {
  const hard = Math.round(100 * risk.estimate) / 100;
  const exact = risk.estimate === 0 || risk.estimate === 1 || (hard > 0 && hard < 1);
  return {
    hitsHard: flightsInHundred(exact ? hard : risk.estimate),
    landsSoftly: flightsInHundred(exact ? 1 - hard : 1 - risk.estimate),
  };
}

/**
 * A difference of two risks in flights in 100, with the digits that its interval bears and the ends rounded outwards, such
 * as 11.5, 10.1 and 13.0; with a minus sign where the difference is negative.
 */
export function differenceParts(difference: {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}): {
  readonly estimate: string;
  readonly lower: string;
  readonly upper: string;
} {
  const decimals = decimalsBorne(50 * (difference.upper - difference.lower));
  return {
    estimate: plainZero((100 * difference.estimate).toFixed(decimals)),
    lower: plainZero(roundDown(100 * difference.lower, decimals)),
    upper: plainZero(roundUp(100 * difference.upper, decimals)),
  };
}

function plainZero(text: string): string {
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** "0.0042", "0.31", "under 0.0001": two digits say how unlikely, and no more. */
export function pValueText(pValue: number): string {
  return pValue < 1e-4 ? 'under 0.0001' : String(Number(pValue.toPrecision(2)));
}
