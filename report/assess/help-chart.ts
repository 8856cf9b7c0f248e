/** Flights saved in 100 when one input is held at a better value. */

import { chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

export interface HelpBar {
  readonly name: string;
  readonly saved: number;
  readonly lower: number;
  readonly upper: number;
}

export function helpChart(bars: readonly HelpBar[], frame: Frame): ChartSpec {
  const y = { field: 'name', type: 'nominal', sort: bars.map((bar) => bar.name) } as const;
  const x = { type: 'quantitative', scale: { zero: true, nice: true } } as const;
  return {
    ...chartBase(frame, 64 + 38 * bars.length),
    data: { values: bars },
    layer: [
      {
        mark: { type: 'rule', strokeWidth: 2.5, stroke: colour('ink') },
        encoding: {
          y: {
            ...y,
            axis: {
              title: null,
              labelExpr: "split(datum.label, ', ')",
              grid: true,
              labelLimit: frame.narrow ? 160 : 300,
              labelColor: colour('ink'),
              minExtent: frame.narrow ? 140 : 220,
            },
          },
          x: {
            ...x,
            field: 'lower',
            axis: { title: 'Flights saved in 100', grid: true, tickCount: frame.narrow ? 3 : 6, format: '~r' },
          },
          x2: { field: 'upper' },
        },
      },
      {
        mark: {
          type: 'point',
          shape: 'circle',
          filled: true,
          size: 70,
          opacity: 1,
          fill: colour('accent'),
          stroke: colour('ink'),
        },
        encoding: { y, x: { ...x, field: 'saved' } },
      },
      {
        data: { values: [{ none: 0 }] },
        mark: { type: 'rule', stroke: colour('edge'), strokeWidth: 1 },
        encoding: { x: { ...x, field: 'none' } },
      },
    ],
  };
}
