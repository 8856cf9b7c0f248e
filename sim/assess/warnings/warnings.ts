/** What a reader should know before believing the result: a typed list, each with what to do about it. */
import type { Warning } from '../../basics/warning.js';
import { exactGuesses, fewTrials } from './chances.js';
import { notKept } from './criteria.js';
import type { Check, Findings } from './finding.js';
import {
  edgeOfGrid,
  fewFailures,
  notNarrowEnough,
  numericalFailures,
  partial,
  tooFewFlights,
  wideInterval,
} from './flights.js';
import { clippedBounds, guesses, hazards, invented, perfect, windOverCode } from './inputs.js';
import { insideKeepOut } from './place.js';
import { notAssured, pessimisticAbove, wideWorlds } from './unmeasured.js';

/** Hazards to people stand first, then what was left at perfect, then what weighs most. */
const CHECKS: readonly Check[] = [
  insideKeepOut,
  hazards,
  perfect,
  partial,
  invented,
  tooFewFlights,
  notAssured,
  wideInterval,
  notNarrowEnough,
  numericalFailures,
  notKept,
  wideWorlds,
  exactGuesses,
  fewTrials,
  pessimisticAbove,
  edgeOfGrid,
  windOverCode,
  clippedBounds,
  guesses,
  fewFailures,
];

export function warningsOf(findings: Findings): readonly Warning[] {
  return CHECKS.flatMap((check) => check(findings));
}

export type { Findings } from './finding.js';
