/** Chooses the family that is written, and says what to know before trusting it. */

import type { Warning } from '../basics/warning.js';
import { FEW, type Fitted } from './fit-samples.js';
import type { FitFamily } from './result.js';

/** The family that is written when the user leaves the choice to the program, and why. */
export function chooseFamily(
  fitted: readonly Fitted[],
  n: number,
): { readonly chosen: FitFamily; readonly why: string } {
  const candidates = fitted.filter(({ fit }) => ['normal', 'log-normal', 'weibull'].includes(fit.family));
  if (n < FEW) {
    const chosen = candidates.some(({ fit }) => fit.family === 'log-normal') ? 'log-normal' : 'normal';
    const reason =
      chosen === 'log-normal' ? 'because the quantity cannot be negative' : 'for want of a reason for another';
    return {
      chosen,
      why: `No test can confirm a shape with ${n} values: a ${chosen} is a convention here, taken ${reason}, not a finding.`,
    };
  }
  const standing = candidates.filter(({ fit }) => (fit.fit?.refusedAt ?? 1) > 0.05);
  if (standing.length === 0)
    return { chosen: 'samples', why: 'Every family is refused at 5 %, so the samples themselves are written.' };
  const [best, next] = [...standing].sort((a, b) => (a.fit.akaike ?? 0) - (b.fit.akaike ?? 0));
  const lead = next === undefined ? null : (next.fit.akaike ?? 0) - (best.fit.akaike ?? 0);
  const close =
    lead !== null && lead < 2
      ? ` The ${next.fit.family} does about as well: the data do not tell the two apart, and their tails differ.`
      : '';
  return {
    chosen: best.fit.family,
    why: `The likeliest of the families that are not refused at 5 %.${close}`,
  };
}

/** What to know before trusting the fit. */
export function fitWarnings(values: Float64Array, chosen: Fitted): readonly Warning[] {
  const n = values.length;
  const warnings: Warning[] = [];
  if (n < FEW)
    warnings.push({
      code: 'few values',
      text: `No test can confirm a shape with ${n} values, and the far tail, where flights fail, is beyond them.`,
      advice: `Measure at least ${FEW}, better 30; the fragment carries what ${n} leave open as unmeasured parameters.`,
    });
  const distinct = new Set(values).size;
  if (distinct <= n / 2)
    warnings.push({
      code: 'coarse values',
      text: `Only ${distinct} different values among ${n}: the readings are rounded coarsely, which the test of the shape holds against every smooth family.`,
      advice: 'Measure with more digits, or take a family by name with --family.',
    });
  const { refusedAt: refused } = chosen.fit.fit ?? { refusedAt: null };
  if (refused !== null && refused <= 0.05)
    warnings.push({
      code: 'poor fit',
      text: `The ${chosen.fit.family} ${chosen.fit.verdict}.`,
      advice: 'Look at the quantile plot; --family samples takes the values as they are.',
    });
  if (chosen.fit.family === 'samples')
    warnings.push({
      code: 'samples only',
      text: 'Nothing outside the measured range will ever be drawn, and nothing is carried of what few samples leave open.',
      advice: 'The rare slow one decides the risk: prefer a fitted family where one fits.',
    });
  if (chosen.fit.family === 'triangular')
    warnings.push({
      code: 'hard ends',
      text: 'A triangular law says that nothing beyond its ends can happen.',
      advice: 'Take it only where something stops the quantity at both ends.',
    });
  return warnings;
}
