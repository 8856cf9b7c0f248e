/** Height and speed run over time: a band where most flights are, with a few flights drawn out in full. */
import type { EnvelopePoint, TimeHistory } from '../../sim/trace/result.js';
import { aboveAxis, chartBase, type Frame, OUTCOME_FILL, OUTCOME_SHAPE, OUTCOME_STROKE } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import { metres } from '../kit/words/numbers.js';

export interface CourseData {
  readonly envelope: readonly EnvelopePoint[];
  readonly histories: readonly TimeHistory[];
  readonly plannedHeight: number;
}

/** A, B, C: how a line is called in the chart, its legend and its table. */
export function letterOf(index: number): string {
  return String.fromCharCode('A'.charCodeAt(0) + index);
}

/** Points kept of each history; more cannot be seen. */
const POINTS = 120;

function thinned(history: TimeHistory, index: number, quantity: 'height' | 'speed') {
  const last = history.time.length - 1;
  const step = Math.max(1, last / POINTS);
  const picks = Array.from({ length: Math.floor(last / step) + 1 }, (_, i) => Math.round(i * step));
  if (picks.at(-1) !== last) picks.push(last);
  return picks.map((i) => ({
    id: history.id,
    letter: letterOf(index),
    outcome: history.outcome,
    time: history.time[i],
    value: history[quantity][i],
    end: i === last,
  }));
}

/** Time to which the chart runs: when 19 of 20 flights are down, and the shown flights too. */
function lastTime(data: CourseData): number {
  const flying = data.envelope.filter((point) => point.flying >= 0.05).map((point) => point.time);
  const shown = data.histories.map((history) => history.time.at(-1) ?? 0);
  return Math.max(1, ...flying, ...shown);
}

/** Letters of two ends would overlap when the ends are nearer than these shares of the chart's width and height. */
const NEAR = { time: 0.04, value: 0.12 };

/** The rows by which each letter stands higher: as many as earlier lines end near to its own. */
function letterRows(data: CourseData, quantity: 'height' | 'speed'): readonly number[] {
  const ends = data.histories.map((history) => ({
    time: history.time.at(-1) ?? 0,
    value: history[quantity].at(-1) ?? 0,
  }));
  const most = Math.max(1, ...data.histories.flatMap((history) => history[quantity]));
  const isNear = (one: (typeof ends)[number], other: (typeof ends)[number]) =>
    Math.abs(one.time - other.time) < NEAR.time * lastTime(data) &&
    Math.abs(one.value - other.value) < NEAR.value * most;
  return ends.map((end, index) => ends.slice(0, index).filter((other) => isNear(end, other)).length);
}

function courseChart(data: CourseData, frame: Frame, quantity: 'height' | 'speed'): ChartSpec {
  const x = {
    type: 'quantitative',
    field: 'time',
    scale: { domain: [0, 1.03 * lastTime(data)], nice: false },
    axis: { title: quantity === 'height' ? null : 'Time after ejection, s', tickCount: frame.narrow ? 6 : 12 },
  } as const;
  const y = { type: 'quantitative', scale: { zero: true } } as const;
  const title = quantity === 'height' ? 'Height above ground, m' : 'Fall speed, m/s';
  const band = data.envelope
    .filter((point) => point.flying >= 0.05)
    .map((point) => ({
      time: point.time,
      low: point[quantity][0],
      middle: point[quantity][1],
      high: point[quantity][2],
    }));
  const histories = data.histories.flatMap((history, index) => thinned(history, index, quantity));
  return {
    ...chartBase(frame, quantity === 'height' ? 300 : 210),
    layer: [
      {
        data: { values: band },
        layer: [
          {
            mark: { type: 'area', fill: colour('line'), fillOpacity: 0.75 },
            encoding: {
              x,
              y: { ...y, field: 'low', axis: { ...aboveAxis(title), tickCount: 5 } },
              y2: { field: 'high' },
            },
          },
          {
            mark: { type: 'line', stroke: colour('quiet'), strokeWidth: 1.4, strokeDash: [2, 2] },
            encoding: { x, y: { ...y, field: 'middle' } },
          },
        ],
      },
      ...(quantity === 'height'
        ? [
            {
              data: { values: [{ height: data.plannedHeight, text: `planned ${metres(data.plannedHeight)}` }] },
              layer: [
                {
                  mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 1.5, strokeDash: [5, 3] },
                  encoding: { y: { ...y, field: 'height' } },
                },
                {
                  mark: {
                    type: 'text',
                    align: 'right',
                    baseline: 'bottom',
                    dx: -4,
                    dy: -4,
                    fontWeight: 600,
                    color: colour('accent'),
                  },
                  encoding: { x: { value: 'width' }, y: { ...y, field: 'height' }, text: { field: 'text' } },
                },
              ],
            } as const,
          ]
        : []),
      {
        data: { values: histories },
        layer: [
          {
            mark: { type: 'line', strokeWidth: 1.8 },
            encoding: {
              x,
              y: { ...y, field: 'value' },
              detail: { field: 'id', type: 'nominal' },
              stroke: OUTCOME_STROKE,
            },
          },
          {
            transform: [{ filter: 'datum.end' }],
            mark: { type: 'point', filled: true, size: 90, opacity: 1, strokeWidth: 1.2 },
            encoding: {
              x,
              y: { ...y, field: 'value' },
              shape: OUTCOME_SHAPE,
              fill: OUTCOME_FILL,
              stroke: OUTCOME_STROKE,
            },
          },
          ...letterRows(data, quantity).map((row, index) => ({
            transform: [{ filter: `datum.end && datum.letter === '${letterOf(index)}'` }],
            mark: { type: 'text', align: 'left', baseline: 'bottom', dx: 5, dy: -4 - 14 * row, fontWeight: 600 },
            encoding: { x, y: { ...y, field: 'value' }, text: { field: 'letter' } },
          })),
        ],
      },
    ],
  };
}

export function heightCourseChart(data: CourseData, frame: Frame): ChartSpec {
  return courseChart(data, frame, 'height');
}

export function speedCourseChart(data: CourseData, frame: Frame): ChartSpec {
  return courseChart(data, frame, 'speed');
}
