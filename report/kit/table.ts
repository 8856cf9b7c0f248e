/** Tables and figures as the templates take them. */
import type { ChartSpec, Draw } from './draw.js';
import { unbroken } from './words/numbers.js';

export interface Column {
  readonly title: string;
  readonly numeric: boolean;
}

export interface Cell {
  readonly text: string;
  readonly numeric: boolean;
  /** Style class, or null. */
  readonly mark: string | null;
}

export interface Row {
  readonly head: Cell;
  readonly cells: readonly Cell[];
}

export interface Table {
  /** What the table means, in one sentence. */
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  readonly sortable: boolean;
  /** Short enough to be kept whole on a printed page. */
  readonly short: boolean;
}

export type CellLike = string | Cell;

export function cell(text: string, mark: string | null = null): Cell {
  return { text: unbroken(text), numeric: false, mark };
}

export function numericCell(text: string): Cell {
  return { text: unbroken(text), numeric: true, mark: null };
}

const SHORT = 10;

/** A table from titles and rows; a title that begins with "#" heads a column of numbers. The first cell heads its row. */
export function table(
  caption: string,
  titles: readonly string[],
  rows: readonly (readonly CellLike[])[],
  sortable = false,
): Table {
  const columns = titles.map((title) => ({ title: unbroken(title.replace(/^#/, '')), numeric: title.startsWith('#') }));
  const complete = (like: CellLike, index: number): Cell =>
    typeof like === 'string' ? { text: unbroken(like), numeric: columns[index].numeric, mark: null } : like;
  return {
    caption: unbroken(caption),
    columns,
    rows: rows.map((row) => {
      const [head, ...cells] = row.map(complete);
      return { head, cells };
    }),
    sortable,
    short: rows.length <= SHORT,
  };
}

/** How wide a chart is drawn: once for a page or a sheet of paper, once for a phone. */
export interface Frame {
  readonly width: number;
  readonly narrow: boolean;
}

export const WIDE: Frame = { width: 720, narrow: false };
export const NARROW: Frame = { width: 330, narrow: true };

export interface LegendEntry {
  /** Name of a symbol of the page. */
  readonly symbol: string;
  readonly text: string;
}

export interface Figure {
  readonly id: string;
  /** The finding, in one or two sentences. */
  readonly caption: string;
  readonly charts: readonly { readonly wide: string; readonly narrow: string }[];
  readonly legend: readonly LegendEntry[];
  /** Null where the numbers stand in a table beside the figure. */
  readonly table: Table | null;
}

export interface FigurePlan {
  readonly id: string;
  readonly caption: string;
  readonly charts: readonly ((frame: Frame) => ChartSpec)[];
  /** What each chart shows, for readers who do not see it; the caption tells the finding. */
  readonly labels: readonly string[];
  readonly legend?: readonly LegendEntry[];
  readonly table: Table | null;
}

export async function figure(draw: Draw, plan: FigurePlan): Promise<Figure> {
  const charts = [];
  for (const [index, chart] of plan.charts.entries()) {
    const label = plan.labels[index];
    charts.push({ wide: await draw(chart(WIDE), label), narrow: await draw(chart(NARROW), label) });
  }
  const { id, caption, legend = [] } = plan;
  return { id, caption: unbroken(caption), charts, legend, table: plan.table };
}
