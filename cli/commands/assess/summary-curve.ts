/** The curve of risk against height: the heights that were judged, then those that were given up or only looked at. */
import { unbroken } from '../../../report/kit/words/numbers.js';
import { standingOf } from '../../../report/kit/words/standing.js';
import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import { proportionText, roundDown } from '../../../sim/statistics/words.js';
import { columns, paragraph } from '../../terminal/layout.js';

/** Full rows that a terminal still holds; those farthest from the heights that matter go first. */
const MOST_ROWS = 8;
/** Heights only looked at that are still worth naming one by one. */
const MOST_LOOKED_AT = 6;

export function curveLines(result: AssessResult): readonly string[] {
  const judged = result.curve.filter((point) => !['given up', 'too few'].includes(standingOf(point, result)));
  const shown = nearest(judged, result);
  const more = judged.length - shown.length;
  const rows = shown.map(({ height, risk, verdict }) => [
    `${height} m`,
    proportionText(risk),
    verdict,
    part(height, result),
  ]);
  return [
    ...columns(rows, 2, [0]),
    ...(more > 0 ? [`  and ${more} more, in the report`] : []),
    ...givenUpLines(result),
    ...lookedAtLines(result),
  ];
}

/** The part that a height plays. */
function part(height: number, { plannedHeight, heightDecision }: AssessResult): string {
  const parts = [height === plannedHeight ? ['planned'] : [], height === heightDecision?.height ? ['recommended'] : []];
  return parts.flat().join(', ');
}

/** Around the recommended height, or the planned one, where there are too many. */
function nearest(points: readonly HeightPoint[], result: AssessResult): readonly HeightPoint[] {
  const middle = result.heightDecision?.height ?? result.plannedHeight;
  const away = ({ height }: HeightPoint) => (height === result.plannedHeight ? 0 : Math.abs(height - middle));
  const kept = new Set([...points].sort((one, other) => away(one) - away(other)).slice(0, MOST_ROWS));
  return points.filter((point) => kept.has(point));
}

/** Heights that were surely over a limit long before all flights: how much at least. */
function givenUpLines(result: AssessResult): readonly string[] {
  const hopeless = result.curve.filter((point) => standingOf(point, result) === 'given up');
  if (hopeless.length === 0) return [];
  const text = hopeless.map(({ height, risk }) => `${atLeast(risk.lower)} % at ${height} m`).join(', ');
  return paragraph(unbroken(`Given up early: more than ${text}.`), 2, 2);
}

function lookedAtLines(result: AssessResult): readonly string[] {
  const heights = result.curve.filter((point) => standingOf(point, result) === 'too few').map(({ height }) => height);
  if (heights.length === 0) return [];
  const text =
    heights.length > MOST_LOOKED_AT
      ? `${heights.length} heights from ${heights[0]} to ${heights[heights.length - 1]} m`
      : `${heights.join(', ')} m`;
  return paragraph(`Only looked at, with too few flights to judge: ${text}.`, 2, 2);
}

function atLeast(share: number): string {
  return roundDown(100 * share, share < 0.1 ? 1 : 0);
}
