/** The course of a reconstructed flight over time is laid over what the scenario predicts. */
import type { ReconstructResult } from '../../sim/reconstruct/result.js';
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { table } from '../kit/table.js';
import { fixedText, numberText } from '../kit/words/numbers.js';
import type { EvidenceSection } from '../page/evidence.js';

export async function courseSection(result: ReconstructResult, draw: Draw): Promise<EvidenceSection> {
  const figures: Figure[] = [];
  if (result.course.length > 0) {
    const middle = result.course[Math.floor(result.course.length / 3)];
    const [low, , high] = middle.height;
    const caption = `Height and fall speed, with bands that hold 9 of 10 courses that agree with the log; at ${fixedText(middle.time, 0)} s the height is known to ${numberText((high - low) / 2, 2)} m either way.`;
    const each = Math.max(1, Math.floor(result.course.length / 14));
    figures.push(
      await figure(draw, {
        id: 'course',
        caption,
        charts: [(frame) => logCourseChart(result, 'height', frame), (frame) => logCourseChart(result, 'speed', frame)],
        labels: [`Height over time. ${caption}`, 'Fall speed over time.'],
        legend: [
          { symbol: 'line-circle', text: 'from the log, with its band' },
          ...(result.channels === 'reading'
            ? []
            : [{ symbol: 'line-dots', text: 'the barometer as read, not corrected for warm air' }]),
          ...(result.scenario === null
            ? []
            : [
                {
                  symbol: 'swatch-band',
                  text: 'predicted: 9 of 10 simulated flights still in the air; dotted: the median',
                },
              ]),
        ],
        table: table(
          'Height and fall speed: 5 %, 50 % and 95 %.',
          ['#Time, s', '#Height, m: 5 %', '#50 %', '#95 %', '#Speed, m/s: 5 %', '#50 %', '#95 %'],
          result.course
            .filter((_, i) => i % each === 0)
            .map(({ time, height, speed }) => [
              fixedText(time, 1),
              ...height.map((one) => fixedText(one, 0)),
              ...speed.map((one) => fixedText(one, 1)),
            ]),
        ),
      }),
    );
  }
  if (result.measured.some(({ reading }) => reading !== null))
    figures.push(
      await figure(draw, {
        id: 'reading',
        caption: 'The g-reading: free fall, the drag that builds up to 1 g, the thrust on top, and the steady descent.',
        charts: [(frame) => readingChart(result, frame)],
        labels: ['The g-reading over time.'],
        table: null,
      }),
    );
  return {
    id: 'course-section',
    title: 'Height and speed over time',
    paragraphs: result.course.length === 0 ? ['Heights cannot be told from this log.'] : [],
    figures,
  };
}

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

function logCourseChart(result: ReconstructResult, quantity: 'height' | 'speed', frame: Frame): ChartSpec {
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

function readingChart(result: ReconstructResult, frame: Frame): ChartSpec {
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
