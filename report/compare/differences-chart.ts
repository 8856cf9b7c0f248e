/** Flights in 100 that B saves, with the interval, against the difference that matters. */

import { chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

export interface DifferenceDot {
  readonly name: string;
  readonly saved: number;
  readonly lower: number;
  readonly upper: number;
}

/** @param matters in flights in 100, as all figures here */
export function differencesChart(dots: readonly DifferenceDot[], matters: number, frame: Frame): ChartSpec {
  const most = Math.max(1.6 * matters, ...dots.flatMap(({ lower, upper }) => [lower, upper].map(Math.abs)));
  const sides = dots.flatMap(({ lower, upper }) => [lower, upper]);
  const left = Math.min(-1.6 * matters, ...sides) - 0.04 * most;
  const right = Math.max(1.6 * matters, ...sides) + 0.04 * most;
  const y = { field: 'name', type: 'nominal', sort: dots.map(({ name }) => name) } as const;
  const x = { type: 'quantitative', scale: { domain: [left, right], nice: false } } as const;
  return {
    ...chartBase(frame, 62 + 42 * dots.length),
    data: { values: dots },
    layer: [
      {
        data: { values: [{ from: -matters, to: matters }] },
        mark: { type: 'rect', fill: colour('accent-tint') },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' } },
      },
      {
        data: { values: [{ none: 0 }] },
        mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1 },
        encoding: { x: { ...x, field: 'none' } },
      },
      {
        mark: { type: 'rule', strokeWidth: 2.5, stroke: colour('ink') },
        encoding: {
          y: {
            ...y,
            axis: {
              title: null,
              labelExpr: "split(datum.label, ', ')",
              labelLimit: frame.narrow ? 120 : 240,
              labelColor: colour('ink'),
              minExtent: frame.narrow ? 96 : 190,
            },
          },
          x: {
            ...x,
            field: 'lower',
            axis: {
              title: frame.narrow ? 'B saves, in 100 flights' : 'Flights in 100 that B saves (under 0: loses)',
              grid: true,
              tickCount: frame.narrow ? 4 : 7,
              format: '~r',
            },
          },
          x2: { field: 'upper' },
        },
      },
      {
        mark: {
          type: 'point',
          shape: 'circle',
          filled: true,
          size: 80,
          opacity: 1,
          fill: colour('accent'),
          stroke: colour('ink'),
        },
        encoding: { y, x: { ...x, field: 'saved' } },
      },
    ],
  };
}
