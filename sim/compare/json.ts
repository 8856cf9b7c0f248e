/** A comparison is read back from JSON. */

import { isRecord, openResult, wrongPart } from '../basics/result-json.js';
import { decodeBytes } from '../ensemble/raw-columns.js';
import { CAUSES, OUTCOMES } from '../flight/record.js';
import type { CompareResult } from './result.js';

const PARTS: Readonly<Record<keyof CompareResult, string>> = {
  kind: 'string',
  versions: 'object',
  seed: 'string',
  flights: 'number',
  partial: 'boolean',
  source: 'string',
  matters: 'number',
  a: 'object',
  b: 'object',
  verdict: 'string',
  identical: 'boolean',
  comparisons: 'array',
  differences: 'array',
  warnings: 'array',
};

const DESIGN: readonly (readonly [string, string])[] = [
  ['scenario', 'object'],
  ['overrides', 'array'],
  ['plannedHeight', 'number'],
  ['recommendation', 'object or null'],
];

const COMPARED: readonly (readonly [string, string])[] = [
  ['basis', 'string'],
  ['pairs', 'object'],
  ['speeds', 'object'],
  ['raw', 'object'],
];

export type ReadComparison =
  | { readonly status: 'ok'; readonly result: CompareResult }
  | { readonly status: 'refused'; readonly message: string };

export function parseComparison(text: string): ReadComparison {
  const opened = openResult(text);
  if (opened.status === 'refused') return opened;
  const { kind, value } = opened;
  if (kind !== 'compare') return { status: 'refused', message: `the result is of kind "${kind}", and no comparison.` };
  const wrong = wrongPart(value, Object.entries(PARTS)) ?? wrongDesign(value) ?? wrongComparison(value);
  if (wrong !== null) return { status: 'refused', message: `the result is damaged: ${wrong}. Run \`compare\` again.` };
  return { status: 'ok', result: value as unknown as CompareResult };
}

type Value = Readonly<Record<string, unknown>>;

function wrongDesign({ a, b }: Value): string | null {
  return wrongPart(a as Value, DESIGN) ?? wrongPart(b as Value, DESIGN);
}

function wrongComparison({ comparisons, flights }: Value): string | null {
  const all = comparisons as readonly unknown[];
  if (all.length !== 3 || !all.every(isRecord)) return '"comparisons" does not hold three';
  if (all[0].status !== 'compared') return 'the planned heights are not compared';
  for (const [index, one] of all.entries()) {
    if (one.status !== 'compared') continue;
    const wrong = wrongPart(one, COMPARED) ?? wrongRaw(one.raw as Value, index === 0 ? Number(flights) : null);
    if (wrong !== null) return wrong;
  }
  return null;
}

/** Both designs hold as many flights as the pairs speak of, with outcomes and causes that exist. */
function wrongRaw({ a, b }: Value, expected: number | null): string | null {
  const columns = [a, b].flatMap((one) => (isRecord(one) ? [one.outcome, one.cause] : [null]));
  if (!columns.every((one) => typeof one === 'string')) return 'raw columns are missing';
  const [outcomeA, causeA, outcomeB, causeB] = columns.map(decodeBytes);
  const flights = expected ?? outcomeA.length;
  if ([outcomeA, causeA, outcomeB, causeB].some(({ length }) => length !== flights))
    return `the raw columns do not hold ${flights} pairs`;
  if ([outcomeA, outcomeB].some((list) => list.some((one) => one >= OUTCOMES.length))) return 'an outcome is unknown';
  return [causeA, causeB].some((list) => list.some((one) => one >= CAUSES.length)) ? 'a cause is unknown' : null;
}
