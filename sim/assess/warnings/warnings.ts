/** What a reader should know before believing the result: a typed list, each with what to do about it. */
import type { Warning } from '../../basics/warning.js';
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
import { clippedBounds, guesses, invented, noGuard, windOverCode } from './inputs.js';
import { insideKeepOut } from './place.js';
import { notAssured, pessimisticAbove, wideWorlds } from './unmeasured.js';

/** What weighs most stands first. */
const CHECKS: readonly Check[] = [
  partial,
  invented,
  tooFewFlights,
  notAssured,
  wideInterval,
  notNarrowEnough,
  numericalFailures,
  notKept,
  insideKeepOut,
  wideWorlds,
  pessimisticAbove,
  edgeOfGrid,
  windOverCode,
  clippedBounds,
  guesses,
  fewFailures,
  noGuard,
];

export function warningsOf(findings: Findings): readonly Warning[] {
  return CHECKS.flatMap((check) => check(findings));
}

export type { Findings } from './finding.js';
