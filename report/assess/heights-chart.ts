/**
 * Risk stands against throttle-up height on a logarithmic axis: the decision lies at a few flights in 100, not at 50.
 */
import type { HeightPoint } from '../../sim/assess/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import { aboveAxis, acceptableRiskLine, chartBase, type Frame, riskFloor, riskTicks } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import { metres } from '../kit/words/numbers.js';
import { STANDINGS, type Standing } from '../kit/words/standing.js';

export interface RiskCurveData {
  readonly curve: readonly (HeightPoint & { readonly standing: Standing })[];
  /** Flown again on fresh flights, which decide. */
  readonly fresh: readonly { readonly height: number; readonly risk: Proportion }[];
  readonly limit: number;
  /** Heights to mark with a word, such as "planned". */
  readonly marks: readonly { readonly height: number; readonly word: string }[];
  /** Stretches of heights that are shown to keep every limit. */
  readonly shown: readonly { readonly from: number; readonly to: number }[];
}

/** In the order of STANDINGS. A height with fewer flights is hollow and small, so that nobody takes it for a height flown in full. */
const SHAPES = ['circle', 'diamond', 'triangle-up', 'triangle-up', 'circle'];
const FILLS = [colour('ink'), colour('paper'), colour('ink'), colour('paper'), colour('paper')];
const EDGES = [colour('ink'), colour('ink'), colour('ink'), colour('quiet'), colour('quiet')];
const SIZES = [56, 62, 52, 34, 24];

/** Fresh flights stand beside the others at the same height, so far to the right, px. */
const ASIDE = 6;

/** Share of the axis beyond which a label stands to the left of its line, where it is not cut off. */
const ROOM_TO_THE_RIGHT = 0.7;

export function riskCurveChart(data: RiskCurveData, frame: Frame): ChartSpec {
  const { curve, fresh, limit, marks } = data;
  const floor = riskFloor([
    100 * limit,
    ...curve.map((point) => 100 * (point.risk.count === 0 ? point.risk.upper / 2 : point.risk.estimate)),
    ...[...curve, ...fresh].map((point) => 100 * point.risk.lower),
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
    axis: { ...aboveAxis('Flights in 100 that do not land softly'), values: riskTicks(floor), format: '~r' },
  } as const;
  const interval = (risk: Proportion) => ({
    estimate: 100 * risk.estimate,
    lower: Math.max(floor, 100 * risk.lower),
    upper: 100 * risk.upper,
    seen: risk.count > 0,
  });
  const byStanding = (range: readonly string[]) =>
    ({
      field: 'standing',
      type: 'nominal',
      scale: { domain: STANDINGS, range },
      legend: null,
    }) as const;
  const whiskers = (stroke: object, xOffset: number) => [
    {
      mark: { type: 'rule', strokeWidth: 1.6, xOffset, x2Offset: xOffset },
      encoding: { x: { ...x, field: 'height' }, y: { ...y, field: 'lower' }, y2: { field: 'upper' }, stroke },
    },
    ...(['lower', 'upper'] as const).map((end) => ({
      mark: { type: 'tick', orient: 'horizontal', thickness: 1.6, size: 10, xOffset },
      encoding: { x: { ...x, field: 'height' }, y: { ...y, field: end }, color: stroke },
    })),
  ];
  return {
    ...chartBase(frame, frame.narrow ? 320 : 360),
    layer: [
      {
        data: { values: [{ low: floor, high: 100 * limit }] },
        mark: { type: 'rect', fill: colour('accent-tint') },
        encoding: { y: { ...y, field: 'low' }, y2: { field: 'high' } },
      },
      {
        data: { values: [...data.shown] },
        mark: { type: 'bar', height: 7, fill: colour('accent') },
        encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' }, y: { value: 'height' } },
      },
      acceptableRiskLine(limit, y),
      {
        data: {
          values: marks.map(({ height, word }, row) => ({
            height,
            top: 18 * row,
            text: `${word} ${metres(height)}`,
            side: height > lowest + ROOM_TO_THE_RIGHT * (highest - lowest) ? 'left' : 'right',
          })),
        },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 1.5, strokeDash: [5, 3] },
            encoding: { x: { ...x, field: 'height' } },
          },
          // Once as a ground that covers what lies under it, once as text.
          ...[{ stroke: colour('paper'), strokeWidth: 6 }, {}].flatMap((ground) =>
            (['right', 'left'] as const).map((side) => ({
              transform: [{ filter: { field: 'side', equal: side } }],
              mark: {
                type: 'text',
                align: side === 'right' ? 'left' : 'right',
                baseline: 'top',
                dx: side === 'right' ? 6 : -6,
                dy: 2,
                fontWeight: 600,
                color: colour('accent'),
                ...ground,
              },
              encoding: {
                x: { ...x, field: 'height' },
                y: { field: 'top', type: 'quantitative', scale: null, axis: null },
                text: { field: 'text' },
              },
            })),
          ),
        ],
      },
      {
        data: {
          values: curve.map(({ height, risk, standing }) => ({
            height,
            standing,
            size: SIZES[STANDINGS.indexOf(standing)],
            ...interval(risk),
          })),
        },
        layer: [
          {
            transform: [{ filter: 'datum.seen' }],
            mark: { type: 'line', stroke: colour('quiet'), strokeWidth: 1, strokeDash: [1, 3] },
            encoding: { x: { ...x, field: 'height' }, y: { ...y, field: 'estimate' } },
          },
          ...whiskers(byStanding(EDGES), 0),
          {
            transform: [{ filter: 'datum.seen' }],
            mark: { type: 'point', filled: true, opacity: 1, strokeWidth: 1.4 },
            encoding: {
              x: { ...x, field: 'height' },
              y: { ...y, field: 'estimate' },
              shape: byStanding(SHAPES),
              fill: byStanding(FILLS),
              stroke: byStanding(EDGES),
              size: { field: 'size', type: 'quantitative', scale: null },
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
      {
        data: { values: fresh.map(({ height, risk }) => ({ height, ...interval(risk) })) },
        layer: [
          ...whiskers({ value: colour('accent') }, ASIDE),
          {
            mark: {
              type: 'point',
              shape: 'square',
              filled: true,
              size: 50,
              opacity: 1,
              fill: colour('accent'),
              xOffset: ASIDE,
            },
            encoding: { x: { ...x, field: 'height' }, y: { ...y, field: 'estimate' } },
          },
        ],
      },
    ],
  };
}
