/** The gauge shows the risk at the planned height against its limit, on a line, with both its intervals: the answer at a glance. */
import type { Proportion } from '../../sim/statistics/proportion.js';
import { chartBase, type Frame, riskFloor, riskTicks } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import { percentLimit } from '../kit/words/numbers.js';

export interface GaugeData {
  readonly risk: Proportion;
  /** What nobody has measured could make of it; null where that is not known. */
  readonly unmeasured: { readonly lower: number; readonly upper: number } | null;
}

const ROW = 34;
const SIDE = 18;

export function gaugeChart({ risk, unmeasured }: GaugeData, limit: number, frame: Frame): ChartSpec {
  const floor = riskFloor([
    25 * limit,
    risk.lower > 0 ? 100 * risk.lower : 100 * (risk.upper / 3),
    ...(unmeasured === null || unmeasured.lower === 0 ? [] : [100 * unmeasured.lower]),
  ]);
  const x = {
    type: 'quantitative',
    scale: { type: 'log', domain: [floor, 100], clamp: true },
    axis: {
      title: 'Flights in 100 that do not land softly',
      values: riskTicks(floor),
      format: '~r',
      labelOverlap: true,
    },
  } as const;
  const y = { field: 'middle', type: 'quantitative', scale: null, axis: null } as const;
  const onAxis = (share: number) => Math.min(100, Math.max(floor, 100 * share));
  const bar = (one: { readonly lower: number; readonly upper: number }) => ({
    middle: ROW / 2,
    lower: onAxis(one.lower),
    upper: onAxis(one.upper),
  });
  return {
    ...chartBase(frame, ROW),
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
        data: { values: unmeasured === null ? [] : [bar(unmeasured)] },
        mark: { type: 'rule', strokeWidth: 26, stroke: colour('line') },
        encoding: { x: { ...x, field: 'lower' }, x2: { field: 'upper' }, y },
      },
      {
        data: { values: [{ ...bar(risk), estimate: onAxis(risk.estimate), seen: risk.count > 0 }] },
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
        ],
      },
      {
        data: { values: [{ limit: 100 * limit }] },
        mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.6 },
        encoding: { x: { ...x, field: 'limit' } },
      },
    ],
  };
}
