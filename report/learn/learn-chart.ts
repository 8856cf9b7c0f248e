/** Ranges of unmeasured inputs before and after, each on the scale of its range before. */
import type { LearnedInput } from '../../sim/learn/result.js';
import { chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

export function learnedChart(inputs: readonly LearnedInput[], frame: Frame): ChartSpec {
  const rows = inputs.map(({ name, before, after }) => {
    const width = before[2] - before[0] || 1;
    const [low, middle, high] = after.map((one) => (one - before[0]) / width);
    return { name, before: 0, beforeEnd: 1, low, middle, high };
  });
  const x = {
    type: 'quantitative',
    scale: {
      domain: [Math.min(-0.1, ...rows.map(({ low }) => low)), Math.max(1.1, ...rows.map(({ high }) => high))],
      nice: false,
    },
    axis: { title: 'Share of the range before (0: its 5 % point, 1: its 95 % point)', tickCount: 5 },
  } as const;
  const y = {
    field: 'name',
    type: 'nominal',
    sort: null,
    axis: { title: null, domain: false, ticks: false, labelLimit: frame.narrow ? 130 : 260 },
  } as const;
  return {
    ...chartBase(frame, 60 + 24 * rows.length),
    data: { values: rows },
    layer: [
      {
        mark: { type: 'bar', fill: colour('line'), height: 14 },
        encoding: { x: { ...x, field: 'before' }, x2: { field: 'beforeEnd' }, y },
      },
      {
        mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 3 },
        encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' }, y },
      },
      {
        mark: { type: 'point', filled: true, size: 70, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'middle' }, y },
      },
    ],
  };
}
