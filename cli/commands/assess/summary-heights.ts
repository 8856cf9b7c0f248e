/** Heights for a terminal: the three heights, what to do at the plan and at the aim, and the curve of risk against height. */
import { threeHeights } from '../../../report/assess/three-heights.js';
import { setting } from '../../../report/kit/words/inputs.js';
import { spreadText, unbroken } from '../../../report/kit/words/numbers.js';
import { standingOf } from '../../../report/kit/words/standing.js';
import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import type { Spread } from '../../../sim/statistics/quantile.js';
import { proportionText } from '../../../sim/statistics/words.js';
import { columns, labelled, paragraph, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';

const INDENT = 17;

/** Nothing where the study did not look for heights. */
export function heightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = threeHeights(result);
  if (found === null) return [];
  return [...shortHeightLines(result, paint), ...paragraph(found.detail), ''];
}

/** The plan against the three heights, each with what it is; an order and seconds for the plan and the aim alone. */
export function shortHeightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = threeHeights(result);
  if (found === null) return [];
  return [
    ...wrapped(found.sentence).map((line) => paint('bold', line)),
    ...found.heights.flatMap(({ word, text }) => labelled(`  ${word}`, text, INDENT)),
    ...actionLines(result),
  ];
}

function actionLines(result: AssessResult): readonly string[] {
  const { aim, plannedHeight, orderTime, scenario, heightDecision } = result;
  const cue = setting(scenario, 'plan.cue');
  const line = (word: string, height: number, seconds: Spread) =>
    labelled(
      `  ${word}`,
      unbroken(
        `${ORDERS[cue]?.(height) ?? `full throttle at ${height} m`}: ${spreadText(seconds, 's')} after ejection${CHECK[cue] ?? ', as a check'}`,
      ),
      INDENT,
    );
  const isAim = heightDecision?.aim?.height === plannedHeight;
  return [
    ...line(isAim ? 'Plan and aim' : 'Plan', plannedHeight, orderTime),
    ...(aim && !isAim && heightDecision?.aim?.figure.verdict === 'within'
      ? line('Aim', aim.height, aim.orderTime)
      : []),
  ];
}

const ORDERS: Readonly<Record<string, (height: number) => string>> = {
  'call-out': (height) => `full throttle when the height read aloud comes to ${height} m`,
  picture: (height) => `full throttle when the picture looks like ${height} m`,
  timer: (height) => `the timer fires when the ordinary flight would pass ${height} m`,
  automatic: (height) => `the craft throttles up by itself when its barometer reads ${height} m`,
};

/** A timer's seconds are its cue; everybody else's are a check. */
const CHECK: Readonly<Record<string, string>> = { timer: '' };

/** Full rows that a terminal still holds; rows farthest from the heights that matter go first. */
const MOST_ROWS = 8;
/** Heights only looked at: up to this many are named, more are counted. */
const MOST_LOOKED_AT = 6;

/** The heights that were judged, then the heights that were given up or only looked at. */
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
  const parts = [
    height === plannedHeight ? ['planned'] : [],
    height === heightDecision?.aim?.height ? ['aim'] : [],
    height === heightDecision?.latest ? ['at the latest'] : [],
    height === heightDecision?.window?.to ? ['not before'] : [],
  ];
  return parts.flat().join(', ');
}

/** The points nearest to the planned height, and the three heights, where there are too many. */
function nearest(points: readonly HeightPoint[], result: AssessResult): readonly HeightPoint[] {
  const away = ({ height }: HeightPoint) => (part(height, result) === '' ? Math.abs(height - result.plannedHeight) : 0);
  const kept = new Set([...points].sort((one, other) => away(one) - away(other)).slice(0, MOST_ROWS));
  return points.filter((point) => kept.has(point));
}

/** Heights that were surely over a limit long before all flights: their risk was not sought. */
function givenUpLines(result: AssessResult): readonly string[] {
  const heights = result.curve.filter((point) => standingOf(point, result) === 'given up').map(({ height }) => height);
  if (heights.length === 0) return [];
  return paragraph(`Over a limit, given up early: ${heights.join(', ')} m.`, 2, 2);
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
