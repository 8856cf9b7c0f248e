/** Touchdown speeds at the planned heights stand side by side for both designs. */

import type { CompareResult, DesignComparison } from '../../sim/compare/result.js';
import { exceedance } from '../../sim/statistics/exceedance.js';
import type { Histogram } from '../../sim/statistics/histogram.js';
import { type SpeedOutcome, speedAxisEnd } from '../assess/speeds-chart.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, type FigurePlan, figure } from '../kit/figure.js';
import { table } from '../kit/table.js';
import { numberText, plainText, spreadText } from '../kit/words/numbers.js';
import { heightsText } from './heights-compared.js';
import { compareExceedanceChart, compareHistogram, type TwoSpeeds, tallestBin } from './speeds-chart.js';

export interface SpeedsSection {
  readonly cumulative: Figure;
  readonly soft: Figure;
  readonly failed: Figure | null;
}

export async function speedsSection({ comparisons }: CompareResult, draw: Draw): Promise<SpeedsSection> {
  const [first] = comparisons;
  const { a, b } = first.speeds;
  const two: TwoSpeeds = {
    a: a.histogram,
    b: b.histogram,
    flights: first.pairs.riskA.flights,
    end: speedAxisEnd([a.histogram, b.histogram], null),
  };
  const anyFailed = a.notSoft.flights + b.notSoft.flights > 0;
  return {
    cumulative: await cumulativeFigure(first, two, draw),
    soft: await pairFigure(two, ['soft'], 'soft', 'Soft, flights in 100', softFinding(first), draw),
    failed: anyFailed
      ? await pairFigure(two, ['hard', 'crash'], 'failed', 'Hard and crash, in 100', failedFinding(first), draw)
      : null,
  };
}

function softFinding({ speeds }: DesignComparison): string {
  return `All touchdowns: with A ${spreadText(speeds.a.all, 'm/s')}, with B ${spreadText(speeds.b.all, 'm/s')}. Below, the soft ones.`;
}

function failedFinding({ speeds }: DesignComparison): string {
  return `Those that do not land softly: with A ${spreadText(speeds.a.notSoft, 'm/s')}, with B ${spreadText(speeds.b.notSoft, 'm/s')}.`;
}

async function cumulativeFigure(first: DesignComparison, two: TwoSpeeds, draw: Draw): Promise<Figure> {
  const points = (['a', 'b'] as const).map((design) => exceedance(two[design], two.flights));
  const at10 = points.map((list) => list.find(({ speed }) => speed === 10)?.share ?? 0);
  const caption = `Of 100 flights ${numberText(at10[0], 2)} touch down at 10\u00a0m/s or faster with A, ${numberText(at10[1], 2)} with B (${heightsText(first)}).`;
  return figure(draw, {
    id: 'compare-speeds',
    caption,
    charts: [(frame) => compareExceedanceChart(two, frame)],
    labels: [`Flights in 100 that touch down at a speed or faster, for both designs. ${caption}`],
    legend: [
      { symbol: 'line-dashes', text: 'A' },
      { symbol: 'line-circle', text: 'B' },
    ],
    table: table(
      'Flights in 100 that touch down at this total speed or faster.',
      ['#Speed, m/s', '#With A', '#With B'],
      points[0]
        .map(({ speed, share }, index) => ({ speed, ofA: share, ofB: points[1][index].share }))
        .filter(({ speed, ofA, ofB }) => ofA + ofB > 0 && Number.isInteger(speed) && (speed <= 10 || speed % 2 === 0))
        .map(({ speed, ofA, ofB }) => [plainText(speed), numberText(ofA, 2), numberText(ofB, 2)]),
    ),
  });
}

/** Half the width of a page, so that two stand side by side. */
const HALF = 350;

function pairFigure(
  two: TwoSpeeds,
  outcomes: readonly SpeedOutcome[],
  id: string,
  what: string,
  caption: string,
  draw: Draw,
): Promise<Figure> {
  const tallest = tallestBin(two, outcomes);
  const ends = [two.a, two.b].map((histogram) => lastBinEnd(histogram, outcomes));
  const end = Math.max(LEAST_END, ...ends);
  const chart =
    (design: 'a' | 'b'): FigurePlan['charts'][number] =>
    (frame) =>
      compareHistogram(
        {
          histogram: two[design],
          flights: two.flights,
          end,
          outcomes,
          tallest,
          title: `${design.toUpperCase()}: ${what}`,
        },
        frame.narrow ? frame : { width: HALF, narrow: false },
      );
  const symbols = outcomes.map((outcome) => ({ symbol: `swatch-${outcome}`, text: outcome }));
  return figure(draw, {
    id: `compare-${id}`,
    caption,
    charts: [chart('a'), chart('b')],
    labels: ['A', 'B'].map((letter) => `Touchdown speeds with ${letter}. ${caption}`),
    legend: symbols,
    table: null,
  });
}

/** No axis is shorter, m/s. */
const LEAST_END = 6;

/** Right end of the last bin that holds a flight with one of these outcomes. */
function lastBinEnd(histogram: Histogram, outcomes: readonly SpeedOutcome[]): number {
  const last = histogram.soft.findLastIndex((_, bin) => outcomes.some((outcome) => histogram[outcome][bin] > 0));
  return Math.ceil(histogram.from + histogram.width * (last + 1));
}
