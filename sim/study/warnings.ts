/** What a reader should know before believing the result: a typed list, each with what to do about it. */
import type { Warning } from '../result/result.js';
import type { Check, Findings } from './warnings/finding.js';
import {
  edgeOfGrid,
  fewFailures,
  notNarrowEnough,
  numericalFailures,
  partial,
  tooFewFlights,
  wideInterval,
} from './warnings/flights.js';
import { clippedBounds, guesses, invented, noGuard, windOverCode } from './warnings/inputs.js';
import { insideKeepOut, outsideCircle } from './warnings/place.js';
import { notAssured, pessimisticAbove, wideWorlds } from './warnings/unmeasured.js';

/** What weighs most stands first. */
const CHECKS: readonly Check[] = [
  partial,
  invented,
  tooFewFlights,
  notAssured,
  wideInterval,
  notNarrowEnough,
  numericalFailures,
  outsideCircle,
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

export type { Findings } from './warnings/finding.js';
