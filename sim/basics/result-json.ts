/**
 * A result as JSON. Keys stand in the order in which the program builds them, which never changes for a version; NaN and
 * infinities become null.
 */

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
