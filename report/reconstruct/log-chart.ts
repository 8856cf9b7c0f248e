/** A reconstructed flight over time, laid over what the scenario predicts. */
import type { ReconstructResult } from '../../sim/reconstruct/result.js';
import { aboveAxis, chartBase } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';

function timeAxis(result: ReconstructResult, frame: Frame, titled: boolean) {
  const flown = [...result.course.map(({ time }) => time), ...result.events.map(({ time }) => time)];
  const predicted = (result.scenario?.envelope ?? []).filter(({ flying }) => flying >= 0.05).map(({ time }) => time);
  return {
    type: 'quantitative',
    field: 'time',
    scale: { domain: [0, 1.03 * Math.max(1, ...flown, ...predicted)], nice: false },
    axis: { title: titled ? 'Time after ejection, s' : null, tickCount: frame.narrow ? 6 : 12 },
  } as const;
}

export function logCourseChart(result: ReconstructResult, quantity: 'height' | 'speed', frame: Frame): ChartSpec {
  const x = timeAxis(result, frame, quantity === 'speed');
  const y = { type: 'quantitative', scale: { zero: true } } as const;
  const axis = { ...aboveAxis(quantity === 'height' ? 'Height above ground, m' : 'Fall speed, m/s'), tickCount: 5 };
  const bands = (
    points: readonly { readonly time: number; readonly height: readonly number[]; readonly speed: readonly number[] }[],
  ) =>
    points.map((point) => {
      const [low, middle, high] = point[quantity];
      return { time: point.time, low, middle, high };
    });
  const predicted = bands((result.scenario?.envelope ?? []).filter(({ flying }) => flying >= 0.05));
  const heights =
    quantity === 'height'
      ? result.measured.filter(({ height, time }) => height !== null && time >= 0 && time <= x.scale.domain[1])
      : [];
  const shown = result.events
    .filter(({ name }) => name !== 'ejection')
    .map(({ name, time }, index) => ({ name, time, odd: index % 2 }));
  return {
    ...chartBase(frame, quantity === 'height' ? 300 : 210),
    layer: [
      {
        data: { values: predicted },
        layer: [
          {
            mark: { type: 'area', fill: colour('line'), fillOpacity: 0.75 },
            encoding: { x, y: { ...y, field: 'low', axis }, y2: { field: 'high' } },
          },
          {
            mark: { type: 'line', stroke: colour('quiet'), strokeWidth: 1.2, strokeDash: [2, 2] },
            encoding: { x, y: { ...y, field: 'middle', axis } },
          },
        ],
      },
      {
        data: { values: bands(result.course) },
        layer: [
          {
            mark: { type: 'area', fill: colour('accent'), fillOpacity: 0.25 },
            encoding: { x, y: { ...y, field: 'low', axis }, y2: { field: 'high' } },
          },
          {
            mark: { type: 'line', stroke: colour('accent'), strokeWidth: 2 },
            encoding: { x, y: { ...y, field: 'middle', axis } },
          },
        ],
      },
      {
        data: { values: heights },
        mark: { type: 'point', filled: true, size: 7, opacity: 0.6, fill: colour('ink') },
        encoding: { x, y: { ...y, field: 'height', axis } },
      },
      {
        data: { values: shown },
        mark: { type: 'rule', stroke: colour('edge'), strokeWidth: 1, strokeDash: [3, 3] },
        encoding: { x },
      },
      ...(quantity === 'height'
        ? [
            // One under the other: throttle-up and arrest lie close together.
            ...[0, 1].map((odd) => ({
              data: { values: shown },
              transform: [{ filter: `datum.odd === ${odd}` }],
              mark: { type: 'text', align: 'left', baseline: 'top', dx: 3, dy: 15 * odd },
              encoding: { x, y: { value: 0 }, text: { field: 'name' } },
            })),
          ]
        : []),
    ],
  };
}

export function readingChart(result: ReconstructResult, frame: Frame): ChartSpec {
  const x = timeAxis(result, frame, true);
  const values = result.measured.filter(({ reading, time }) => reading !== null && time >= 0);
  const y = { type: 'quantitative', scale: { zero: true, domain: [0, 4], clamp: true } } as const;
  return {
    ...chartBase(frame, 170),
    layer: [
      {
        data: { values },
        mark: { type: 'line', stroke: colour('ink'), strokeWidth: 1, clip: true },
        encoding: { x, y: { ...y, field: 'reading', axis: { ...aboveAxis('Reading, g (cut at 4)'), tickCount: 4 } } },
      },
      {
        data: { values: [{ one: 1 }] },
        mark: { type: 'rule', stroke: colour('quiet'), strokeDash: [4, 3] },
        encoding: { y: { ...y, field: 'one', axis: { ...aboveAxis('Reading, g (cut at 4)'), tickCount: 4 } } },
      },
    ],
  };
}
