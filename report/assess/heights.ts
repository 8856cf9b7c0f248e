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

/** Flown again on fresh flights, which decide: heights tried for "at the latest", in order, and the aim. */
function freshPoints({ heightDecision }: AssessResult) {
  const { confirmed = [], aim = null } = heightDecision ?? {};
  const figures = [...confirmed, ...(aim === null ? [] : [aim.figure])];
  return figures.map(({ height, criteria, verdict }) => ({ height, risk: criteria[0].risk, verdict }));
}

/** Stretches of neighbouring steps that are all shown to keep every limit; a height by itself is a short one. */
function shownStretches({ heightDecision }: AssessResult) {
  const stretches: { from: number; to: number }[] = [];
  const step = heightDecision?.step ?? 0;
  for (const height of heightDecision?.window?.shown ?? []) {
    const last = stretches[stretches.length - 1];
    if (last !== undefined && height - last.to <= step * 1.01) last.to = height;
    else stretches.push({ from: height, to: height });
  }
  return stretches.map(({ from, to }) => ({ from: from - 0.2 * step, to: to + 0.2 * step }));
}

export async function heightsSection(result: AssessResult, draw: Draw): Promise<HeightsSection> {
  const curve = heightPoints(result).map((point) => ({ ...point, standing: standingOf(point, result) }));
  const fresh = freshPoints(result);
  const shown = shownStretches(result);
  const finding = curveFinding(curve, result);
  const data = { curve, fresh, shown, limit: result.acceptableRisk, marks: markedHeights(result) };
  return {
    figure: await figure(draw, {
      id: 'risk-curve',
      caption: finding,
      charts: [(frame) => riskCurveChart(data, frame)],
      labels: [`Risk of not landing softly against throttle-up height, with intervals. ${finding}`],
      legend: [
        ...STANDINGS.filter((standing) => curve.some((point) => point.standing === standing)).map((standing) => ({
          symbol: standingMark(standing),
          text: standingMeaning(standing, result.flights),
        })),
        ...(fresh.length > 0 ? [{ symbol: 'flown-again', text: 'flown again on fresh flights, which decide' }] : []),
        ...(shown.length === 0
          ? []
          : [{ symbol: 'window-bar', text: 'shown to keep every limit; between the bars nothing was judged' }]),
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
        ? 'A height that clearly keeps every limit is settled with fewer flights, by a 99.5 % bound. '
        : '') +
      'Bars are 90 % intervals. The vertical scale is logarithmic: each line is about twice the one below it, because the decision lies at a few flights in 100. ' +
      (curve.length > 1
        ? 'All heights fly the same draws, so neighbours move together; the dotted line only guides the eye. A height picked by eye from this picture is flattered by the picking.'
        : 'To see how the risk depends on the height, and which heights serve, leave out --heights.'),
    slider: sliderOf(curve, result.plannedHeight),
  };
}

function markedHeights({ plannedHeight, heightDecision }: AssessResult) {
  const window = heightDecision?.window ?? null;
  const aim = heightDecision?.aim?.figure.verdict === 'within' ? heightDecision.aim.height : null;
  const words = new Map<number, string>([[plannedHeight, 'planned']]);
  const add = (height: number, word: string) => {
    const known = words.get(height);
    words.set(height, known === undefined ? word : `${known}, ${word}`);
  };
  if (aim !== null) add(aim, 'aim');
  if (window !== null) {
    add(window.from, 'at the latest');
    if (window.to !== window.from) add(window.to, 'not before');
  }
  return [...words].map(([height, word]) => ({ height, word }));
}

function curveTable(
  points: readonly CurvePoint[],
  fresh: ReturnType<typeof freshPoints>,
  { heightDecision }: AssessResult,
): Table {
  const parts = (height: number) =>
    [
      height === heightDecision?.latest ? ', at the latest' : '',
      height === heightDecision?.aim?.height ? ', the aim' : '',
    ].join('');
  const again = fresh.map(({ height, risk, verdict }) => [
    metres(height),
    countText(risk.flights),
    proportionText(risk),
    cell(`flown again: ${VERDICT_WORDS[verdict]}${parts(height)}`, standingMark(verdict)),
  ]);
  return table(
    `The risk of not landing softly at each height flown, and whether it keeps the limit${again.length > 0 ? '; at the end the fresh flights that decide' : ''}.`,
    ['#Throttle-up height', '#Flights', '#Do not land softly (90 % interval)', 'Verdict'],
    [
      ...points.map(({ height, risk, standing }) => [
        metres(height),
        countText(risk.flights),
        standing === 'given up' ? 'over a limit' : proportionText(risk),
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
