/** Each row of the chart has a name, an estimate and its interval: a dot on a line, or a bar with whiskers. */
import { chartBase, type Frame } from './chart-style.js';
import type { ChartSpec } from './draw.js';
import { colour } from './palette.js';

export interface IntervalRow {
  readonly name: string;
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

export interface IntervalLook {
  /** Height of the chart with its axis, px. */
  readonly height: number;
  /** Area of the dot that marks an estimate, px²; null where a bar from zero marks it. */
  readonly dot: number | null;
  /** Of the names at the left; see `namesAxis`. */
  readonly names: object;
  readonly scale: object;
  readonly axis: object;
  /** Drawn before the rows and after them. */
  readonly under?: readonly object[];
  readonly over?: readonly object[];
}

/** Room for names in px, on a phone and on a page: their longest line, and the least that the axis takes. */
export function namesAxis({ narrow }: Frame, longest: readonly [number, number], least: readonly [number, number]) {
  const width = narrow ? 0 : 1;
  return { title: null, labelLimit: longest[width], labelColor: colour('ink'), minExtent: least[width] };
}

/** Breaks a name into lines at its commas. */
export const BROKEN_AT_COMMAS = { labelExpr: "split(datum.label, ', ')" } as const;

export function intervalChart(rows: readonly IntervalRow[], look: IntervalLook, frame: Frame): ChartSpec {
  return {
    ...chartBase(frame, look.height),
    data: { values: rows },
    layer: [...(look.under ?? []), ...rowLayers(rows, look), ...(look.over ?? [])],
  };
}

function rowLayers(rows: readonly IntervalRow[], { dot, names, scale, axis }: IntervalLook): readonly object[] {
  const y = { field: 'name', type: 'nominal', sort: rows.map(({ name }) => name) } as const;
  const x = (field: string) => ({ field, type: 'quantitative', scale }) as const;
  const named = { ...y, axis: names };
  const line = (strokeWidth: number) => ({ type: 'rule', strokeWidth, stroke: colour('ink') }) as const;
  if (dot === null)
    return [
      {
        mark: { type: 'bar', height: 14, fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.8 },
        encoding: { y: named, x: { ...x('estimate'), axis } },
      },
      { mark: line(2), encoding: { y, x: x('lower'), x2: { field: 'upper' } } },
      ...['lower', 'upper'].map((end) => ({
        mark: { type: 'tick', thickness: 2, size: 9, color: colour('ink') },
        encoding: { y, x: x(end) },
      })),
    ];
  return [
    { mark: line(2.5), encoding: { y: named, x: { ...x('lower'), axis }, x2: { field: 'upper' } } },
    {
      mark: {
        type: 'point',
        shape: 'circle',
        filled: true,
        size: dot,
        opacity: 1,
        fill: colour('accent'),
        stroke: colour('ink'),
      },
      encoding: { y, x: x('estimate') },
    },
  ];
}
