/** Risk against throttle-up height, on a logarithmic axis: the decision lies at a few flights in 100, not at 50. */
import type { HeightPoint } from '../../sim/result/result.js';
import { colour } from '../palette.js';
import type { Frame } from '../table.js';
import { metres, percentLimit } from '../words/numbers.js';
import type { ChartSpec } from './draw.js';
import { aboveAxis, chartBase, riskFloor, riskTicks } from './style.js';

export interface RiskCurveData {
  readonly curve: readonly HeightPoint[];
  readonly limit: number;
  /** Heights to mark with a word, such as the planned one. */
  readonly marks: readonly { readonly height: number; readonly word: string }[];
}

export const VERDICT_SHAPES = { within: 'circle', 'not shown': 'diamond', above: 'triangle-up' } as const;

export function riskCurveChart(data: RiskCurveData, frame: Frame): ChartSpec {
  const { curve, limit, marks } = data;
  const floor = riskFloor([
    100 * limit,
    ...curve.map((point) => 100 * (point.risk.count === 0 ? point.risk.upper / 2 : point.risk.estimate)),
    ...curve.map((point) => 100 * point.risk.lower),
  ]);
  const heights = [...curve.map((point) => point.height), ...marks.map((mark) => mark.height)];
  const [lowest, highest] = [Math.min(...heights), Math.max(...heights)];
  const margin = Math.max(5, 0.06 * (highest - lowest));
  const x = {
    type: 'quantitative',
    scale: { domain: [lowest - margin, highest + margin], nice: false },
    axis: { title: 'Throttle-up height above ground, m', tickMinStep: 10, tickCount: frame.narrow ? 5 : 9 },
  } as const;
  const y = {
    type: 'quantitative',
    scale: { type: 'log', domain: [floor, 100], clamp: true },
    axis: { ...aboveAxis('Flights in 100 that hit the ground'), values: riskTicks(floor), format: '~r' },
  } as const;
  const intervals = curve.map((point) => ({
    height: point.height,
    estimate: 100 * point.risk.estimate,
    lower: Math.max(floor, 100 * point.risk.lower),
    upper: 100 * point.risk.upper,
    verdict: point.verdict,
    seen: point.risk.count > 0,
  }));
  return {
    ...chartBase(frame, frame.narrow ? 320 : 360),
    layer: [
      {
        data: { values: [{ low: floor, high: 100 * limit }] },
        mark: { type: 'rect', fill: colour('accent-tint') },
        encoding: { y: { ...y, field: 'low' }, y2: { field: 'high' } },
      },
      {
        data: { values: [{ limit: 100 * limit, text: `acceptable: ${percentLimit(limit)}` }] },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.2 },
            encoding: { y: { ...y, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'right', baseline: 'bottom', dx: -4, dy: -4, fontWeight: 600 },
            encoding: { x: { value: 'width' }, y: { ...y, field: 'limit' }, text: { field: 'text' } },
          },
        ],
      },
      {
        data: {
          values: marks.map(({ height, word }, row) => ({ height, top: 18 * row, text: `${word} ${metres(height)}` })),
        },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 1.5, strokeDash: [5, 3] },
            encoding: { x: { ...x, field: 'height' } },
          },
          {
            mark: {
              type: 'text',
              align: 'left',
              baseline: 'top',
              dx: 6,
              dy: 2,
              fontWeight: 600,
              color: colour('accent'),
            },
            encoding: {
              x: { ...x, field: 'height' },
              y: { field: 'top', type: 'quantitative', scale: null, axis: null },
              text: { field: 'text' },
            },
          },
        ],
      },
      {
        data: { values: intervals },
        layer: [
          {
            mark: { type: 'rule', strokeWidth: 1.6, stroke: colour('ink') },
            encoding: { x: { ...x, field: 'height' }, y: { ...y, field: 'lower' }, y2: { field: 'upper' } },
          },
          ...(['lower', 'upper'] as const).map((end) => ({
            mark: { type: 'tick', orient: 'horizontal', thickness: 1.6, size: 12, color: colour('ink') },
            encoding: { x: { ...x, field: 'height' }, y: { ...y, field: end } },
          })),
          {
            transform: [{ filter: 'datum.seen' }],
            mark: { type: 'point', filled: true, size: 52, opacity: 1, strokeWidth: 1.4, stroke: colour('ink') },
            encoding: {
              x: { ...x, field: 'height' },
              y: { ...y, field: 'estimate' },
              shape: {
                field: 'verdict',
                type: 'nominal',
                scale: { domain: Object.keys(VERDICT_SHAPES), range: Object.values(VERDICT_SHAPES) },
                legend: null,
              },
              fill: {
                field: 'verdict',
                type: 'nominal',
                scale: {
                  domain: Object.keys(VERDICT_SHAPES),
                  range: [colour('accent'), colour('paper'), colour('ink')],
                },
                legend: null,
              },
            },
          },
          {
            transform: [{ filter: '!datum.seen' }],
            mark: {
              type: 'point',
              shape: 'triangle-down',
              filled: true,
              size: 70,
              opacity: 1,
              fill: colour('accent'),
              yOffset: 4,
            },
            encoding: { x: { ...x, field: 'height' }, y: { ...y, field: 'upper' } },
          },
        ],
      },
    ],
  };
}
