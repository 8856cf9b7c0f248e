/**
 * The result as JSON and back. Keys stand in the order in which the program builds them, which never changes for a
 * version; NaN and infinities become null.
 */
import { CAUSES, COLUMN_NAMES, OUTCOMES } from '../flight/record.js';
import { PROGRAM_VERSION } from '../version.js';
import type { Decisions } from './decisions.js';
import { decodeBytes } from './raw.js';
import { RESULT_SCHEMA, type Result } from './result.js';

/** JSON text in pieces: one for each part of the result, so that a large study is never one string in memory. */
export function* resultJson(result: object): Generator<string> {
  let separator = '{';
  for (const [key, part] of Object.entries(result)) {
    yield `${separator}${JSON.stringify(key)}:`;
    yield* pieces(part);
    separator = ',\n';
  }
  yield '}\n';
}

/** Each text and each list of plain values is one piece; what holds others is opened, and read entry by entry. */
function* pieces(value: unknown): Generator<string> {
  if (!holdsOthers(value)) {
    yield JSON.stringify(value) ?? 'null';
    return;
  }
  const list = Array.isArray(value);
  let separator = list ? '[' : '{';
  for (const key of Object.keys(value)) {
    yield list ? separator : `${separator}${JSON.stringify(key)}:`;
    yield* pieces(value[key as keyof typeof value]);
    separator = ',';
  }
  yield list ? ']' : '}';
}

/** True for what has parts of which one is long: lists of plain values are written at once. */
function holdsOthers(value: unknown): value is object {
  if (value === null || typeof value !== 'object') return false;
  for (const key of Object.keys(value)) {
    const entry: unknown = value[key as keyof typeof value];
    if ((typeof entry === 'object' && entry !== null) || typeof entry === 'string') return true;
  }
  return false;
}

export type ReadResult =
  | { readonly status: 'ok'; readonly result: Result }
  | { readonly status: 'refused'; readonly message: string };

/** What each part must be, as far as the views of a result rely on it. */
const PARTS: Readonly<Record<Exclude<keyof Result, keyof Decisions | 'date'>, string>> = {
  kind: 'string',
  versions: 'object',
  scenario: 'object',
  overrides: 'array',
  seed: 'string',
  flights: 'number',
  partial: 'boolean',
  acceptableRisk: 'number',
  plannedHeight: 'number',
  verdict: 'string',
  risk: 'object',
  criteria: 'array',
  overall: 'string',
  flightsToSettle: 'number or null',
  outcomes: 'object',
  curve: 'array',
  causes: 'array',
  touchdownSpeed: 'object',
  touchdownSpeedNotSoft: 'object',
  verticalSpeed: 'object',
  energyNotSoft: 'object',
  arrested: 'object',
  orderTime: 'object',
  orderHeight: 'object',
  cueHeight: 'object',
  stoppingHeight: 'object',
  speedAtOrder: 'object',
  uprightDelay: 'object',
  arrestHeight: 'object',
  lowestVoltage: 'object',
  energyLeft: 'object',
  envelope: 'array',
  histories: 'array',
  listed: 'array',
  footprint: 'object',
  convergence: 'object',
  hand: 'object',
  warnings: 'array',
  raw: 'object',
};

/** What a study may have decided, and what was told about it: may be absent. */
const OPTIONAL_PARTS: Readonly<Record<keyof Decisions | 'date', string>> = {
  date: 'string',
  heightDecision: 'object or null',
  recommended: 'object or null',
  worlds: 'object or null',
  drivers: 'object or null',
  help: 'object or null',
  measureFirst: 'array or null',
  tipping: 'object or null',
  pessimistic: 'object or null',
  stopping: 'object or null',
  assurance: 'object or null',
};

const HOW = 'Give the .json file that `fallmargin assess` wrote';

/** A JSON text of this program and version, with its kind; what each kind holds is checked by its own reader. */
export type OpenedResult =
  | { readonly status: 'ok'; readonly kind: string; readonly value: Readonly<Record<string, unknown>> }
  | { readonly status: 'refused'; readonly message: string };

/** Reads a text as a result of any kind, and says plainly what is wrong with a file that is none. */
export function openResult(text: string): OpenedResult {
  const refuse = (message: string): OpenedResult => ({ status: 'refused', message });
  if (text.trim() === '') return refuse(`the file is empty. ${HOW}.`);
  if (text.startsWith('{"kind":"part",'))
    return refuse('the file is a part of a study or an unfinished one; see `fallmargin merge` and `assess --resume`.');
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return text.trimStart().startsWith('{')
      ? refuse('the file is not whole JSON; it may have been cut off while it was copied. Make it again.')
      : refuse(`the file is not JSON. ${HOW}.`);
  }
  if (!isRecord(value) || !isRecord(value.versions) || typeof value.kind !== 'string')
    return refuse(`the file is JSON, but no result of this program. ${HOW}.`);
  const { resultSchema, program } = value.versions;
  if (resultSchema !== RESULT_SCHEMA) {
    return refuse(
      `the result has schema version ${String(resultSchema)} (written by version ${String(program)}), but version ` +
        `${PROGRAM_VERSION} reads schema version ${RESULT_SCHEMA}. Make it again with this version.`,
    );
  }
  return { status: 'ok', kind: value.kind, value };
}

/** Reads the result of an assessment back. */
export function parseResult(text: string): ReadResult {
  const opened = openResult(text);
  if (opened.status === 'refused') return opened;
  const { kind, value } = opened;
  if (kind !== 'assess')
    return { status: 'refused', message: `the result is of kind "${kind}", which does not do here. ${HOW}.` };
  const wrong = firstWrongPart(value) ?? firstWrongColumn(value as unknown as Result);
  if (wrong !== null) return { status: 'refused', message: `the result is damaged: ${wrong}. Run \`assess\` again.` };
  return { status: 'ok', result: value as unknown as Result };
}

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return kindOf(value) === 'object';
}

function kindOf(value: unknown): string {
  return value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value;
}

function firstWrongPart(value: Readonly<Record<string, unknown>>): string | null {
  const optional = Object.entries(OPTIONAL_PARTS).filter(([name]) => name in value);
  return wrongPart(value, [...Object.entries(PARTS), ...optional]);
}

/** What is wrong with the first part that is not what it must be; null where all are. */
export function wrongPart(
  value: Readonly<Record<string, unknown>>,
  parts: readonly (readonly [name: string, expected: string])[],
): string | null {
  for (const [name, expected] of parts) {
    const found = name in value ? kindOf(value[name]) : 'missing';
    if (!expected.split(' or ').includes(found)) return `"${name}" is ${found}, but must be ${expected}`;
  }
  return null;
}

/** The raw columns must hold as many flights as the result speaks of, with outcomes and causes that exist. */
function firstWrongColumn({ raw, flights }: Result): string | null {
  const planned: unknown = raw.planned;
  if (!isRecord(planned) || !isRecord(planned.columns)) return '"raw.planned" is missing';
  const sizes: readonly (readonly [string, unknown, number])[] = [
    ['outcome', planned.outcome, flights],
    ['cause', planned.cause, flights],
    ...COLUMN_NAMES.map((name) => [name, (planned.columns as Record<string, unknown>)[name], 4 * flights] as const),
  ];
  for (const [name, text, bytes] of sizes) {
    if (typeof text !== 'string' || Buffer.byteLength(text, 'base64') !== bytes)
      return `the column "${name}" does not hold ${flights} flights`;
  }
  if (decodeBytes(raw.planned.outcome).some((outcome) => outcome >= OUTCOMES.length)) return 'an outcome is unknown';
  if (decodeBytes(raw.planned.cause).some((cause) => cause >= CAUSES.length)) return 'a cause is unknown';
  return null;
}
