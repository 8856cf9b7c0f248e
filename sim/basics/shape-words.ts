/** The words in which a wrong place of a JSON value is told. */

const TYPE_WORDS = {
  null: 'null',
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
} as const;

export function kindOf(value: unknown): keyof typeof TYPE_WORDS {
  if (value === null) return 'null';
  return Array.isArray(value) ? 'array' : (typeof value as keyof typeof TYPE_WORDS);
}

export function typeWords(type: keyof typeof TYPE_WORDS): string {
  return TYPE_WORDS[type];
}

export function kindWords(value: unknown): string {
  return typeof value === 'boolean' ? String(value) : typeWords(kindOf(value));
}

/** As in `curve[3].risk.estimate`. */
export function placeOf(path: readonly string[]): string {
  return cut(path.map((key, index) => (/^\d+$/.test(key) ? `[${key}]` : index === 0 ? key : `.${key}`)).join(''));
}

/** As much of a text as is worth showing. */
export function cut(text: string): string {
  return text.length > 80 ? `${text.slice(0, 80)}...` : text;
}

/** As in `a, b or c`, each once. */
export function either(words: readonly string[]): string {
  const all = [...new Set(words)];
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} or ${all[all.length - 1]}`;
}
