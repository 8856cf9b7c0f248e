/**
 * Tables as loggers and spreadsheets write them, read alike wherever the program reads a table: separated by commas,
 * semicolons or tabs, decimal points or (where commas do not separate) decimal commas, with or without a byte order mark, quotes, blank lines
 * and lines that begin with "#".
 */

export type Separator = ',' | ';' | '\t';

export interface CsvHeader {
  readonly separator: Separator;
  /** Names of the columns; "1", "2", ... where the first row holds numbers. */
  readonly names: readonly string[];
  /** Where the first row of values begins in the text, and its line. */
  readonly start: number;
  readonly startLine: number;
  /** What the lines before the header say that begin with "#". */
  readonly remarks: string;
}

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;
const DECIMAL_COMMA = /^[-+]?(?:\d+,\d*|,\d+)(?:[eE][-+]?\d+)?$/;

/** Finds the header and how cells are separated; null where there is no row at all. */
export function readHeader(text: string): CsvHeader | null {
  let start = text.startsWith('\ufeff') ? 1 : 0;
  let line = 1;
  let remarks = '';
  while (start < text.length) {
    const end = lineEnd(text, start);
    const row = text.slice(start, end).trim();
    if (!isPassedOver(row)) {
      const separator = separatorOf(row);
      const cells = cellsOf(row, separator);
      const numbers = cells.every((cell) => cell !== '' && numberOf(cell, separator) !== null);
      const after = Math.min(end + 1, text.length);
      return {
        separator,
        names: numbers ? cells.map((_, index) => String(index + 1)) : cells,
        start: numbers ? start : after,
        startLine: numbers ? line : line + 1,
        remarks: remarks.trim(),
      };
    }
    if (row !== '') remarks += `${row.slice(1).trim()} `;
    start = end + 1;
    line += 1;
  }
  return null;
}

/** Place of a column by its name, in any case; -1 where there is none. */
export function placeOfColumn(names: readonly string[], wanted: string): number {
  const exact = names.indexOf(wanted);
  return exact >= 0 ? exact : names.findIndex((name) => name.toLowerCase() === wanted.toLowerCase());
}

/** Whether a trimmed row holds no values: it is empty or a remark. */
export function isPassedOver(row: string): boolean {
  return row === '' || row.startsWith('#');
}

export function lineEnd(text: string, start: number): number {
  const end = text.indexOf('\n', start);
  return end === -1 ? text.length : end;
}

/** Cells without the space and the quotes around them; a quoted cell may hold the separator. */
export function cellsOf(row: string, separator: Separator): readonly string[] {
  if (!row.includes('"')) return row.split(separator).map((cell) => cell.trim());
  return rawCells(row, separator).map((cell) => cell.replaceAll('"', '').trim());
}

/** Column of the text, from 1, in which a cell begins; behind the row where the row has no cell at that place. */
export function columnOfCell(row: string, separator: Separator, place: number): number {
  const cells = rawCells(row, separator);
  if (place >= cells.length) return row.trimEnd().length + 1;
  const before = cells.slice(0, place).reduce((sum, cell) => sum + cell.length + 1, 0);
  return 1 + before + (cells[place].length - cells[place].trimStart().length);
}

/** A number as it is written elsewhere, with a point; other text as it is. */
export function withPoint(cell: string, separator: Separator): string {
  return separator !== ',' && DECIMAL_COMMA.test(cell) ? cell.replace(',', '.') : cell.replace(/^\u2212/, '-');
}

export function numberOf(cell: string, separator: Separator): number | null {
  const text = withPoint(cell, separator);
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : null;
}

/** Line and cells of a second row of a header, which holds units: words alone, over a row with a number; null where there is none. */
export function secondHeader(
  text: string,
  { separator, start, startLine }: CsvHeader,
): { readonly line: number; readonly cells: readonly string[] } | null {
  let first: { readonly line: number; readonly cells: readonly string[] } | null = null;
  let line = startLine;
  for (let at = start; at < text.length; line += 1) {
    const end = lineEnd(text, at);
    const row = text.slice(at, end).trim();
    at = end + 1;
    if (isPassedOver(row)) continue;
    const cells = cellsOf(row, separator);
    const words = cells.every((cell) => numberOf(cell, separator) === null);
    if (first !== null) return words ? null : first;
    if (!words) return null;
    first = { line, cells };
  }
  return null;
}

function separatorOf(row: string): Separator {
  const bare = row.replace(/"[^"]*"/g, '');
  return bare.includes(';') ? ';' : bare.includes('\t') ? '\t' : ',';
}

function rawCells(row: string, separator: Separator): readonly string[] {
  const cells: string[] = [];
  let cell = '';
  let inside = false;
  for (const character of row) {
    if (character === '"') inside = !inside;
    if (character === separator && !inside) {
      cells.push(cell);
      cell = '';
    } else cell += character;
  }
  return [...cells, cell];
}
