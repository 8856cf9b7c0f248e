/** What goes wrong, how often: an estimate with its interval for each cause. */
import type { CauseRow } from '../../sim/assess/decisions.js';
import { chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

export function causesChart(rows: readonly CauseRow[], frame: Frame): ChartSpec {
  const values = rows.map(({ cause, risk }) => ({
    cause,
    estimate: 100 * risk.estimate,
    lower: 100 * risk.lower,
    upper: 100 * risk.upper,
  }));
  const y = { field: 'cause', type: 'nominal', sort: rows.map((row) => row.cause) } as const;
  const x = { type: 'quantitative', scale: { zero: true, nice: true } } as const;
  return {
    ...chartBase(frame, 52 + 30 * rows.length),
    data: { values },
    layer: [
      {
        mark: { type: 'bar', height: 14, fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.8 },
        encoding: {
          y: {
            ...y,
            axis: {
              title: null,
              labelLimit: frame.narrow ? 130 : 220,
              labelColor: colour('ink'),
              minExtent: frame.narrow ? 118 : 150,
            },
          },
          x: {
            ...x,
            field: 'estimate',
            axis: { title: 'Flights in 100', grid: true, tickCount: frame.narrow ? 3 : 7, format: '~r' },
          },
        },
      },
      {
        mark: { type: 'rule', strokeWidth: 2, stroke: colour('ink') },
        encoding: { y, x: { ...x, field: 'lower' }, x2: { field: 'upper' } },
      },
      {
        mark: { type: 'tick', thickness: 2, size: 9, color: colour('ink') },
        encoding: { y, x: { ...x, field: 'lower' } },
      },
      {
        mark: { type: 'tick', thickness: 2, size: 9, color: colour('ink') },
        encoding: { y, x: { ...x, field: 'upper' } },
      },
    ],
  };
}
