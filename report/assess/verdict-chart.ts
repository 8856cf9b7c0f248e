/** The gauge shows the risk at a height or two against its limit, on a line: the answer at a glance. */
import type { Proportion } from '../../sim/statistics/proportion.js';
import { chartBase, type Frame, riskFloor, riskTicks } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import { percentLimit } from '../kit/words/numbers.js';

export interface GaugeRow {
  /** Which height it is; null where there is a single height. */
  readonly name: string | null;
  readonly risk: Proportion;
}

const ROW = 28;
const SIDE = 18;

export function gaugeChart(rows: readonly GaugeRow[], limit: number, frame: Frame): ChartSpec {
  const floor = riskFloor([
    25 * limit,
    ...rows.map(({ risk }) => (risk.lower > 0 ? 100 * risk.lower : 100 * (risk.upper / 3))),
  ]);
  const x = {
    type: 'quantitative',
    scale: { type: 'log', domain: [floor, 100], clamp: true },
    axis: {
      title: 'Flights in 100 that hit the ground',
      values: riskTicks(floor),
      format: '~r',
      labelOverlap: true,
    },
  } as const;
  const y = { field: 'middle', type: 'quantitative', scale: null, axis: null } as const;
  const middleOfAxis = Math.sqrt(floor * 100);
  const bars = rows.map(({ name, risk }, row) => ({
    name: name ?? '',
    middle: ROW * (row + 0.5),
    lower: Math.max(floor, 100 * risk.lower),
    upper: 100 * risk.upper,
    estimate: Math.max(floor, 100 * risk.estimate),
    seen: risk.count > 0,
    isLeft: 100 * risk.estimate < middleOfAxis,
  }));
  return {
    ...chartBase(frame, ROW * rows.length),
    width: frame.width - 2 * SIDE,
    padding: { left: SIDE, right: SIDE, top: 20, bottom: 46 },
    autosize: 'none',
    layer: [
      {
        data: { values: [{ from: floor, limit: 100 * limit, text: `acceptable: ${percentLimit(limit)}` }] },
        layer: [
          {
            mark: { type: 'rect', fill: colour('accent-tint') },
            encoding: { x: { ...x, field: 'from' }, x2: { field: 'limit' } },
          },
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.6 },
            encoding: { x: { ...x, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'left', baseline: 'bottom', dx: -1, fontWeight: 600 },
            encoding: { x: { ...x, field: 'limit' }, y: { value: -4 }, text: { field: 'text' } },
          },
        ],
      },
      {
        data: { values: bars },
        layer: [
          {
            mark: { type: 'rule', strokeWidth: 12, stroke: colour('ink') },
            encoding: { x: { ...x, field: 'lower' }, x2: { field: 'upper' }, y },
          },
          {
            transform: [{ filter: 'datum.seen' }],
            mark: { type: 'tick', orient: 'vertical', thickness: 3, size: 22, color: colour('ink') },
            encoding: { x: { ...x, field: 'estimate' }, y },
          },
          ...[true, false].map((isLeft) => ({
            transform: [{ filter: `datum.isLeft === ${isLeft}` }],
            mark: { type: 'text', align: isLeft ? 'right' : 'left', baseline: 'middle', dx: isLeft ? -4 : 4 },
            encoding: { x: { value: isLeft ? 'width' : 0 }, y, text: { field: 'name' } },
          })),
        ],
      },
    ],
  };
}
