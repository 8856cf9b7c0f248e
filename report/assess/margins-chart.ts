/** A strip shows a quantity over all flights: half of the flights in the thick part, 9 of 10 in the thin part. */
import type { Spread } from '../../sim/statistics/quantile.js';
import { chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import { quantileAt } from '../kit/words/numbers.js';

export interface StripData {
  readonly spread: Spread;
  /** Axis title with the unit. */
  readonly title: string;
  /** Shown = SI value times this. */
  readonly scale: number;
  /** A value that must not be passed, with a word for it. */
  readonly limit: { readonly value: number; readonly word: string } | null;
}

/** Sizes without the axis, fixed so that strips stand exactly under one another. */
const INNER_HEIGHT = 26;
const SIDE = 24;

export function quantileStripChart(data: StripData, frame: Frame): ChartSpec {
  const at = (p: number) => data.scale * (quantileAt(data.spread, p) ?? 0);
  const range = {
    low: at(0.05),
    lowerQuarter: at(0.25),
    median: at(0.5),
    upperQuarter: at(0.75),
    high: at(0.95),
    first: at(0.01),
    last: at(0.99),
  };
  const limit = data.limit === null ? [] : [{ value: data.scale * data.limit.value, text: data.limit.word }];
  const ends = [range.first, range.last, ...limit.map((one) => one.value)];
  const [lowest, highest] = [Math.min(...ends), Math.max(...ends)];
  const margin = Math.max(0.08 * (highest - lowest), 1e-6 + 0.02 * Math.abs(highest));
  const x = {
    type: 'quantitative',
    scale: { domain: [lowest - margin, highest + margin], nice: false, zero: false },
    axis: { title: data.title, tickCount: frame.narrow ? 5 : 9, format: '~r' },
  } as const;
  return {
    ...chartBase(frame, INNER_HEIGHT),
    width: frame.width - 2 * SIDE,
    padding: { left: SIDE, right: SIDE, top: 16, bottom: 46 },
    autosize: 'none',
    layer: [
      {
        data: { values: [range] },
        layer: [
          {
            mark: { type: 'rule', strokeWidth: 1, stroke: colour('quiet'), strokeDash: [2, 2] },
            encoding: { x: { ...x, field: 'first' }, x2: { field: 'last' } },
          },
          {
            mark: { type: 'rule', strokeWidth: 3, stroke: colour('quiet') },
            encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' } },
          },
          {
            mark: { type: 'bar', height: 16, fill: colour('line'), stroke: colour('edge') },
            encoding: { x: { ...x, field: 'lowerQuarter' }, x2: { field: 'upperQuarter' } },
          },
          {
            mark: { type: 'tick', thickness: 3, size: 22, color: colour('ink') },
            encoding: { x: { ...x, field: 'median' } },
          },
        ],
      },
      ...limit.map(
        (one) =>
          ({
            data: { values: [one] },
            layer: [
              {
                mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 1.5, strokeDash: [5, 3] },
                encoding: { x: { ...x, field: 'value' } },
              },
              {
                mark: { type: 'text', align: 'left', baseline: 'top', dx: 5, fontWeight: 600, color: colour('accent') },
                encoding: { x: { ...x, field: 'value' }, y: { value: -13 }, text: { field: 'text' } },
              },
            ],
          }) as const,
      ),
    ],
  };
}
