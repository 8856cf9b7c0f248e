/** The rows of a thrust-stand table in SI units. */

import { type Answer, ok, refused } from '../basics/answer.js';
import type { Dimension } from '../scenario/definition/shapes.js';
import { readUnit, toSi } from '../scenario/file/column-unit.js';
import { type CsvTable, readNumbers } from '../scenario/file/csv-columns.js';
import { quoted } from '../scenario/file/problem.js';

const COLUMNS = [
  { name: 'throttle', dimension: 'ratio', usual: '%' },
  { name: 'thrust', dimension: 'force', usual: 'gf' },
  { name: 'current', dimension: null, usual: 'A' },
  { name: 'voltage', dimension: 'voltage', usual: 'V' },
] as const satisfies readonly { name: string; dimension: Dimension | null; usual: string }[];

/** From this throttle on a row counts as full. */
export const FULL = 0.985;

export interface Row {
  readonly line: number;
  readonly throttle: number;
  readonly thrust: number;
  readonly current: number;
  readonly voltage: number;
}

export function readRows(table: CsvTable): Answer<readonly Row[]> {
  const places: number[] = [];
  const scales: ((value: number) => number)[] = [];
  const messages: string[] = [];
  for (const { name, dimension, usual } of COLUMNS) {
    const place = table.names.findIndex((column) => column.toLowerCase().startsWith(name));
    if (place === -1) {
      messages.push(
        `${quoted(table.file)} has no column that begins with "${name}"; its columns are ${table.names.map(quoted).join(', ')}. Name it ${name}_${usual}.`,
      );
      continue;
    }
    places.push(place);
    const written = unitInName(table.names[place], name);
    const text = written === '' ? usual : written === 'pct' || written === 'percent' ? '%' : written;
    if (dimension === null) {
      const factor = { A: 1, mA: 1e-3, a: 1 }[text];
      if (factor === undefined)
        messages.push(`column ${quoted(table.names[place])}: ${quoted(text)} is no unit of a current; write A or mA.`);
      scales.push((value) => value * (factor ?? 1));
      continue;
    }
    const mass = name === 'thrust' && (text === 'g' || text === 'kg') ? `${text}f` : text;
    const unit = readUnit(mass, dimension, `the unit of column ${quoted(table.names[place])}`);
    if (unit.status === 'refused') messages.push(...unit.messages);
    else scales.push((value) => toSi(value, unit.value));
  }
  if (messages.length > 0) return refused(...messages);
  const numbers = readNumbers(table, places);
  if (numbers.status === 'refused') return numbers;
  const { columns, lines } = numbers.value;
  const rows: Row[] = [];
  for (let i = 0; i < lines.length; i++) {
    const [throttle, thrust, current, voltage] = columns.map((column, index) => scales[index](column[i]));
    if ([throttle, thrust, current, voltage].some(Number.isNaN)) continue;
    const wrong =
      throttle < 0 || throttle > 1.02
        ? 'a throttle from 0 to 100 %'
        : voltage <= 0
          ? 'a voltage above 0'
          : current < 0
            ? 'a current of at least 0'
            : throttle >= FULL && !(thrust > 0 && current > 0)
              ? 'thrust and current above 0 at full throttle (turn the sign where the stand pulls)'
              : null;
    if (wrong !== null)
      return refused(
        `${table.file}:${lines[i]}: found ${columns.map((column) => column[i]).join(', ')}; expected ${wrong}.`,
      );
    rows.push({ line: lines[i], throttle, thrust, current, voltage });
  }
  return rows.length >= 3
    ? ok(rows)
    : refused(
        `${quoted(table.file)} has ${rows.length} whole ${rows.length === 1 ? 'row' : 'rows'}; at least 3 are needed.`,
      );
}

/** "thrust_gf", "thrust (gf)" and "thrust [gf]" name their unit; "thrust" does not. */
function unitInName(column: string, name: string): string {
  return column
    .slice(name.length)
    .replace(/[[\]()]/g, ' ')
    .replace(/_/g, ' ')
    .trim();
}
