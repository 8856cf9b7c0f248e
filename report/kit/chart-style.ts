/** What all charts share: size, type, axes and colours. */
import { colour } from './palette.js';
import type { Frame } from './table.js';

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

/** Ticks ... 0.5, 1, 2, 5, 10 ... 100 flights in 100 within the domain; by tens where those would crowd. */
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

export const OUTCOME_DOMAIN = ['soft', 'hard', 'crash', 'numerical'];
export const OUTCOME_FILLS = [colour('soft'), colour('hard'), colour('crash'), colour('numerical')];
export const OUTCOME_EDGES = [colour('soft-edge'), colour('hard-edge'), colour('crash-edge'), colour('numerical-edge')];
/** Circle, diamond, triangle and square: the same symbols as in the picture of a hundred flights. */
export const OUTCOME_SHAPES = ['circle', 'diamond', 'triangle-up', 'square'];
