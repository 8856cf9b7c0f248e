/** Heights for a terminal: the recommended height as something to do, and the curve of risk against height. */
import { windowText } from '../../../report/assess/curve-finding.js';
import { recommendation } from '../../../report/assess/recommendation.js';
import { setting } from '../../../report/kit/words/inputs.js';
import { spreadText, unbroken } from '../../../report/kit/words/numbers.js';
import { standingOf } from '../../../report/kit/words/standing.js';
import type { AssessResult, HeightPoint } from '../../../sim/assess/result.js';
import { proportionText, roundDown } from '../../../sim/statistics/words.js';
import { columns, labelled, paragraph, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';

const INDENT = 11;

/** Nothing where the study did not look for a height. */
export function heightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = recommendation(result);
  if (found === null) return [];
  const window = result.heightDecision?.window ?? null;
  const rest = window === null ? paragraph(found.detail) : labelled('  Window', unbroken(windowText(window)), INDENT);
  return [...shortHeightLines(result, paint), ...rest, ''];
}

/** The height with its risk, its order and its seconds. */
export function shortHeightLines(result: AssessResult, paint: Paint): readonly string[] {
  const found = recommendation(result);
  if (found === null) return [];
  return [...wrapped(found.sentence).map((line) => paint('bold', line)), ...actionLines(result)];
}

function actionLines({ recommended, scenario }: AssessResult): readonly string[] {
  if (recommended === undefined || recommended === null) return [];
  const { height, risk, orderTime } = recommended;
  const cue = setting(scenario, 'plan.cue');
  const shown = `${proportionText(risk)} on ${risk.flights} fresh flights: the lowest height shown to be within every limit`;
  return [
    ...labelled('  Risk', unbroken(shown), INDENT),
    ...labelled('  Order', unbroken(ORDERS[cue]?.(height) ?? `full throttle at ${height} m`), INDENT),
    ...labelled('  Seconds', `${spreadText(orderTime, 's')} after ejection${CHECK[cue] ?? ', as a check'}`, INDENT),
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
  const parts = [height === plannedHeight ? ['planned'] : [], height === heightDecision?.height ? ['recommended'] : []];
  return parts.flat().join(', ');
}

/** The points nearest to the recommended height, or to the planned height, where there are too many. */
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
