/** Reads measured values: a list in the scenario, or a column of a CSV file beside it. */
import { dirname, isAbsolute, join } from 'node:path';
import { nearestName } from '../../basics/nearest-name.js';
import { cellsOf, columnOfCell, isPassedOver, placeOfColumn, readHeader, secondHeader, withPoint } from './csv-text.js';
import { refuseUnknown } from './distribution.js';
import { type Place, quoted } from './problem.js';
import type { InputAsked } from './range.js';
import { readValue } from './range.js';
import { describeWritten, entryOf, type Written, type WrittenMap, type WrittenScalar } from './written.js';

const FEWEST = 2;
const MOST = 10_000;
const FORM = 'a list of values, or { file: bench.csv, column: name, unit: s }';

/** Sorted values in SI; null after a report. */
export function readSamples(written: Written, asked: InputAsked): readonly number[] | null {
  if (written.form === 'scalar') {
    asked.report(written.place, asked.path, describeWritten(written), FORM);
    return null;
  }
  const cells = written.form === 'list' ? written.items : readColumn(written, asked);
  if (cells === null) return null;
  if (cells.length < FEWEST || cells.length > MOST) {
    asked.report(written.place, asked.path, `${cells.length} values`, `from ${FEWEST} to ${MOST} values`);
    return null;
  }
  if (written.form === 'list' && asked.range.dimension !== 'ratio' && looksSplit(cells)) {
    const found = 'values split at their decimal commas';
    asked.report(written.place, asked.path, found, 'decimal points, as in [1.2 s, 1.4 s]');
    return null;
  }
  const values = cells.flatMap((cell) => readValue(cell, asked) ?? []);
  if (values.length < cells.length) return null;
  values.sort((a, b) => a - b);
  if (values[0] < values[values.length - 1]) return values;
  asked.report(written.place, asked.path, 'values that are all equal', 'values that differ, or one fixed value');
  return null;
}

/** Whether bare whole numbers and numbers with a unit take turns, as in [1,2 s, 1,4 s]. */
function looksSplit(cells: readonly Written[]): boolean {
  const texts = cells.map((cell) => (cell.form === 'scalar' ? cell.source : ''));
  return (
    texts.length % 2 === 0 &&
    texts.every((text, index) => (index % 2 === 0 ? /^[-+]?\d+$/ : /^\d+\s*[^\d\s]/).test(text))
  );
}

/** The cells of a column, each with the unit behind it; null after a report. */
function readColumn(map: WrittenMap, asked: InputAsked): readonly WrittenScalar[] | null {
  const { path, report, range } = asked;
  const unknown = refuseUnknown(map, ['file', 'column', 'unit'], asked);
  const needed = range.dimension === 'ratio' ? ['file', 'column'] : ['file', 'column', 'unit'];
  const missing = needed.filter((key) => textOf(map, key) === null);
  for (const key of missing) report(entryOf(map, key)?.value.place ?? map.place, path, `no text for "${key}"`, FORM);
  const [file, column] = [textOf(map, 'file'), textOf(map, 'column')];
  if (unknown || missing.length > 0 || file === null || column === null) return null;
  const name = isAbsolute(file.source) ? file.source : join(asked.folder, file.source);
  const read = asked.files.read(name);
  if (read.status === 'no text') {
    const nearest = nearestName(file.source, asked.files.names(dirname(name)));
    report(
      file.place,
      path,
      `${quoted(name)}, ${read.why}`,
      'the path of a CSV file, relative to the scenario file',
      nearest,
    );
    return null;
  }
  const header = readHeader(read.value);
  const index = header === null ? -1 : placeOfColumn(header.names, column.source);
  if (header === null || index === -1) {
    report(
      column.place,
      path,
      `${quoted(column.source)}, which is no column of ${quoted(name)}`,
      header === null ? 'a file with a header and rows of values' : `one of ${header.names.map(quoted).join(', ')}`,
      nearestName(column.source, header?.names ?? []),
    );
    return null;
  }
  const unit = textOf(map, 'unit')?.source ?? '';
  const { separator, names, start, startLine } = header;
  const alike = names.filter((one) => one === names[index]).length;
  if (alike > 1) {
    report(
      column.place,
      path,
      `${alike} columns ${quoted(column.source)} in ${quoted(name)}`,
      'a name of its own for each',
    );
    return null;
  }
  const second = secondHeader(read.value, header);
  if (second !== null) {
    const found = `a second row of names or units (${second.cells.map(quoted).join(', ')})`;
    report({ file: name, line: second.line, column: 1 }, path, found, `rows of numbers: delete line ${second.line}`);
    return null;
  }
  const measures: WrittenScalar[] = [];
  for (const [number, row] of read.value.slice(start).split('\n').entries()) {
    if (isPassedOver(row.trim())) continue;
    const cells = cellsOf(row, separator);
    const line = startLine + number;
    if (cells.slice(names.length).some((cell) => cell !== '')) {
      const place = { file: name, line, column: columnOfCell(row, separator, names.length) };
      report(place, path, `${cells.length} cells`, `${names.length}, as in the header${decimalComma(separator)}`);
      return null;
    }
    const place = { file: name, line, column: columnOfCell(row, separator, index) };
    measures.push(measured(withPoint(cells[index] ?? '', separator), unit, place));
  }
  return measures;
}

function decimalComma(separator: string): string {
  return separator === ',' ? ' (columns with decimal commas are separated by semicolons)' : '';
}

function measured(text: string, unit: string, place: Place): WrittenScalar {
  const source = text === '' ? '' : `${text} ${unit}`.trim();
  return { form: 'scalar', place, value: text === '' ? null : source, source };
}

function textOf(map: WrittenMap, key: string): WrittenScalar | null {
  const value = entryOf(map, key)?.value;
  return value?.form === 'scalar' && value.value !== null ? value : null;
}
