/**
 * Tables of numbers as loggers and spreadsheets write them: separated by commas, semicolons or tabs, decimal points or
 * (where commas do not separate) decimal commas, with or without a byte order mark, quotes, blank lines and lines that
 * begin with "#". What is wrong is said with its line.
 */
import { nearestName } from '../scenario/nearest.js';
import { quoted } from '../scenario/problem.js';
import { type Evidence, found, refuse } from './evidence.js';

export interface CsvTable {
  /** As it is called in messages. */
  readonly file: string;
  readonly text: string;
  readonly separator: ',' | ';' | '\t';
  /** Names of the columns; "1", "2", ... where the first row holds numbers. */
  readonly names: readonly string[];
  /** Where the first row of numbers begins in the text, and its line. */
  readonly start: number;
  readonly startLine: number;
  /** What the lines before the header say that begin with "#". */
  readonly remarks: string;
}

export interface NumberColumns {
  /** NaN where a cell is empty. */
  readonly columns: readonly Float64Array[];
  /** Line of each row in the file. */
  readonly lines: Uint32Array;
}

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;
const DECIMAL_COMMA = /^[-+]?(?:\d+,\d*|,\d+)(?:[eE][-+]?\d+)?$/;
/** What loggers write for "no reading". */
const NO_READING = /^(?:nan|na|n\/a|null|none|-+|inf|-inf)$/i;
/** Problems named one by one; the rest is counted. */
const MOST_PROBLEMS = 5;

/** Finds the header and how cells are separated. */
export function openCsv(text: string, file: string): Evidence<CsvTable> {
  const name = quoted(file);
  if (/[\0\ufffd]/.test(text.slice(0, 4096)))
    return refuse(`${name} is not plain text in UTF-8; save it as "CSV UTF-8" and try again.`);
  let start = text.startsWith('\ufeff') ? 1 : 0;
  let line = 1;
  let remarks = '';
  while (start < text.length) {
    const end = lineEnd(text, start);
    const row = text.slice(start, end).trim();
    if (row !== '' && !row.startsWith('#')) {
      const separator = separatorOf(row);
      const cells = cellsOf(row, separator);
      const numbers = cells.every((cell) => cell !== '' && numberOf(cell, separator) !== null);
      const names = numbers ? cells.map((_, index) => String(index + 1)) : cells;
      const after = Math.min(end + 1, text.length);
      return found({
        file,
        text,
        separator,
        names,
        start: numbers ? start : after,
        startLine: numbers ? line : line + 1,
        remarks: remarks.trim(),
      });
    }
    if (row !== '') remarks += `${row.slice(1).trim()} `;
    start = end + 1;
    line += 1;
  }
  return refuse(`${name} holds no rows; expected a header with the names of the columns, then rows of numbers.`);
}

/** Place of a column by its name, in any case; or which names there are. */
export function columnIndex(table: CsvTable, wanted: string, option: string): Evidence<number> {
  const exact = table.names.indexOf(wanted);
  const index = exact >= 0 ? exact : table.names.findIndex((name) => name.toLowerCase() === wanted.toLowerCase());
  if (index >= 0) return found(index);
  const nearest = nearestName(wanted, table.names);
  const meant = nearest === null ? '' : ` Did you mean ${quoted(nearest)}?`;
  const names = table.names.map(quoted).join(', ');
  return refuse(`${quoted(table.file)} has no column ${quoted(wanted)} (${option}); its columns are ${names}.${meant}`);
}

/** Reads the columns at these places as numbers, row by row. */
export function readNumbers(table: CsvTable, places: readonly number[]): Evidence<NumberColumns> {
  const { text, separator, file, names } = table;
  const columns = places.map(growingNumbers);
  const lines = growingNumbers();
  const problems: string[] = [];
  let count = 0;
  const problem = (line: number, what: string) => {
    count += 1;
    if (count <= MOST_PROBLEMS) problems.push(`${file}:${line}: ${what}`);
  };
  let line = table.startLine;
  for (let start = table.start; start < text.length; line += 1) {
    const end = lineEnd(text, start);
    const row = text.slice(start, end).trim();
    start = end + 1;
    if (row === '' || row.startsWith('#')) continue;
    const cells = cellsOf(row, separator);
    if (cells.length > names.length && cells.slice(names.length).some((cell) => cell !== '')) {
      problem(line, tooMany(cells.length, names.length, separator));
      continue;
    }
    places.forEach((place, index) => {
      const cell = cells[place] ?? '';
      const value = cell === '' || NO_READING.test(cell) ? Number.NaN : numberOf(cell, separator);
      if (value === null)
        problem(line, `found ${quoted(cell)} in column ${quoted(names[place])}; ${notANumber(cell)}.`);
      columns[index].push(value ?? Number.NaN);
    });
    lines.push(line);
  }
  if (count > MOST_PROBLEMS) problems.push(`${file}: and ${count - MOST_PROBLEMS} more cells of this kind.`);
  if (count > 0) return refuse(...problems);
  return found({ columns: columns.map((column) => column.values()), lines: Uint32Array.from(lines.values()) });
}

function tooMany(cells: number, names: number, separator: string): string {
  const comma = separator === ',' ? ' Are these decimal commas? Then separate the columns with semicolons.' : '';
  return `found ${cells} cells, but the header names ${names} ${names === 1 ? 'column' : 'columns'}.${comma}`;
}

function notANumber(cell: string): string {
  if (/^[-+]?\d{1,3}(?:[.,' ]\d{3})+(?:[.,]\d+)?$/.test(cell))
    return 'write the number without marks between thousands';
  if (/^[-+]?[\d.,]+\s*[^\d\s.,]+$/.test(cell))
    return 'write the number alone; its unit is said once, not in every cell';
  return 'expected a number, or nothing where there is no reading';
}

function lineEnd(text: string, start: number): number {
  const end = text.indexOf('\n', start);
  return end === -1 ? text.length : end;
}

function separatorOf(row: string): CsvTable['separator'] {
  const bare = row.replace(/"[^"]*"/g, '');
  return bare.includes(';') ? ';' : bare.includes('\t') ? '\t' : ',';
}

/** Cells without the space and the quotes around them; a quoted cell may hold the separator. */
function cellsOf(row: string, separator: string): readonly string[] {
  if (!row.includes('"')) return row.split(separator).map((cell) => cell.trim());
  const cells: string[] = [];
  let cell = '';
  let inside = false;
  for (const character of row) {
    if (character === '"') inside = !inside;
    else if (character === separator && !inside) {
      cells.push(cell.trim());
      cell = '';
    } else cell += character;
  }
  return [...cells, cell.trim()];
}

function numberOf(cell: string, separator: string): number | null {
  const text = separator !== ',' && DECIMAL_COMMA.test(cell) ? cell.replace(',', '.') : cell.replace(/^\u2212/, '-');
  const value = NUMBER.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : null;
}

/** A list of numbers that doubles its room as it grows: a million rows without a million objects. */
function growingNumbers() {
  let room = new Float64Array(1024);
  let count = 0;
  return {
    push(value: number): void {
      if (count === room.length) {
        const wider = new Float64Array(2 * room.length);
        wider.set(room);
        room = wider;
      }
      room[count] = value;
      count += 1;
    },
    values: () => room.slice(0, count),
  };
}
