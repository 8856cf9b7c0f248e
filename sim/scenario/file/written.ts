/** A YAML file as written: its entries, each with its place, before anything is known of their meaning. */
import {
  type Alias,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { type Place, quoted, type Report } from './problem.js';

export interface WrittenScalar {
  readonly form: 'scalar';
  readonly place: Place;
  readonly value: string | number | boolean | null;
  /** As typed, without quotes. */
  readonly source: string;
}

export interface WrittenList {
  readonly form: 'list';
  readonly place: Place;
  readonly items: readonly Written[];
}

export interface WrittenEntry {
  readonly key: string;
  readonly keyPlace: Place;
  readonly value: Written;
}

export interface WrittenMap {
  readonly form: 'map';
  readonly place: Place;
  readonly entries: readonly WrittenEntry[];
}

export type Written = WrittenScalar | WrittenList | WrittenMap;

/** Finds the entry of a key. */
export function entryOf(map: WrittenMap, key: string): WrittenEntry | undefined {
  return map.entries.find((entry) => entry.key === key);
}

/** The text written at a key, on a single line, for a message that quotes it. */
export function sourceOf(map: WrittenMap, key: string): string {
  const value = entryOf(map, key)?.value;
  return value?.form === 'scalar' ? value.source : value === undefined ? '' : describeWritten(value);
}

/** What stands there, in words for a message. */
export function describeWritten(written: Written): string {
  if (written.form === 'map')
    return written.entries.length === 0 ? 'an empty section' : `a section with ${quoted(written.entries[0].key)}`;
  if (written.form === 'list') return `a list of ${written.items.length}`;
  return written.value === null ? 'nothing' : quoted(written.source);
}

/** Far more than any scenario holds, so that a file picked by mistake is refused at once. */
const DEEPEST = 40;
const LONGEST = 1_000_000;

interface Conversion {
  readonly document: Document;
  readonly placeOf: (offset: number) => Place;
  readonly report: Report;
  readonly done: Map<Node, Written>;
  /** Nodes being converted, so that an anchor that holds itself is seen. */
  readonly open: Set<Node>;
}

/** Parses YAML text. Null where it cannot be read at all; duplicate keys are reported, and the first of them counts. */
export function parseWritten(
  text: string,
  placeAt: (line: number, column: number) => Place,
  report: Report,
): Written | null {
  const lines = new LineCounter();
  const placeOf = (offset: number) => {
    const { line, col } = lines.linePos(offset);
    return placeAt(Math.max(1, line), Math.max(1, col));
  };
  if (text.length > LONGEST) {
    report(placeAt(1, 1), '', `a text of ${text.length} characters`, `a scenario of at most ${LONGEST} characters`);
    return null;
  }
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  let readable = true;
  for (const error of document.errors) {
    const duplicate = error.code === 'DUPLICATE_KEY';
    if (!duplicate) readable = false;
    if (duplicate)
      report(
        placeOf(error.pos[0]),
        '',
        `${quoted(keyAt(text, error.pos[0]))} a second time in the same section`,
        'each key once',
      );
    else report(placeOf(error.pos[0]), '', `broken YAML (${shortened(error.message)})`, 'valid YAML');
  }
  if (!readable) return null;
  return convert(document.contents, { document, placeOf, report, done: new Map(), open: new Set() }, placeAt(1, 1), 0);
}

/** The parser quotes what it does not understand, however long it is. */
function shortened(message: string): string {
  return message.length > 120 ? `${message.slice(0, 117)}...` : message;
}

function keyAt(text: string, offset: number): string {
  return text.slice(offset).split(/[:\n]/, 1)[0].trim();
}

function convert(node: unknown, conversion: Conversion, fallback: Place, depth: number): Written {
  const place = placeOfNode(node, conversion) ?? fallback;
  const nothing: WrittenScalar = { form: 'scalar', place, value: null, source: '' };
  if (depth > DEEPEST) {
    conversion.report(place, '', 'a nesting deeper than any scenario', 'a few levels');
    return nothing;
  }
  if (isAlias(node)) return convertAlias(node, conversion, place, depth) ?? nothing;
  if (!isScalar(node) && !isMap(node) && !isSeq(node)) return nothing;
  conversion.open.add(node);
  const written = convertNode(node, conversion, place, depth);
  conversion.open.delete(node);
  conversion.done.set(node, written);
  return written;
}

function convertAlias(alias: Alias, conversion: Conversion, place: Place, depth: number): Written | null {
  const target = alias.resolve(conversion.document);
  if (target === undefined) {
    conversion.report(
      place,
      '',
      `${quoted(`*${alias.source}`)} without its anchor`,
      `"&${alias.source}" at an entry above`,
    );
    return null;
  }
  if (conversion.open.has(target)) {
    conversion.report(place, '', `${quoted(`*${alias.source}`)} inside its own anchor`, 'an alias of another entry');
    return null;
  }
  return conversion.done.get(target) ?? convert(target, conversion, place, depth + 1);
}

function convertNode(node: Scalar | YAMLMap | YAMLSeq, conversion: Conversion, place: Place, depth: number): Written {
  if (isMap(node)) {
    const entries = node.items.flatMap((pair) => convertPair(pair, conversion, place, depth));
    const seen = new Set<string>();
    return { form: 'map', place, entries: entries.filter(({ key }) => !seen.has(key) && seen.add(key)) };
  }
  if (isSeq(node)) {
    return { form: 'list', place, items: node.items.map((item) => convert(item, conversion, place, depth + 1)) };
  }
  const { value } = node;
  const plain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' || value === null;
  const source = typeof value === 'string' ? value : (node.source ?? String(value));
  return { form: 'scalar', place, value: plain ? value : String(value), source: source.replace(/\s+/g, ' ').trim() };
}

function convertPair(pair: Pair, conversion: Conversion, place: Place, depth: number): readonly WrittenEntry[] {
  const keyPlace = placeOfNode(pair.key, conversion) ?? place;
  if (!isScalar(pair.key) || pair.key.value === null) {
    conversion.report(keyPlace, '', 'a key that is not a word', 'a name followed by a colon');
    return [];
  }
  const key = typeof pair.key.value === 'string' ? pair.key.value : (pair.key.source ?? String(pair.key.value));
  return [{ key, keyPlace, value: convert(pair.value, conversion, keyPlace, depth + 1) }];
}

function placeOfNode(node: unknown, conversion: Conversion): Place | null {
  const range = isAlias(node) || isScalar(node) || isMap(node) || isSeq(node) ? node.range : null;
  return range === null || range === undefined ? null : conversion.placeOf(range[0]);
}
