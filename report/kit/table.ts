/** A table holds rows of cells under titled columns, as the templates take them. */
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

/** Numbers of at most `most` of `count` rows, evenly spread, with the first and the last. */
export function evenRows(count: number, most: number): readonly number[] {
  const shown = Math.min(most, count);
  return Array.from({ length: shown }, (_, i) => Math.round((i * (count - 1)) / Math.max(1, shown - 1)));
}
