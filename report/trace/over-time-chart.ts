/** A chart of one flight's quantities over time has the numbers of its events along the top. */
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';

export interface TimeLine {
  readonly points: readonly { readonly time: number; readonly value: number }[];
  readonly dashed: boolean;
}

export interface TimeChartData {
  readonly title: string;
  readonly lines: readonly TimeLine[];
  readonly events: readonly number[];
  /** Time to which the chart runs, s. */
  readonly end: number;
  /** Whether the vertical axis begins at zero. */
  readonly zero: boolean;
}

/** Stretches of time, of each of which the least and the greatest point are kept: what cannot be seen is left out. */
const STRETCHES = 150;

export function thinnedLine(points: TimeLine['points']): TimeLine['points'] {
  if (points.length <= 2 * STRETCHES) return points;
  const kept = new Set([0, points.length - 1]);
  for (let stretch = 0; stretch < STRETCHES; stretch++) {
    const from = Math.floor((stretch * points.length) / STRETCHES);
    const to = Math.floor(((stretch + 1) * points.length) / STRETCHES);
    let [least, greatest] = [from, from];
    for (let at = from; at < to; at++) {
      if (points[at].value < points[least].value) least = at;
      if (points[at].value > points[greatest].value) greatest = at;
    }
    kept.add(least).add(greatest);
  }
  return [...kept].sort((a, b) => a - b).map((at) => points[at]);
}

/** Events nearer than this share of the chart's width have their numbers under one another. */
const NEAR = { wide: 0.022, narrow: 0.05 };
const ROW = 14;

function eventMarks({ events, end }: TimeChartData, { narrow }: Frame) {
  const near = (narrow ? NEAR.narrow : NEAR.wide) * end;
  const marks: { time: number; name: string; row: number }[] = [];
  events.forEach((time, index) => {
    const before = marks.at(-1);
    const row = before !== undefined && time - before.time < near ? before.row + 1 : 0;
    marks.push({ time, name: String(index + 1), row });
  });
  return marks.map(({ time, name, row }) => ({ time, name, top: ROW * row }));
}

export function timeChart(data: TimeChartData, frame: Frame, height = 200): ChartSpec {
  const x = {
    type: 'quantitative',
    field: 'time',
    scale: { domain: [0, 1.03 * data.end], nice: false },
    axis: { title: 'Time after ejection, s', tickCount: frame.narrow ? 6 : 12 },
  } as const;
  const y = {
    field: 'value',
    type: 'quantitative',
    scale: { zero: data.zero },
    axis: { ...aboveAxis(data.title), tickCount: 5 },
  } as const;
  return {
    ...chartBase(frame, height),
    layer: [
      {
        data: { values: eventMarks(data, frame) },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('edge'), strokeWidth: 1, strokeDash: [1, 3] },
            encoding: { x },
          },
          {
            mark: { type: 'text', align: 'left', baseline: 'top', dx: 2, color: colour('quiet') },
            encoding: {
              x,
              y: { field: 'top', type: 'quantitative', scale: null, axis: null },
              text: { field: 'name' },
            },
          },
        ],
      },
      ...data.lines.map(({ points, dashed }) => ({
        data: { values: thinnedLine(points) },
        mark: {
          type: 'line',
          stroke: dashed ? colour('ink') : colour('accent'),
          strokeWidth: dashed ? 1.4 : 2,
          ...(dashed ? { strokeDash: [6, 3] } : {}),
        },
        encoding: { x, y },
      })),
    ],
  };
}
