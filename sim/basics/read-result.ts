/** Results read back from JSON, each kind by the JSON Schema that is made from its type. */
import { type Answer, ok, refused } from './answer.js';
import { wrongShape } from './shape-check.js';
import { PROGRAM_VERSION, RESULT_SCHEMA } from './versions.js';

const HOW = 'Give the .json file that `fallmargin assess` wrote';

/** A JSON text of this program and version, with its kind; what each kind holds is checked by its own reader. */
export interface OpenedResult {
  readonly kind: string;
  readonly value: unknown;
}

/** Reads a text as a result of any kind, and says plainly what is wrong with a file that is none. */
export function openResult(text: string): Answer<OpenedResult> {
  if (text.trim() === '') return refused(`the file is empty. ${HOW}.`);
  if (text.startsWith('{"kind":"part",'))
    return refused('the file is a part of a study or an unfinished one; see `fallmargin merge` and `assess --resume`.');
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return text.trimStart().startsWith('{')
      ? refused('the file is not whole JSON; it may have been cut off while it was copied. Make it again.')
      : refused(`the file is not JSON. ${HOW}.`);
  }
  if (!isRecord(value) || !isRecord(value.versions) || typeof value.kind !== 'string')
    return refused(`the file is JSON, but no result of this program. ${HOW}.`);
  const { resultSchema, program } = value.versions;
  if (resultSchema !== RESULT_SCHEMA) {
    return refused(
      `the result has schema version ${String(resultSchema)} (written by version ${String(program)}), but version ` +
        `${PROGRAM_VERSION} reads schema version ${RESULT_SCHEMA}. Make it again with this version.`,
    );
  }
  return ok({ kind: value.kind, value });
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return value !== null && typeof value === 'object' && !Array.isArray(value);
}

/** The command that writes results of a kind, and what such a result is called. */
export interface ResultKind {
  readonly kind: string;
  readonly called: string;
}

/**
 * A reader of results of one kind. `contradiction` says what is wrong with a result whose shape is right, such as columns of another
 * length; null where nothing is.
 */
export function resultReader<R extends object>(
  { kind, called }: ResultKind,
  schema: object,
  contradiction: (result: R) => string | null,
): (text: string) => Answer<R> {
  return (text) => {
    const opened = openResult(text);
    if (opened.status === 'refused') return opened;
    if (opened.value.kind !== kind)
      return refused(
        `the result is of kind "${opened.value.kind}", and no ${called}. Give the .json file that \`fallmargin ${kind}\` wrote.`,
      );
    const wrong = wrongShape(opened.value.value, schema) ?? contradiction(opened.value.value as R);
    return wrong === null
      ? ok(opened.value.value as R)
      : refused(`the result is damaged: ${wrong}. Run \`${kind}\` again.`);
  };
}

/** What is wrong with lists that must all be of one length; `place` is what stands before their names. */
export function wrongLength(place: string, lists: object, length: number): string | null {
  const wrong = Object.entries(lists).find(([, list]) => (list as readonly unknown[]).length !== length);
  return wrong === undefined ? null : `"${place}${wrong[0]}" does not hold ${length} entries`;
}
