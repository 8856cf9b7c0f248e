/** What a comparison of two designs says, in sentences. */

import type { ComparisonBasis, DesignComparison, PairedComparison } from '../../sim/compare/result.js';
import { differenceParts, pValueText } from '../../sim/statistics/words.js';
import { countText, fixedText, metres, plainText } from '../kit/words/numbers.js';

/** A true minus sign. */
function signed(text: string): string {
  return text.replace('-', '\u2212');
}

/** The size of a difference in flights in 100, whoever is the safer, with its interval: "11.5 (10.1 to 13.0)". */
function sizeText({ difference, verdict }: PairedComparison): string {
  const { estimate, lower, upper } = difference;
  const turned = verdict === 'A safer' ? { estimate: -estimate, lower: -upper, upper: -lower } : difference;
  const parts = differenceParts(turned);
  return `${signed(parts.estimate)} (${signed(parts.lower)} to ${signed(parts.upper)})`;
}

/** The verdict in one sentence. */
export function verdictSentence(pairs: PairedComparison): string {
  const { verdict, identical, riskA, matters, difference } = pairs;
  if (verdict === 'B safer') return `B is safer than A: it saves about ${sizeText(pairs)} flights in 100.`;
  if (verdict === 'A safer') return `A is safer than B: B loses about ${sizeText(pairs)} flights more in 100.`;
  const alike = `all ${countText(riskA.flights)} pairs of flights ended alike`;
  if (identical && verdict === 'no difference that matters') return `There is no difference: ${alike}.`;
  const { lower, upper } = differenceParts(difference);
  if (verdict === 'no difference that matters')
    return `There is no difference that matters: B saves between ${signed(lower)} and ${signed(upper)} flights in 100, less than ${plainText(100 * matters)} either way.`;
  return `It is not settled which is safer${identical ? `, though ${alike}` : ''}: B saves between ${signed(lower)} and ${signed(upper)} flights in 100.`;
}

/** What the verdict rests on: the pairs and the test. */
export function basisSentence(pairs: PairedComparison): string {
  const { both, onlyA, onlyB, neither } = pairs.pairs;
  const total = countText(both + onlyA + onlyB + neither);
  const counts = `Of ${total} pairs of flights on the same draws, ${countText(onlyA)} hit the ground with A alone, ${countText(onlyB)} with B alone, ${countText(both)} with both, ${countText(neither)} with neither.`;
  const test =
    onlyA + onlyB === 0
      ? 'With no pair that ended differently there is nothing to test.'
      : `If the two were equally safe, a split so uneven or more would come about with a chance of ${pValueText(pairs.pValue)} (exact McNemar test).`;
  return `${counts} ${test}`;
}

/** What more flights would do, where it is not settled. */
export function settleSentence({ verdict, flightsToSettle, matters }: PairedComparison): string | null {
  if (verdict !== 'not settled') return null;
  return flightsToSettle === null
    ? null
    : `About ${countText(roundedUp(flightsToSettle))} pairs would give an interval no wider than ${plainText(100 * matters)} flights in 100 either way, whatever the answer then is.`;
}

/** Two leading digits, upwards. */
function roundedUp(value: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / unit) * unit;
}

const BASES: Readonly<Record<ComparisonBasis, string>> = {
  planned: 'At the planned heights',
  'planned of A': "At A's planned height",
  recommended: 'At the recommended heights',
};

export function basisName(basis: ComparisonBasis): string {
  return BASES[basis];
}

/** "both at 250 m", "A at 250 m, B at 220 m". */
export function heightsText({ pairs }: DesignComparison): string {
  return pairs.heightA === pairs.heightB
    ? `both at ${metres(pairs.heightA)}`
    : `A at ${metres(pairs.heightA)}, B at ${metres(pairs.heightB)}`;
}

/** The interval of B's saving, in flights in 100: "10.1 to 13.0". */
export function intervalText({ difference }: PairedComparison): string {
  const { lower, upper } = differenceParts(difference);
  return `${signed(lower)} to ${signed(upper)}`;
}

export function estimateText({ difference }: PairedComparison): string {
  return signed(differenceParts(difference).estimate);
}

/** Flights of `whole` in flights in 100, two digits. */
export function inHundred(flights: number, whole: number): string {
  const share = whole === 0 ? 0 : (100 * flights) / whole;
  return share === 0 ? '0' : fixedText(share, Math.max(0, Math.min(3, 1 - Math.floor(Math.log10(share)))));
}
