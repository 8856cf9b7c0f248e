/** What B saves and what it breaks, by cause: bars to the right and to the left of one line. */

import { chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

export interface CauseBar {
  readonly cause: string;
  /** In flights in 100. */
  readonly saved: number;
  readonly lost: number;
}

export function compareCausesChart(bars: readonly CauseBar[], frame: Frame): ChartSpec {
  const most = Math.max(...bars.flatMap(({ saved, lost }) => [saved, lost]));
  const y = { field: 'cause', type: 'nominal', sort: bars.map(({ cause }) => cause) } as const;
  const x = { type: 'quantitative', scale: { domain: [-1.05 * most, 1.05 * most], nice: false } } as const;
  const axis = {
    title: frame.narrow ? 'B loses | B saves, in 100' : 'Flights in 100 that B loses (left) and saves (right)',
    grid: true,
    tickCount: frame.narrow ? 5 : 9,
    labelExpr: "replace(format(abs(datum.value), '~r'), '-', '')",
  };
  const bar = (field: 'saved' | 'lost', fill: string, stroke: string) => ({
    mark: { type: 'bar', height: 14, fill, stroke, strokeWidth: 0.8 },
    encoding: { y: { ...y, ...(field === 'saved' ? causeAxis(frame) : {}) }, x: { ...x, field, axis } },
  });
  return {
    ...chartBase(frame, 56 + 30 * bars.length),
    data: { values: bars.map(({ cause, saved, lost }) => ({ cause, saved, lost: -lost })) },
    layer: [
      bar('saved', colour('soft'), colour('soft-edge')),
      bar('lost', colour('crash'), colour('crash-edge')),
      {
        data: { values: [{ none: 0 }] },
        mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1 },
        encoding: { x: { ...x, field: 'none' } },
      },
    ],
  };
}

function causeAxis(frame: Frame) {
  return {
    axis: {
      title: null,
      labelLimit: frame.narrow ? 130 : 220,
      labelColor: colour('ink'),
      minExtent: frame.narrow ? 118 : 150,
    },
  };
}
