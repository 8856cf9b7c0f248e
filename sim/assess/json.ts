/** Reads the result of an assessment back from JSON. */
import { HOW, isRecord, openResult, wrongPart } from '../basics/result-json.js';
import { decodeBytes } from '../ensemble/raw-columns.js';
import { CAUSES, COLUMN_NAMES, OUTCOMES } from '../flight/record.js';
import type { Decisions } from './decisions.js';
import type { Result } from './result.js';

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

function firstWrongPart(value: Readonly<Record<string, unknown>>): string | null {
  const optional = Object.entries(OPTIONAL_PARTS).filter(([name]) => name in value);
  return wrongPart(value, [...Object.entries(PARTS), ...optional]);
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
