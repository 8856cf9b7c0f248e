/** The first place of a JSON value that is not what its JSON Schema says, as a sentence. */
import { type OutputUnit, type Schema, Validator } from '@cfworker/json-schema';

/** These say only that something under them is wrong. */
const OUTER: readonly string[] = ['$ref', 'properties', 'additionalProperties', 'items', 'anyOf'];

type Errors = readonly OutputUnit[];
type Node = Readonly<Record<string, unknown>>;

/**
 * Says of a value what its first wrong place is, as in `"risk.estimate" is a text, but must be a number`; null where all is as the
 * schema says.
 */
export function shapeCheck(schema: object): (value: unknown) => string | null {
  const validator = new Validator(bounded(schema), '7');
  return (value) => {
    try {
      const { valid, errors } = validator.validate(value);
      return valid ? null : sentence(errors, value, schema as Node);
    } catch (error) {
      // The validator follows a value as deep as it goes, and writes names as in an address. No result goes so deep or has such names.
      if (error instanceof RangeError) return 'it is nested too deep, or holds too much that is unknown';
      if (error instanceof URIError) return 'the name of something in it is no text';
      throw error;
    }
  };
}

/** No number of a result is larger than this; 1e999 in a JSON text would be read as infinite. */
const LARGEST = 1e15;

/** The schema with every number held to a size with which a page can reckon. */
function bounded(schema: object): Schema {
  const text = JSON.stringify(schema, (_name, node) =>
    [node?.type].flat().includes('number') ? { ...node, minimum: -LARGEST, maximum: LARGEST } : node,
  );
  return JSON.parse(text);
}

function sentence(errors: Errors, value: unknown, schema: Node): string {
  const [first, ...others] = innermost(inMeantForm(errors.filter(({ keyword }) => !OUTER.includes(keyword))));
  const path = pointed(first.instanceLocation);
  const found = path.reduce<unknown>((whole, key) => (whole as Node)[key], value);
  const rules = [first, ...others].map(({ keywordLocation }) => ruleAt(schema, keywordLocation));
  switch (first.keyword) {
    case 'false':
      return `"${placeOf(path)}" is nothing that this result holds`;
    case 'required': {
      const missing = (rules[0] as readonly string[]).filter((name) => !Object.hasOwn(found as object, name));
      return `"${placeOf([...path, missing[0]])}" is missing`;
    }
    case 'minItems':
    case 'maxItems':
      return `"${placeOf(path)}" holds ${(found as readonly unknown[]).length} entries, but must hold ${String(rules[0])}`;
    case 'minimum':
    case 'maximum':
      return `"${placeOf(path)}" is ${found}, but must be between ${-LARGEST} and ${LARGEST}`;
    case 'type':
      return `"${placeOf(path)}" is ${kindWords(found)}, but must be ${either(rules.flat().map(typeWords))}`;
    default: {
      const is = typeof found === 'string' ? cut(JSON.stringify(found)) : kindWords(found);
      return `"${placeOf(path)}" is ${is}, but must be ${either(rules.flat().map((one) => JSON.stringify(one)))}`;
    }
  }
}

/**
 * Where a value may have one of several forms, the form that is meant is the one whose fixed words (`kind`, `status`) are there:
 * what is wrong by the others says nothing. Where no form's words are there, these words are what is wrong.
 */
function inMeantForm(errors: Errors): Errors {
  const words = errors.filter(({ keyword }) => keyword === 'const');
  const notMeant = words.flatMap(({ keywordLocation }) => /^.*\/anyOf\/\d+\//.exec(keywordLocation) ?? []);
  const meant = errors.filter(({ keywordLocation }) => !notMeant.some((form) => keywordLocation.startsWith(form)));
  return meant.length > 0 ? meant : words;
}

/**
 * What is wrong at the deepest place. A name that is unknown counts only where nothing else is wrong, and a wrong type only where no
 * allowed form has the type that is there.
 */
function innermost(all: Errors): Errors {
  const known = all.filter(({ keyword }) => keyword !== 'false');
  const errors = known.length > 0 ? known : all;
  const depth = ({ instanceLocation }: OutputUnit) => instanceLocation.split('/').length;
  const deepest = errors.reduce((deep, one) => (depth(one) > depth(deep) ? one : deep));
  const there = errors.filter(({ instanceLocation }) => instanceLocation === deepest.instanceLocation);
  const { keyword } = there.find((one) => one.keyword !== 'type') ?? deepest;
  return there.filter((one) => one.keyword === keyword);
}

/** Keys along a JSON pointer, as the validator writes it. */
function pointed(pointer: string): readonly string[] {
  const keys = pointer.split('/').slice(1);
  return keys.map((key) => decodeURI(key.replaceAll('%23', '#')).replaceAll('~1', '/').replaceAll('~0', '~'));
}

/** What the schema demands at a place to which the way may lead through references. */
function ruleAt(schema: Node, keywordLocation: string): unknown {
  return pointed(keywordLocation).reduce<unknown>((node, key) => {
    const next = (node as Node | undefined)?.[key];
    return key === '$ref' ? ruleAt(schema, String(next)) : next;
  }, schema);
}

/** As in `curve[3].risk.estimate`. */
function placeOf(path: readonly string[]): string {
  return cut(path.map((key, index) => (/^\d+$/.test(key) ? `[${key}]` : index === 0 ? key : `.${key}`)).join(''));
}

/** As much of a text as is worth showing. */
function cut(text: string): string {
  return text.length > 80 ? `${text.slice(0, 80)}...` : text;
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
};

function typeWords(type: unknown): string {
  return TYPE_WORDS[String(type)] ?? String(type);
}

function kindWords(value: unknown): string {
  return value === null || typeof value === 'boolean'
    ? String(value)
    : typeWords(Array.isArray(value) ? 'array' : typeof value);
}

function either(words: readonly string[]): string {
  const all = [...new Set(words)];
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} or ${all[all.length - 1]}`;
}
