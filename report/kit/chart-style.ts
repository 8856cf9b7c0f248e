/** All charts share their sizes, type, axes, colours and marks. */
import { colour } from './palette.js';
import { percentLimit } from './words/numbers.js';

/** How wide a chart is drawn: once for a page or a sheet of paper, once for a phone. */
export interface Frame {
  readonly width: number;
  readonly narrow: boolean;
}

export const WIDE: Frame = { width: 720, narrow: false };
export const NARROW: Frame = { width: 330, narrow: true };

/** Room for the labels of a vertical axis, the same in charts that stand over one another. */
export const AXIS_ROOM = 40;

function config(frame: Frame) {
  const labelFontSize = frame.narrow ? 12 : 13;
  return {
    aria: false,
    font: 'inherit',
    view: { stroke: null },
    axis: {
      labelFontSize,
      labelColor: colour('quiet'),
      labelPadding: 5,
      titleFontSize: labelFontSize,
      titleFontWeight: 'normal',
      titleColor: colour('ink'),
      titlePadding: 8,
      gridColor: colour('line'),
      gridWidth: 0.6,
      domainColor: colour('edge'),
      tickColor: colour('edge'),
      tickSize: 4,
    },
    axisY: { domain: false, ticks: false },
    axisX: { grid: false },
    text: { fontSize: labelFontSize, color: colour('ink') },
  };
}

/** Everything of a chart but its data and layers. The size includes the axes. */
export function chartBase(frame: Frame, height: number) {
  return {
    $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
    background: 'transparent',
    width: frame.width,
    height,
    padding: 2,
    autosize: { type: 'fit', contains: 'padding' },
    config: config(frame),
  };
}

/** Title of a vertical axis, written level above it so that nobody has to turn the head. */
export function aboveAxis(title: string, room: number = AXIS_ROOM) {
  return {
    title,
    titleAngle: 0,
    titleAlign: 'left',
    titleAnchor: 'end',
    titleBaseline: 'bottom',
    titleX: -room,
    titleY: -10,
    minExtent: room,
  } as const;
}

/** Ticks ... 0.5, 1, 2, 5, 10 ... 100 flights in 100 within the domain; by tens where these would crowd. */
export function riskTicks(lowest: number): number[] {
  const decades = [0.0001, 0.001, 0.01, 0.1, 1, 10];
  const all = [...decades.flatMap((one) => [one, 2 * one, 5 * one].map((tick) => Number(tick.toPrecision(1)))), 100];
  const inside = all.filter((tick) => tick >= lowest * 0.999);
  return inside.length <= MOST_TICKS ? inside : inside.filter((tick) => [...decades, 100, lowest].includes(tick));
}

const MOST_TICKS = 10;

/** Lower end of a logarithmic axis of risk, in flights in 100: the tick under the lowest figure to be shown. */
export function riskFloor(figures: readonly number[]): number {
  const lowest = Math.min(1, ...figures.filter((figure) => figure > 0));
  const decade = 10 ** Math.max(-4, Math.floor(Math.log10(0.9 * lowest)));
  const below = [decade, 2 * decade, 5 * decade].filter((tick) => tick <= lowest * 0.9);
  return Number((below.at(-1) ?? decade).toPrecision(1));
}

const OUTCOMES = ['soft', 'hard', 'crash', 'numerical'] as const;

function byOutcome(range: readonly string[]) {
  return { field: 'outcome', type: 'nominal', scale: { domain: OUTCOMES, range }, legend: null } as const;
}

/** Encodings of the field `outcome` by fill, by stroke and by shape; the shapes are those of the hundred flights. */
export const OUTCOME_FILL = byOutcome(OUTCOMES.map((outcome) => colour(outcome)));
export const OUTCOME_STROKE = byOutcome(OUTCOMES.map((outcome) => colour(`${outcome}-edge`)));
export const OUTCOME_SHAPE = byOutcome(['circle', 'diamond', 'triangle-up', 'square']);

/** The acceptable risk as a line across a chart whose vertical axis `y` counts flights in 100, with its words on it. */
export function acceptableRiskLine(limit: number, y: object) {
  return {
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
  } as const;
}
