/** Section 2 shows the risk against the throttle-up height. */
import type { AssessResult, HeightPoint } from '../../sim/assess/result.js';
import { proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { cell, type Table, table } from '../kit/table.js';
import { countText, metres } from '../kit/words/numbers.js';
import { VERDICT_WORDS } from '../kit/words/sentences.js';
import {
  heightLine,
  STANDINGS,
  standingMark,
  standingMeaning,
  standingOf,
  standingText,
} from '../kit/words/standing.js';
import { type CurvePoint, curveFinding } from './curve-finding.js';
import { riskCurveChart } from './heights-chart.js';

export interface HeightsSection {
  readonly figure: Figure;
  readonly note: string;
  readonly slider: Slider | null;
}

export interface Slider {
  readonly last: number;
  readonly start: number;
  readonly startHeight: string;
  readonly startSymbol: string;
  readonly heights: readonly {
    readonly value: number;
    readonly text: string;
    readonly symbol: string;
    readonly line: string;
  }[];
}

/** The heights flown, ascending, with the planned height among them. */
export function heightPoints(result: AssessResult): readonly HeightPoint[] {
  return [...result.curve].sort((a, b) => a.height - b.height);
}

/** Flown again on fresh flights, in the order tried; the last decides. */
function freshPoints({ heightDecision }: AssessResult) {
  return (heightDecision?.confirmed ?? []).flatMap(({ height, criteria }) =>
    criteria.slice(0, 1).map(({ risk, verdict }) => ({ height, risk, verdict })),
  );
}

export async function heightsSection(result: AssessResult, draw: Draw): Promise<HeightsSection> {
  const curve = heightPoints(result).map((point) => ({ ...point, standing: standingOf(point, result) }));
  const fresh = freshPoints(result);
  const window = result.heightDecision?.window ?? null;
  const finding = curveFinding(curve, result);
  const data = { curve, fresh, window, limit: result.acceptableRisk, marks: markedHeights(result) };
  return {
    figure: await figure(draw, {
      id: 'risk-curve',
      caption: finding,
      charts: [(frame) => riskCurveChart(data, frame)],
      labels: [`Risk of hitting the ground against throttle-up height, with intervals. ${finding}`],
      legend: [
        ...STANDINGS.filter((standing) => curve.some((point) => point.standing === standing)).map((standing) => ({
          symbol: standingMark(standing),
          text: standingMeaning(standing, result.flights),
        })),
        ...(fresh.length > 0 ? [{ symbol: 'flown-again', text: 'flown again on fresh flights, which decide' }] : []),
        ...(window === null
          ? []
          : [{ symbol: 'window-bar', text: 'from the recommended height to the highest shown' }]),
        ...(curve.some((point) => point.risk.count === 0)
          ? [{ symbol: 'none-seen', text: 'none seen: the bar shows what may still be' }]
          : []),
      ],
      table: curveTable(curve, fresh, result),
    }),
    note:
      (curve.some(({ standing }) => standing === 'too few' || standing === 'given up')
        ? 'Flights are spent where the decision lies: hopeless heights were given up, others only looked at. '
        : '') +
      (curve.some(({ standing, risk }) => standing === 'within' && risk.flights < result.flights)
        ? 'A height that clearly keeps every limit is settled with a quarter of the flights, by a 99.5 % bound. '
        : '') +
      'Bars are 90 % intervals. The vertical scale is logarithmic: each line is about twice the one below it, because the decision lies at a few flights in 100. ' +
      (curve.length > 1
        ? 'All heights fly the same draws, so neighbours move together; the dotted line only guides the eye. A lowest height picked by eye from this picture is flattered by the picking.'
        : 'To see how the risk depends on the height, and which one is recommended, leave out --heights.'),
    slider: sliderOf(curve, result.plannedHeight),
  };
}

function markedHeights(result: AssessResult) {
  const planned = { height: result.plannedHeight, word: 'planned' };
  const recommended = result.heightDecision?.status === 'recommended' ? result.heightDecision.height : null;
  if (recommended === null) return [planned];
  return recommended === planned.height
    ? [{ ...planned, word: 'planned and recommended' }]
    : [planned, { height: recommended, word: 'recommended' }];
}

function curveTable(
  points: readonly CurvePoint[],
  fresh: ReturnType<typeof freshPoints>,
  { recommended }: AssessResult,
): Table {
  const again = fresh.map(({ height, risk, verdict }) => [
    metres(height),
    countText(risk.flights),
    proportionText(risk),
    cell(
      `flown again: ${VERDICT_WORDS[verdict]}${recommended?.height === height ? ', recommended' : ''}`,
      standingMark(verdict),
    ),
  ]);
  return table(
    `The risk of hitting the ground at each height flown, and whether it keeps the limit${again.length > 0 ? '; at the end the fresh flights that decide' : ''}.`,
    ['#Throttle-up height', '#Flights', '#Hit the ground (90 % interval)', 'Verdict'],
    [
      ...points.map(({ height, risk, standing }) => [
        metres(height),
        countText(risk.flights),
        proportionText(risk),
        cell(standingText(standing), standingMark(standing)),
      ]),
      ...again,
    ],
  );
}

function sliderOf(points: readonly CurvePoint[], planned: number): Slider | null {
  if (points.length < 2) return null;
  const start = Math.max(
    0,
    points.findIndex((point) => point.height === planned),
  );
  return {
    last: points.length - 1,
    start,
    startHeight: metres(points[start].height),
    startSymbol: standingMark(points[start].standing),
    heights: points.map((point) => ({
      value: point.height,
      text: metres(point.height),
      symbol: standingMark(point.standing),
      line: heightLine(point, point.standing),
    })),
  };
}
