/**
 * A result as JSON and back. Keys stand in the order in which the program builds them, which never changes for a version; NaN and
 * infinities become null.
 */
import { PROGRAM_VERSION, RESULT_SCHEMA } from './versions.js';

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

/** A text or a list of numbers is a piece of its own; an object, and a list with texts or objects in it, goes entry by entry. */
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

/** Whether a value has a text, an object or a list among its entries; without them it is written at once. */
function holdsOthers(value: unknown): value is object {
  if (value === null || typeof value !== 'object') return false;
  for (const key of Object.keys(value)) {
    const entry: unknown = value[key as keyof typeof value];
    if ((typeof entry === 'object' && entry !== null) || typeof entry === 'string') return true;
  }
  return false;
}

export const HOW = 'Give the .json file that `fallmargin assess` wrote';

/** A JSON text of this program and version, with its kind; what each kind holds is checked by its own reader. */
export type OpenedResult =
  | { readonly status: 'ok'; readonly kind: string; readonly value: Readonly<Record<string, unknown>> }
  | { readonly status: 'refused'; readonly message: string };

/** Reads a text as a result of any kind, and says plainly what is wrong with a file that is no result. */
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

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return kindOf(value) === 'object';
}

export function kindOf(value: unknown): string {
  return value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value;
}

/** What is wrong with the first part that has not the type it must have; null where every part has. */
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
