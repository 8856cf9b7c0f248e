/** Samples and the curve fitted to them; fitted quantiles against measured ones; what a straight line leaves. */
import type { Residual, SamplesFit } from '../../sim/fit/result.js';
import { aboveAxis, chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

/** From this many samples on, bars show them better than marks. */
const BARS_FROM = 30;

interface Bar {
  readonly from: number;
  readonly to: number;
  readonly density: number;
}

/** Bars of the width of Freedman and Diaconis, Probability Theory 57:453, 1981: 2 (Q3 - Q1) n^(-1/3). */
function barsOf(values: readonly number[]): readonly Bar[] {
  if (values.length < BARS_FROM) return [];
  const at = (p: number) => values[Math.round(p * (values.length - 1))];
  const [least, most] = [values[0], values[values.length - 1]];
  const wanted = (2 * (at(0.75) - at(0.25))) / Math.cbrt(values.length);
  const count = Math.min(40, Math.max(5, Math.ceil((most - least) / (wanted > 0 ? wanted : (most - least) / 10))));
  const width = (most - least) / count;
  const counts = new Array<number>(count).fill(0);
  for (const value of values) counts[Math.min(count - 1, Math.floor((value - least) / width))] += 1;
  return counts.map((one, i) => ({
    from: least + i * width,
    to: least + (i + 1) * width,
    density: one / (values.length * width),
  }));
}

function inUnit(name: string, unit: string): string {
  return unit === '' ? name : `${name}, ${unit}`;
}

export function fitChart({ values, curve, data }: SamplesFit, frame: Frame): ChartSpec {
  const ends = [...values, ...curve.map(({ x }) => x)];
  const x = {
    type: 'quantitative',
    scale: { domain: [Math.min(...ends), Math.max(...ends)], nice: false, zero: false },
    axis: { title: inUnit(data.column, data.unit), tickCount: frame.narrow ? 5 : 10 },
  } as const;
  const y = { type: 'quantitative', axis: { ...aboveAxis('Probability density'), tickCount: 4 } } as const;
  return {
    ...chartBase(frame, 260),
    layer: [
      {
        data: { values: barsOf(values) },
        mark: { type: 'bar', fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.6 },
        encoding: {
          x: { ...x, field: 'from', bin: 'binned' },
          x2: { field: 'to' },
          y: { ...y, field: 'density' },
        },
      },
      {
        data: { values: curve },
        mark: { type: 'line', stroke: colour('accent'), strokeWidth: 2 },
        encoding: { x: { ...x, field: 'x' }, y: { ...y, field: 'density' } },
      },
      {
        data: { values: values.map((value) => ({ value })) },
        mark: {
          type: 'tick',
          orient: 'vertical',
          size: 14,
          thickness: 1.2,
          stroke: colour('ink'),
          fill: colour('ink'),
          yOffset: -8,
        },
        encoding: { x: { ...x, field: 'value' }, y: { value: 'height' } },
      },
    ],
  };
}

/** A straight line through the corners is where every point of a perfect fit lies. */
export function quantileChart({ values, quantiles, data }: SamplesFit, frame: Frame): ChartSpec {
  const points = values.map((value, i) => ({ fitted: quantiles[i], value }));
  const least = Math.min(...values, ...quantiles);
  const most = Math.max(...values, ...quantiles);
  const scale = { domain: [least, most], nice: false, zero: false };
  const x = {
    type: 'quantitative',
    scale,
    axis: { title: inUnit('By the fit', data.unit), tickCount: frame.narrow ? 5 : 10 },
  } as const;
  const y = {
    type: 'quantitative',
    scale,
    axis: { ...aboveAxis(inUnit('Measured', data.unit)), tickCount: 5 },
  } as const;
  return {
    ...chartBase(frame, frame.narrow ? 280 : 320),
    layer: [
      {
        data: { values: [least, most].map((value) => ({ value })) },
        mark: { type: 'line', stroke: colour('quiet'), strokeDash: [4, 3], strokeWidth: 1.2 },
        encoding: { x: { ...x, field: 'value' }, y: { ...y, field: 'value' } },
      },
      {
        data: { values: points },
        mark: { type: 'point', filled: true, size: 36, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'fitted' }, y: { ...y, field: 'value' } },
      },
    ],
  };
}

export interface ResidualWords {
  readonly across: string;
  readonly up: string;
}

/** Measured minus fitted. */
export function residualChart(residuals: readonly Residual[], words: ResidualWords, frame: Frame): ChartSpec {
  const values = residuals.map(({ x, measured, fitted }) => ({ x, rest: measured - fitted }));
  const x = {
    type: 'quantitative',
    scale: { zero: false, nice: true },
    axis: { title: words.across, tickCount: frame.narrow ? 4 : 7 },
  } as const;
  const y = { type: 'quantitative', axis: { ...aboveAxis(words.up), tickCount: 4 } } as const;
  return {
    ...chartBase(frame, 180),
    layer: [
      {
        data: { values: [{ zero: 0 }] },
        mark: { type: 'rule', stroke: colour('quiet'), strokeDash: [4, 3] },
        encoding: { y: { ...y, field: 'zero' } },
      },
      {
        data: { values },
        mark: { type: 'point', filled: true, size: 40, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'x' }, y: { ...y, field: 'rest' } },
      },
    ],
  };
}
