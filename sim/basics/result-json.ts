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
