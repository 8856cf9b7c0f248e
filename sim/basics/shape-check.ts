/**
 * Checks a JSON value by a JSON Schema of the few words in which the schemas of results are written, and says in a sentence what the
 * first wrong place is. General validators took longer than the program takes to start; a test holds this check against one of them.
 */
import { cut, either, kindOf, kindWords, placeOf, typeWords } from './shape-words.js';

type Kind = ReturnType<typeof kindOf>;

/** A schema, or a part of one. */
interface Node {
  readonly $ref?: string;
  readonly definitions?: Readonly<Record<string, Node>>;
  readonly anyOf?: readonly Node[];
  readonly type?: Kind | readonly Kind[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Node>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Node | boolean;
  readonly items?: Node | readonly Node[];
  readonly minItems?: number;
  readonly maxItems?: number;
}

type Parts = Readonly<Record<string, unknown>>;

/** The keys that lead to a wrong place, and what is wrong there. */
interface Wrong {
  readonly path: readonly string[];
  readonly says: string;
}

/** No number of a result is larger than this; 1e999 in a JSON text is read as infinite. */
const LARGEST = 1e15;

/** No result is nested deeper than this. */
const DEEPEST = 100;

/** As in `"risk.estimate" is a text, but must be a number`; null where all is as the schema says. */
export function wrongShape(value: unknown, schema: object): string | null {
  const wrong = wrongValue(value, schema, schema, 0);
  return wrong === null ? null : `"${placeOf(wrong.path)}" ${wrong.says}`;
}

function wrongValue(value: unknown, node: Node, root: Node, depth: number): Wrong | null {
  if (depth > DEEPEST) return here('is nested too deep');
  const forms = formsOf(node, root);
  return forms.length === 1 ? wrongForm(value, forms[0], root, depth) : wrongOfForms(value, forms, root, depth);
}

/** What a value may be: the alternatives of a node, references followed. */
function formsOf(node: Node, root: Node): readonly Node[] {
  if (node.$ref !== undefined)
    return formsOf(root.definitions?.[node.$ref.slice('#/definitions/'.length)] as Node, root);
  return node.anyOf === undefined ? [node] : node.anyOf.flatMap((form) => formsOf(form, root));
}

/** Of several forms those are meant that have the type of the value, and whose fixed words (`kind`, `status`) are there. */
function wrongOfForms(value: unknown, forms: readonly Node[], root: Node, depth: number): Wrong | null {
  const typed = forms.filter((form) => typesOf(form).includes(kindOf(value)));
  if (typed.length === 0) return wrongType(value, forms.flatMap(typesOf));
  const parts = value as Parts;
  const meant = typed.filter((form) => fixedWords(form).every(([name, word]) => parts[name] === word));
  if (meant.length === 0) return wrongFixedWord(parts, typed.flatMap(fixedWords));
  const wrongs = meant.map((form) => wrongForm(value, form, root, depth));
  return wrongs.includes(null) ? null : wrongs[0];
}

type FixedWord = readonly [name: string, word: unknown];

/** The first name under which none of the words stands. */
function wrongFixedWord(parts: Parts, words: readonly FixedWord[]): Wrong {
  const wordsOf = (name: string) => words.flatMap(([other, word]) => (other === name ? [word] : []));
  const names = words.map(([name]) => name);
  const name = names.find((one) => !wordsOf(one).includes(parts[one])) ?? names[0];
  return inside(name, Object.hasOwn(parts, name) ? wrongWord(parts[name], wordsOf(name)) : here('is missing'));
}

function fixedWords({ properties = {} }: Node): readonly FixedWord[] {
  return Object.entries(properties).flatMap(([name, node]) =>
    node.const === undefined ? [] : [[name, node.const] as const],
  );
}

function typesOf({ type = [] }: Node): readonly Kind[] {
  return typeof type === 'string' ? [type] : type;
}

function wrongForm(value: unknown, form: Node, root: Node, depth: number): Wrong | null {
  const words = form.enum ?? (form.const === undefined ? null : [form.const]);
  if (words !== null) return words.includes(value) ? null : wrongWord(value, words);
  const kind = kindOf(value);
  if (form.type !== undefined && form.type !== kind && !typesOf(form).includes(kind))
    return wrongType(value, typesOf(form));
  if (kind === 'number' && !(Math.abs(value as number) <= LARGEST))
    return here(`is ${value}, but must be between ${-LARGEST} and ${LARGEST}`);
  if (kind === 'array') return wrongList(value as readonly unknown[], form, root, depth);
  return kind === 'object' ? wrongObject(value as Parts, form, root, depth) : null;
}

function wrongList(list: readonly unknown[], form: Node, root: Node, depth: number): Wrong | null {
  const { items = {}, minItems = 0, maxItems = Number.POSITIVE_INFINITY } = form;
  if (list.length < minItems || list.length > maxItems)
    return here(`holds ${list.length} entries, but must hold ${list.length < minItems ? minItems : maxItems}`);
  for (let index = 0; index < list.length; index++) {
    const wrong = wrongValue(list[index], Array.isArray(items) ? items[index] : items, root, depth + 1);
    if (wrong !== null) return inside(String(index), wrong);
  }
  return null;
}

function wrongObject(value: Parts, form: Node, root: Node, depth: number): Wrong | null {
  const { properties = {}, required = [], additionalProperties = true } = form;
  const missing = required.find((name) => !Object.hasOwn(value, name));
  if (missing !== undefined) return inside(missing, here('is missing'));
  for (const name of Object.keys(value)) {
    const node = Object.hasOwn(properties, name) ? properties[name] : additionalProperties;
    if (node === false) return inside(name, here('is nothing that this result holds'));
    const wrong = node === true ? null : wrongValue(value[name], node, root, depth + 1);
    if (wrong !== null) return inside(name, wrong);
  }
  return null;
}

function wrongType(value: unknown, types: readonly Kind[]): Wrong {
  return here(`is ${kindWords(value)}, but must be ${either(types.map(typeWords))}`);
}

function wrongWord(value: unknown, words: readonly unknown[]): Wrong {
  const is = typeof value === 'string' ? cut(JSON.stringify(value)) : kindWords(value);
  return here(`is ${is}, but must be ${either(words.map((word) => JSON.stringify(word)))}`);
}

function here(says: string): Wrong {
  return { path: [], says };
}

function inside(key: string, { path, says }: Wrong): Wrong {
  return { path: [key, ...path], says };
}
