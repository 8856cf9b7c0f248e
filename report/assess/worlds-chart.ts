/** Failures in each plausible world, with the limit and the spread that is left when the chance of few flights is taken out. */
import type { WorldsResult } from '../../sim/assess/decisions.js';
import { aboveAxis, chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';
import { percentLimit } from '../kit/words/numbers.js';

/** Room over the highest bar for what is written beside the limit. */
const HEADROOM = 1.22;

/** Number of worlds by their number of failures. */
export function worldBins(worlds: WorldsResult): readonly { readonly failures: number; readonly worlds: number }[] {
  const most = Math.max(...worlds.counts, Math.ceil(worlds.limit * worlds.flightsEach) + 1);
  return Array.from({ length: most + 1 }, (_, failures) => ({
    failures,
    worlds: worlds.counts.filter((count) => count === failures).length,
  }));
}

export function worldsChart(worlds: WorldsResult, frame: Frame): ChartSpec {
  const bins = worldBins(worlds);
  const each = worlds.flightsEach;
  const x = {
    type: 'quantitative',
    scale: { domain: [-0.6, bins.length - 0.4], nice: false },
    axis: {
      title: `Flights that hit the ground, of ${each} in a world`,
      tickMinStep: 1,
      tickCount: frame.narrow ? 6 : 12,
      format: 'd',
    },
  } as const;
  const y = {
    field: 'count',
    type: 'quantitative',
    scale: { domain: [0, HEADROOM * Math.max(1, ...bins.map((bin) => bin.worlds))], nice: false },
    axis: { ...aboveAxis('Worlds'), tickMinStep: 1, tickCount: 4 },
  } as const;
  const spread =
    worlds.lower === null || worlds.upper === null ? [] : [{ low: each * worlds.lower, high: each * worlds.upper }];
  return {
    ...chartBase(frame, 240),
    layer: [
      {
        data: { values: spread },
        mark: { type: 'rect', fill: colour('accent-tint') },
        encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' } },
      },
      {
        data: {
          values: bins
            .filter((bin) => bin.worlds > 0)
            .map(({ failures, worlds: count }) => ({ from: failures - 0.4, to: failures + 0.4, count })),
        },
        mark: { type: 'bar', fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.8 },
        encoding: {
          x: { ...x, field: 'from', bin: 'binned' },
          x2: { field: 'to' },
          y,
        },
      },
      {
        data: { values: [{ limit: each * worlds.limit, text: `acceptable: ${percentLimit(worlds.limit)}` }] },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.4 },
            encoding: { x: { ...x, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'left', baseline: 'top', dx: 5, fontWeight: 600 },
            encoding: { x: { ...x, field: 'limit' }, y: { value: 0 }, text: { field: 'text' } },
          },
        ],
      },
    ],
  };
}
