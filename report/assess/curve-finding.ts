/** A sentence says what the curve of risk against height shows. */

import type { AssessResult, HeightPoint } from '../../sim/assess/result.js';
import { percentParts, proportionText } from '../../sim/statistics/words.js';
import { metres, unbroken } from '../kit/words/numbers.js';
import { type Standing, standingText } from '../kit/words/standing.js';
import { shownText } from './three-heights.js';

export type CurvePoint = HeightPoint & { readonly standing: Standing };

/** What the curve says, without supposing that it falls all the way. */
export function curveFinding(points: readonly CurvePoint[], { heightDecision }: AssessResult): string {
  const [first, last] = [points[0], points[points.length - 1]];
  if (points.length === 1) {
    return `Only ${metres(first.height)} was flown: ${proportionText(first.risk)}, ${standingText(first.standing)}.`;
  }
  if (points.every((point) => point.risk.count === 0)) {
    return `All of the flights at ${metres(first.height)} to ${metres(last.height)} landed softly; no failure seen is not none at all.`;
  }
  const course = courseOf(points);
  const window = heightDecision?.window ?? null;
  if (window !== null) return `${course}. ${unbroken(shownText(window))}.`;
  const within = points.filter((point) => point.standing === 'within');
  const judged = points.filter((point) => point.standing !== 'too few');
  if (within.length === 0) return `${course}; no height that was flown is shown to keep every limit.`;
  if (within.length === points.length) return `${course}; every height that was flown keeps every limit.`;
  const [lowest, highest] = [judged.indexOf(within[0]), judged.indexOf(within[within.length - 1])];
  if (within.length !== highest - lowest + 1)
    return `${course}; every limit is kept at ${within.map((point) => metres(point.height)).join(', ')}.`;
  const range =
    within[within.length - 1] === last
      ? `from ${metres(within[0].height)} up`
      : within.length === 1
        ? `at ${metres(within[0].height)} alone`
        : `from ${metres(within[0].height)} to ${metres(within[within.length - 1].height)}`;
  return `${course}; every limit is shown to be kept ${range}.`;
}

/** The risk at both ends and where it is least, of the heights flown in full where there are any. */
function courseOf(points: readonly CurvePoint[]): string {
  const [first, last] = [points[0], points[points.length - 1]];
  const full = points.filter(({ standing }) => standing !== 'too few' && standing !== 'given up');
  const least = (full.length > 0 ? full : points).reduce((best, point) =>
    point.risk.estimate < best.risk.estimate ? point : best,
  );
  const at = (point: HeightPoint) => `${estimate(point)} at ${metres(point.height)}`;
  if (least === first || least === last) return `The risk is ${at(first)} and ${at(last)}`;
  return `The risk is ${at(first)}, ${at(least)}, the least of the heights searched, and ${at(last)}`;
}

function estimate(point: HeightPoint): string {
  return point.risk.count === 0 ? 'none seen' : `${percentParts(point.risk).estimate}\u00a0%`;
}
