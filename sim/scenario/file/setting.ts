/** Reads settings: choices, texts, tables, and lists of fixed quantities and texts. */

import { nearestName } from '../../basics/nearest-name.js';
import type { Choice, List, Table, Text } from '../definition/shapes.js';
import type { Setting } from '../scenario.js';
import { refuseUnknown } from './distribution.js';
import { cleanText, quoted, type Report } from './problem.js';
import { type Asked, rangeOf, readValue } from './range.js';
import { describeWritten, entryOf, type Written, type WrittenMap } from './written.js';

/** Reads a choice, text, table or list; null after a report. */
export function readSetting(
  written: Written,
  leaf: Choice | Text | Table | List,
  path: string,
  report: Report,
): Setting | null {
  switch (leaf.shape) {
    case 'choice':
      return readChoice(written, leaf, path, report);
    case 'text':
      return readText(written, leaf, path, report);
    case 'table':
      return readTable(written, leaf, path, report);
    case 'list':
      return readList(written, leaf, path, report);
  }
}

function readChoice(written: Written, leaf: Choice, path: string, report: Report): string | null {
  const options = Object.keys(leaf.options);
  if (written.form === 'scalar' && options.includes(written.source)) return written.source;
  const nearest = written.form === 'scalar' ? nearestName(written.source, options) : null;
  report(written.place, path, describeWritten(written), `one of ${options.map(quoted).join(', ')}`, nearest);
  return null;
}

function readText(written: Written, leaf: Text, path: string, report: Report): string | null {
  const text = written.form === 'scalar' && written.value !== null ? cleanText(written.source) : null;
  if (text !== null && (text !== '' || leaf.standard !== undefined)) return text;
  report(written.place, path, text === '' ? 'an empty text' : describeWritten(written), 'a text');
  return null;
}

function readTable(written: Written, leaf: Table, path: string, report: Report): readonly (readonly number[])[] | null {
  const form = `rows such as [${leaf.columns.map(({ name }) => name).join(', ')}], each value with its unit`;
  if (written.form !== 'list' || written.items.length < 2) {
    report(written.place, path, describeWritten(written), `a list of at least two ${form}`);
    return null;
  }
  const rows = written.items.map((row, index) => readRow(row, leaf, form, `${path}[${index + 1}]`, report));
  if (!rows.every((row) => row !== null)) return null;
  const falling = leaf.rising ? rows.findIndex((row, index) => index > 0 && row[0] <= rows[index - 1][0]) : -1;
  if (falling === -1) return rows;
  const { name } = leaf.columns[0];
  report(
    written.items[falling].place,
    `${path}[${falling + 1}]`,
    `a ${name} that is not above that of the row before`,
    `rows in the order of rising ${name}`,
  );
  return null;
}

function readRow(row: Written, leaf: Table, form: string, path: string, report: Report): readonly number[] | null {
  if (row.form !== 'list' || row.items.length !== leaf.columns.length) {
    report(row.place, path, describeWritten(row), form);
    return null;
  }
  const values = leaf.columns.map((column, index) =>
    readValue(row.items[index], { path: `${path}.${column.name}`, range: rangeOf(column), report }),
  );
  return values.every((value) => value !== null) ? values : null;
}

type Item = Readonly<Record<string, string | number>>;

function readList(written: Written, leaf: List, path: string, report: Report): readonly Item[] | null {
  if (written.form !== 'list') {
    report(written.place, path, describeWritten(written), 'a list: lines that begin with "- ", or [] for none');
    return null;
  }
  const items = written.items.map((item, index) => readItem(item, leaf, `${path}[${index + 1}]`, report));
  return items.every((item) => item !== null) ? items : null;
}

function readItem(item: Written, leaf: List, path: string, report: Report): Item | null {
  const names = Object.keys(leaf.of.entries);
  if (item.form !== 'map') {
    report(item.place, path, describeWritten(item), `a section with ${names.join(', ')}`);
    return null;
  }
  let complete = !refuseUnknown(item, names, { path, report });
  const values: Record<string, string | number> = {};
  for (const name of names) {
    if (entryOf(item, name) === undefined && mayBeLeftOut(leaf, name)) continue;
    const value = readField(item, leaf, name, path, report);
    if (value === null) complete = false;
    else values[name] = value;
  }
  return complete ? values : null;
}

function mayBeLeftOut({ of }: List, name: string): boolean {
  const field = of.entries[name];
  return field.shape === 'quantity' && field.optional === true;
}

function readField(item: WrittenMap, leaf: List, name: string, path: string, report: Report): string | number | null {
  const field = leaf.of.entries[name];
  const entry = entryOf(item, name);
  if (entry === undefined) {
    report(item.place, path, `nothing for "${name}"`, `"${name}": ${field.doc.replace(/\.$/, '')}`);
    return null;
  }
  if (field.shape === 'text') return readText(entry.value, field, `${path}.${name}`, report);
  if (field.shape !== 'quantity') throw new Error(`a list holds quantities and texts, not ${path}.${name}`);
  const asked: Asked = { path: `${path}.${name}`, range: rangeOf(field), report };
  return readValue(entry.value, asked);
}
