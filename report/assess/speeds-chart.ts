/**
 * Touchdown speeds are drawn by outcome. Soft and failed flights have a chart each: beside 9600 soft landings 300
 * hard landings vanish.
 */
import { exceedance } from '../../sim/statistics/exceedance.js';
import type { Histogram } from '../../sim/statistics/histogram.js';
import {
  aboveAxis,
  chartBase,
  type Frame,
  OUTCOME_FILL,
  OUTCOME_STROKE,
  riskFloor,
  riskTicks,
} from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';

export interface SpeedData {
  readonly speeds: Histogram;
  /** Flights flown, the whole that "in 100" refers to. */
  readonly flights: number;
  readonly limit: number | null;
  /** Right end of the axis, m/s. */
  readonly end: number;
}

export type SpeedOutcome = 'soft' | 'hard' | 'crash';

interface Bin {
  readonly from: number;
  readonly to: number;
  readonly outcome: SpeedOutcome;
  /** Flights in 100. */
  readonly share: number;
}

/** Right end of the last bin that holds a flight, and at least a little over the limit. */
export function speedAxisEnd(histograms: readonly Histogram[], limit: number | null): number {
  let end = 1.4 * (limit ?? 5);
  for (const { from, width, soft, hard, crash } of histograms) {
    soft.forEach((count, bin) => {
      if (count + hard[bin] + crash[bin] > 0) end = Math.max(end, from + width * (bin + 1));
    });
  }
  return Math.ceil(end);
}

/** The bins that hold flights with these outcomes, as shares of all flights flown. */
export function speedBins(
  { speeds, flights }: Pick<SpeedData, 'speeds' | 'flights'>,
  outcomes: readonly SpeedOutcome[],
): readonly Bin[] {
  const { from, width } = speeds;
  return outcomes.flatMap((outcome) =>
    speeds[outcome]
      .map((count, bin) => ({
        from: from + width * bin,
        to: from + width * (bin + 1),
        outcome,
        share: (100 * count) / flights,
      }))
      .filter(({ share }) => share > 0),
  );
}

const speedAxis = (end: number) => ({ type: 'quantitative', scale: { domain: [0, end], nice: false } }) as const;

function limitLayers(data: SpeedData, words: boolean) {
  if (data.limit === null) return [];
  const x = { ...speedAxis(data.end), field: 'limit' } as const;
  const rule = {
    mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 1.5, strokeDash: [5, 3] },
    encoding: { x },
  } as const;
  const text = {
    mark: { type: 'text', align: 'left', baseline: 'top', dx: 5, dy: 1, fontWeight: 600, color: colour('accent') },
    encoding: { x, y: { value: 0 }, text: { field: 'text' } },
  } as const;
  return [
    {
      data: { values: [{ limit: data.limit, text: `limit ${data.limit} m/s` }] },
      layer: words ? [rule, text] : [rule],
    },
  ];
}

function histogram(data: SpeedData, frame: Frame, which: 'soft' | 'failed'): ChartSpec {
  const values = speedBins(data, which === 'soft' ? ['soft'] : ['hard', 'crash']);
  const title = which === 'soft' ? 'Soft landings, flights in 100' : 'Hard landings and crashes, flights in 100';
  const x = speedAxis(data.end);
  return {
    ...chartBase(frame, which === 'soft' ? 130 : 190),
    layer: [
      {
        data: { values },
        mark: { type: 'bar', binSpacing: 0, strokeWidth: 0.7 },
        encoding: {
          x: {
            ...x,
            field: 'from',
            bin: 'binned',
            axis: {
              title: which === 'soft' ? null : 'Touchdown speed, m/s',
              tickCount: frame.narrow ? 6 : 10,
              grid: false,
            },
          },
          x2: { field: 'to' },
          y: {
            field: 'share',
            type: 'quantitative',
            stack: 'zero',
            ...(values.length === 0 ? { scale: { domain: [0, 1] } } : {}),
            axis: { ...aboveAxis(title), tickCount: 3, format: '~r' },
          },
          fill: OUTCOME_FILL,
          stroke: OUTCOME_STROKE,
          order: { field: 'outcome', sort: 'ascending' },
        },
      },
      ...limitLayers(data, which === 'soft'),
    ],
  };
}

export function softSpeedChart(data: SpeedData, frame: Frame): ChartSpec {
  return histogram(data, frame, 'soft');
}

export function failedSpeedChart(data: SpeedData, frame: Frame): ChartSpec {
  return histogram(data, frame, 'failed');
}

export function exceedanceChart(data: SpeedData, frame: Frame): ChartSpec {
  const points = exceedance(data.speeds, data.flights).filter(({ speed, share }) => share > 0 && speed <= data.end);
  const floor = riskFloor([...points.map(({ share }) => share), 1]);
  return {
    ...chartBase(frame, frame.narrow ? 220 : 230),
    layer: [
      {
        data: { values: points },
        mark: { type: 'line', interpolate: 'linear', stroke: colour('ink'), strokeWidth: 2 },
        encoding: {
          x: {
            ...speedAxis(data.end),
            field: 'speed',
            axis: { title: 'Touchdown speed, m/s', tickCount: frame.narrow ? 6 : 10 },
          },
          y: {
            field: 'share',
            type: 'quantitative',
            scale: { type: 'log', domain: [floor, 100], clamp: true },
            axis: {
              ...aboveAxis('Flights in 100 that touch down so fast or faster'),
              values: riskTicks(floor),
              format: '~r',
            },
          },
        },
      },
      ...limitLayers(data, true),
    ],
  };
}
