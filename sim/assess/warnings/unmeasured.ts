/** These warnings say where inputs that nobody has measured may turn the answer. */

import { percentEnd, proportionText } from '../../statistics/words.js';
import { type Check, percent, warn } from './finding.js';

/** A height that is within its limit in fewer plausible worlds than this rests on luck (common practice, no source). */
const FEW_WORLDS = 0.9;

export const notAssured: Check = ({ decisions: { assurance } }) => {
  const share = assurance?.worlds?.shareWithin?.estimate;
  if (!assurance || share === undefined || share >= assurance.demanded) return [];
  return [
    warn(
      'not assured',
      `The planned height is within the acceptable risk in ${worldsInHundred(share)}; ${percent(assurance.demanded)} was demanded (--assurance).`,
      'Measure first what spreads the risk most, or plan another height.',
    ),
  ];
};

/** Told of a height that is within its limit as flown, where every flight draws its own world. */
export const wideWorlds: Check = (findings) => {
  const { worlds } = findings.decisions;
  if (!worlds?.shareWithin || worlds.lower === null || worlds.upper === null) return [];
  if (findings.groundImpact.verdict !== 'within' || worlds.shareWithin.estimate >= FEW_WORLDS) return [];
  return [
    warn(
      'wide worlds',
      `What nobody has measured could make the risk at ${worlds.height} m ${percentEnd(worlds.lower)} to ${percentEnd(worlds.upper)} %: only in ${worldsInHundred(worlds.shareWithin.estimate)} it is within the limit.`,
      'Measure first what spreads the risk most, or plan more margin.',
    ),
  ];
};

/** Told of a height that is not above its limit already. */
export const pessimisticAbove: Check = (findings) => {
  const { pessimistic } = findings.decisions;
  if (pessimistic?.verdict !== 'above' || findings.groundImpact.verdict === 'above') return [];
  return [
    warn(
      'pessimistic',
      `With all guesses at their pessimistic quarter at once the risk at ${pessimistic.height} m is ${proportionText(pessimistic.risk)}, above the limit of ${percent(pessimistic.limit)}.`,
      'A stress test, not a probability: measure the guesses that move it most.',
    ),
  ];
};

function worldsInHundred(share: number): string {
  return `about ${Math.round(100 * share)} of 100 plausible worlds`;
}
