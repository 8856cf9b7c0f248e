/** Columns of numbers from a table (sim/scenario/file/csv-text.ts). A problem is reported with the line it stands in. */

import { type Answer, ok, refused } from '../../basics/answer.js';
import { nearestName } from '../../basics/nearest-name.js';
import {
  type CsvHeader,
  cellsOf,
  isPassedOver,
  lineEnd,
  numberOf,
  placeOfColumn,
  readHeader,
  secondHeader,
} from './csv-text.js';
import { quoted } from './problem.js';

export interface CsvTable extends CsvHeader {
  /** As it is called in messages. */
  readonly file: string;
  readonly text: string;
}

export interface NumberColumns {
  /** NaN where a cell is empty. */
  readonly columns: readonly Float64Array[];
  /** Line of each row in the file. */
  readonly lines: Uint32Array;
}

/** What loggers write for "no reading". */
const NO_READING = /^(?:nan|na|n\/a|null|none|-+|inf|-inf)$/i;
/** This many problems are named with their lines; the rest is counted. */
const MOST_PROBLEMS = 5;

/** Finds the header and how cells are separated. */
export function openCsv(text: string, file: string): Answer<CsvTable> {
  const name = quoted(file);
  if (/[\0\ufffd]/.test(text.slice(0, 4096)))
    return refused(`${name} is not plain text in UTF-8; save it as "CSV UTF-8" and try again.`);
  const header = readHeader(text);
  if (header !== null) return ok({ ...header, file, text });
  return refused(`${name} holds no rows; expected a header with the names of the columns, then rows of numbers.`);
}

/** Place of a column by its name, in any case; or which names there are. */
export function columnIndex(table: CsvTable, wanted: string, option: string): Answer<number> {
  const index = placeOfColumn(table.names, wanted);
  const alike = table.names.filter((name) => name === table.names[index]).length;
  if (alike > 1)
    return refused(
      `${quoted(table.file)} has ${alike} columns ${quoted(wanted)} (${option}); give each a name of its own.`,
    );
  if (index >= 0) return ok(index);
  const nearest = nearestName(wanted, table.names);
  const meant = nearest === null ? '' : ` Did you mean ${quoted(nearest)}?`;
  const names = table.names.map(quoted).join(', ');
  return refused(
    `${quoted(table.file)} has no column ${quoted(wanted)} (${option}); its columns are ${names}.${meant}`,
  );
}

/** Reads the columns at these places as numbers, row by row. */
export function readNumbers(table: CsvTable, places: readonly number[]): Answer<NumberColumns> {
  const { text, separator, file, names } = table;
  const columns = places.map(growingNumbers);
  const lines = growingNumbers();
  const problems: string[] = [];
  let count = 0;
  const problem = (line: number, what: string) => {
    count += 1;
    if (count <= MOST_PROBLEMS) problems.push(`${file}:${line}: ${what}`);
  };
  const second = secondHeader(text, table);
  if (second !== null && places.some((place) => isWord(second.cells[place] ?? '')))
    return refused(
      `${file}:${second.line}: found a second row of names or units (${second.cells.map(quoted).join(', ')}); delete line ${second.line}.`,
    );
  let line = table.startLine;
  for (let start = table.start; start < text.length; line += 1) {
    const end = lineEnd(text, start);
    const row = text.slice(start, end).trim();
    start = end + 1;
    if (isPassedOver(row)) continue;
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
  if (count > 0) return refused(...problems);
  return ok({ columns: columns.map((column) => column.values()), lines: Uint32Array.from(lines.values()) });
}

function isWord(cell: string): boolean {
  return cell !== '' && !NO_READING.test(cell);
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
