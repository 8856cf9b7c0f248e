/** Section 2: risk against throttle-up height. */
import type { HeightPoint } from '../../sim/result/result.js';
import { percentParts, proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../charts/draw.js';
import { riskCurveChart } from '../charts/risk-curve.js';
import type { ReportedResult } from '../decisions.js';
import { cell, type Figure, figure, type Table, table } from '../table.js';
import { countText, metres, percentLimit } from '../words/numbers.js';
import { heightLine, VERDICT_WORDS } from '../words/sentences.js';

export interface HeightsSection {
  readonly figure: Figure;
  readonly note: string;
  readonly slider: Slider | null;
}

export interface Slider {
  readonly last: number;
  readonly start: number;
  readonly startHeight: string;
  readonly heights: readonly { readonly value: number; readonly text: string; readonly line: string }[];
}

/** The heights flown, ascending, with the planned one among them. */
export function heightPoints(result: ReportedResult): readonly HeightPoint[] {
  return [...result.curve].sort((a, b) => a.height - b.height);
}

export async function heightsSection(result: ReportedResult, draw: Draw): Promise<HeightsSection> {
  const points = heightPoints(result);
  const finding = curveFinding(points, result.acceptableRisk);
  return {
    figure: await figure(draw, {
      id: 'risk-curve',
      caption: finding,
      charts: [
        (frame) => riskCurveChart({ curve: points, limit: result.acceptableRisk, marks: markedHeights(result) }, frame),
      ],
      labels: [`Risk of hitting the ground against throttle-up height, with intervals. ${finding}`],
      legend: [
        { symbol: 'verdict-within', text: 'within the limit: the whole interval is at or under it' },
        { symbol: 'verdict-not-shown', text: 'not shown: the interval reaches across it' },
        { symbol: 'verdict-above', text: 'above: the whole interval is over it' },
        ...(points.some((point) => point.risk.count === 0)
          ? [{ symbol: 'none-seen', text: 'none seen: the bar shows what may still be' }]
          : []),
      ],
      table: curveTable(points),
    }),
    note:
      (points.some((point) => point.risk.flights < result.flights)
        ? 'Heights that turned out hopeless were given up after fewer flights. '
        : '') +
      'Bars are 90 % intervals. The vertical scale is logarithmic: each line is about twice the one below it, because the decision lies at a few flights in 100. ' +
      (points.length > 1
        ? 'All heights fly the same draws, so neighbours move together. A lowest height picked by eye from this picture is flattered by the picking.'
        : 'To see how the risk depends on the height, fly several (--heights).'),
    slider: sliderOf(points, result.plannedHeight),
  };
}

function markedHeights(result: ReportedResult) {
  const planned = { height: result.plannedHeight, word: 'planned' };
  const recommended = result.heightDecision?.status === 'recommended' ? result.heightDecision.height : null;
  if (recommended === null) return [planned];
  return recommended === planned.height
    ? [{ ...planned, word: 'planned and recommended' }]
    : [planned, { height: recommended, word: 'recommended' }];
}

/** What the curve says, without supposing that it falls all the way. */
function curveFinding(points: readonly HeightPoint[], limit: number): string {
  const most = percentLimit(limit);
  const within = points.filter((point) => point.verdict === 'within');
  const [first, last] = [points[0], points[points.length - 1]];
  if (points.length === 1) {
    return `Only ${metres(first.height)} was flown: ${proportionText(first.risk)}, ${VERDICT_WORDS[first.verdict]}.`;
  }
  if (points.every((point) => point.risk.count === 0)) {
    return `None of the flights at ${metres(first.height)} to ${metres(last.height)} hit the ground; none seen is not none at all.`;
  }
  const course = courseOf(points);
  if (within.length === 0) return `${course}; no height that was flown is shown to be within the acceptable ${most}.`;
  if (within.length === points.length)
    return `${course}; every height that was flown is within the acceptable ${most}.`;
  const lowest = points.indexOf(within[0]);
  const unbroken = within.length === points.indexOf(within[within.length - 1]) - lowest + 1;
  if (!unbroken)
    return `${course}; within the acceptable ${most} are ${within.map((point) => metres(point.height)).join(', ')}.`;
  const toTheTop = within[within.length - 1] === last;
  const range = toTheTop
    ? `from ${metres(within[0].height)} up`
    : within.length === 1
      ? `at ${metres(within[0].height)} alone`
      : `from ${metres(within[0].height)} to ${metres(within[within.length - 1].height)}`;
  return `${course}; it is shown to be within the acceptable ${most} ${range}.`;
}

/** The risk at both ends and where it is least. */
function courseOf(points: readonly HeightPoint[]): string {
  const [first, last] = [points[0], points[points.length - 1]];
  const least = points.reduce((best, point) => (point.risk.estimate < best.risk.estimate ? point : best));
  const at = (point: HeightPoint) => `${estimate(point)} at ${metres(point.height)}`;
  if (least === first || least === last) return `The risk is ${at(first)} and ${at(last)}`;
  return `The risk is ${at(first)}, least at ${metres(least.height)} with ${estimate(least)}, and ${at(last)}`;
}

function estimate(point: HeightPoint): string {
  return point.risk.count === 0 ? 'none seen' : `${percentParts(point.risk).estimate}\u00a0%`;
}

function curveTable(points: readonly HeightPoint[]): Table {
  const most = Math.max(...points.map((point) => point.risk.flights));
  return table(
    'The risk of hitting the ground at each height flown, and whether it keeps the limit.',
    ['#Throttle-up height', '#Flights', '#Hit the ground (90 % interval)', 'Verdict'],
    points.map((point) => [
      metres(point.height),
      countText(point.risk.flights),
      proportionText(point.risk),
      cell(
        `${VERDICT_WORDS[point.verdict]}${point.risk.flights < most ? ', given up early' : ''}`,
        `verdict-${point.verdict.replace(' ', '-')}`,
      ),
    ]),
  );
}

function sliderOf(points: readonly HeightPoint[], planned: number): Slider | null {
  if (points.length < 2) return null;
  const start = Math.max(
    0,
    points.findIndex((point) => point.height === planned),
  );
  return {
    last: points.length - 1,
    start,
    startHeight: metres(points[start].height),
    heights: points.map((point) => ({
      value: point.height,
      text: metres(point.height),
      line: heightLine(point),
    })),
  };
}
