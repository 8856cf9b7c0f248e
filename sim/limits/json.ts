/** A day card is read back from JSON. */

import { isRecord, openResult, wrongPart } from '../basics/result-json.js';
import type { LimitsResult } from './result.js';

const PARTS: Readonly<Record<keyof LimitsResult, string>> = {
  kind: 'string',
  versions: 'object',
  scenario: 'object',
  overrides: 'array',
  seed: 'string',
  flights: 'number',
  partial: 'boolean',
  plannedHeight: 'number',
  criteria: 'array',
  rows: 'object',
  columns: 'object',
  heights: 'array',
  cells: 'array',
  windCeiling: 'object or null',
  allows: 'boolean',
  dropped: 'array',
  flightsFlown: 'number',
  warnings: 'array',
};

const AXIS: readonly (readonly [string, string])[] = [
  ['path', 'string'],
  ['meaning', 'string'],
  ['values', 'array'],
  ['ordered', 'boolean'],
  ['unit', 'string'],
  ['perSi', 'number'],
  ['offset', 'number'],
  ['inScenario', 'string'],
];

export type ReadLimits =
  | { readonly status: 'ok'; readonly result: LimitsResult }
  | { readonly status: 'refused'; readonly message: string };

export function parseLimits(text: string): ReadLimits {
  const opened = openResult(text);
  if (opened.status === 'refused') return opened;
  const { kind, value } = opened;
  if (kind !== 'limits') return { status: 'refused', message: `the result is of kind "${kind}", and no day card.` };
  const wrong = wrongPart(value, Object.entries(PARTS)) ?? wrongAxis(value) ?? wrongCells(value);
  if (wrong !== null) return { status: 'refused', message: `the result is damaged: ${wrong}. Run \`limits\` again.` };
  return { status: 'ok', result: value as unknown as LimitsResult };
}

type Value = Readonly<Record<string, unknown>>;

function wrongAxis({ rows, columns }: Value): string | null {
  return wrongPart(rows as Value, AXIS) ?? wrongPart(columns as Value, AXIS);
}

const STATUSES: readonly unknown[] = ['fly', 'do not fly', 'no launch', 'not reached'];

function wrongCells({ cells, rows, columns }: Value): string | null {
  const list = cells as readonly unknown[];
  const [height, width] = [rows, columns].map((axis) => ((axis as Value).values as readonly unknown[]).length);
  if (list.length !== height * width) return `"cells" holds ${list.length}, but must hold ${height} times ${width}`;
  const good = list.every((cell, index) => {
    if (!isRecord(cell) || !STATUSES.includes(cell.status)) return false;
    const placed = cell.row === Math.floor(index / width) && cell.column === index % width;
    return placed && (cell.status === 'fly') === (typeof cell.height === 'number');
  });
  return good ? null : 'a cell is not what its place and status say';
}
