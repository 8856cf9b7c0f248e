/**
 * Touchdown speeds of two designs are drawn twice: how many flights reach a speed or more, and a histogram for each
 * design.
 */

import { exceedance } from '../../sim/statistics/exceedance.js';
import type { Histogram } from '../../sim/statistics/histogram.js';
import { type SpeedOutcome, speedBins } from '../assess/speeds-chart.js';
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

export interface TwoSpeeds {
  readonly a: Histogram;
  readonly b: Histogram;
  readonly flights: number;
  /** Right end of the axis, m/s. */
  readonly end: number;
}

export function compareExceedanceChart({ a, b, flights, end }: TwoSpeeds, frame: Frame): ChartSpec {
  const points = (histogram: Histogram) =>
    exceedance(histogram, flights).filter(({ speed, share }) => share > 0 && speed <= end);
  const [ofA, ofB] = [points(a), points(b)];
  const floor = riskFloor([...ofA, ...ofB].map(({ share }) => share).concat(1));
  const line = (values: ReturnType<typeof points>, stroke: string, dash: readonly number[]) => ({
    data: { values },
    mark: { type: 'line', interpolate: 'linear', stroke, strokeWidth: 2.2, strokeDash: dash },
    encoding: {
      x: {
        field: 'speed',
        type: 'quantitative',
        scale: { domain: [0, end], nice: false },
        axis: { title: 'Touchdown speed, m/s', tickCount: frame.narrow ? 6 : 10 },
      },
      y: {
        field: 'share',
        type: 'quantitative',
        scale: { type: 'log', domain: [floor, 100], clamp: true },
        axis: {
          ...aboveAxis(
            frame.narrow ? 'Flights in 100 so fast or faster' : 'Flights in 100 that touch down so fast or faster',
          ),
          values: riskTicks(floor),
          format: '~r',
        },
      },
    },
  });
  return {
    ...chartBase(frame, frame.narrow ? 230 : 260),
    layer: [line(ofA, colour('ink'), [6, 3]), line(ofB, colour('accent'), [])],
  };
}

/** Flights in 100 of the highest bin, over both designs: the scale that makes two histograms comparable. */
export function tallestBin({ a, b, flights }: TwoSpeeds, outcomes: readonly SpeedOutcome[]): number {
  const heights = [a, b].flatMap((histogram) =>
    histogram.soft.map((_, bin) => outcomes.reduce((sum, outcome) => sum + histogram[outcome][bin], 0)),
  );
  return (100 * Math.max(0, ...heights)) / flights;
}

export interface OneSpeeds {
  readonly histogram: Histogram;
  readonly flights: number;
  readonly end: number;
  readonly outcomes: readonly SpeedOutcome[];
  readonly title: string;
  /** Upper end of the vertical axis, flights in 100. */
  readonly tallest: number;
}

export function compareHistogram(
  { histogram, flights, end, outcomes, title, tallest }: OneSpeeds,
  frame: Frame,
): ChartSpec {
  return {
    ...chartBase(frame, 170),
    data: { values: speedBins({ speeds: histogram, flights }, outcomes) },
    mark: { type: 'bar', binSpacing: 0, strokeWidth: 0.7 },
    encoding: {
      x: {
        field: 'from',
        type: 'quantitative',
        bin: 'binned',
        scale: { domain: [0, end], nice: false },
        axis: { title: 'Touchdown speed, m/s', tickCount: 6, grid: false },
      },
      x2: { field: 'to' },
      y: {
        field: 'share',
        type: 'quantitative',
        stack: 'zero',
        scale: { domain: [0, tallest > 0 ? tallest : 1] },
        axis: { ...aboveAxis(title), tickCount: 3, format: '~r' },
      },
      fill: OUTCOME_FILL,
      stroke: OUTCOME_STROKE,
      order: { field: 'outcome', sort: 'ascending' },
    },
  };
}
