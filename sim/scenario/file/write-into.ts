/** Writes entries into a scenario file and leaves every other character of it as it is, comments and blank lines too. */
import { isAlias, isCollection, isMap, isPair, isScalar, type Pair, parseDocument, visit, type YAMLMap } from 'yaml';
import { type Answer, ok, refused } from '../../basics/answer.js';
import type { Files } from './files.js';
import { atPath, blockLevels, type Piece, yamlText } from './fragment.js';
import { readScenario } from './read.js';

export interface Entry {
  readonly path: string;
  readonly piece: Piece;
}

/**
 * The text of the file with these entries in place of what stood at their paths, or added. Refused where the file cannot
 * be read as a scenario afterwards, with what is wrong.
 */
export function writeInto(file: string, entries: readonly Entry[], files: Files): Answer<string> {
  const read = files.read(file);
  if (read.status === 'no text')
    return refused(`--into is "${file}", ${read.why}; give the scenario file to write into.`);
  const before = readScenario(file, [], files);
  if (before.status === 'refused')
    return refused(`"${file}" has problems of its own, so nothing was written into it:`, ...before.messages);
  let text = read.value;
  for (const { path, piece } of entries) text = placed(text, path.split('.'), piece);
  const after = readScenario(file, [], {
    ...files,
    read: (name) => (name === file ? ok(text) : files.read(name)),
  });
  if (after.status === 'refused')
    return refused(`"${file}" was left as it is, because with the new entry it could not be read:`, ...after.messages);
  return ok(text);
}

/** The text with a piece at a path, in place of what stood there or in addition. */
export function placed(text: string, keys: readonly string[], piece: Piece): string {
  const document = parseDocument(text);
  if (!isMap(document.contents))
    return `${text.replace(/\n*$/, '\n\n')}${yamlText(atPath(keys.join('.'), piece), 9)}\n`;
  let parent: YAMLMap = document.contents;
  for (const [depth, key] of keys.entries()) {
    const pair = parent.items.find((item) => isScalar(item.key) && item.key.value === key) as Pair | undefined;
    const rest = keys.slice(depth + 1);
    if (pair === undefined) return inserted(text, parent, key, rest, piece);
    if (rest.length === 0 || !isMap(pair.value)) return replaced(text, parent, pair, wrapped(rest, piece), rest.length);
    parent = pair.value;
  }
  return text;
}

function wrapped(keys: readonly string[], piece: Piece): Piece {
  return keys.length === 0 ? piece : atPath(keys.join('.'), piece);
}

/** New value of a pair. What stood there goes, but for its comments, which move above the new lines. */
function replaced(text: string, parent: YAMLMap, pair: Pair, piece: Piece, depth: number): string {
  const { value, key } = pair;
  const keyEnd = rangeOf(key)[1];
  const colon = text.indexOf(':', keyEnd) + 1;
  const [start, end] =
    value === null || rangeOf(value)[0] < colon ? [colon, colon] : [rangeOf(value)[0], lastEnd(value)];
  if (parent.flow === true) return `${text.slice(0, start).trimEnd()} ${inBraces(piece)}${text.slice(end)}`;
  const indent = ' '.repeat(columnOf(text, rangeOf(key)[0]) + 2);
  const kept = commentsIn(value).map((comment) => `#${comment}`);
  const lines = [...kept, ...yamlText(piece, depth + blockLevels(innermost(piece, depth))).split('\n')];
  const block = lines.map((line) => `${indent}${line}`).join('\n');
  const head = text.slice(0, start);
  const onOwnLine = head.slice(head.lastIndexOf('\n') + 1).trim() === '';
  const before = onOwnLine ? head.slice(0, head.lastIndexOf('\n') + 1) : `${head.trimEnd()}\n`;
  if (onOwnLine) return before + block + text.slice(end);
  // A comment behind a value on the key's own line stays beside the key.
  const lineEnd = endOfLine(text, end);
  const comment = text.slice(end, lineEnd);
  return `${before.trimEnd()}${comment.trim() === '' ? '' : ` ${comment.trim()}`}\n${block}${text.slice(lineEnd)}`;
}

/** A new pair at the end of its section. */
function inserted(text: string, parent: YAMLMap, key: string, rest: readonly string[], piece: Piece): string {
  const whole = { [key]: wrapped(rest, piece) };
  if (parent.flow === true) {
    const end = rangeOf(parent)[1] - 1;
    const inner = inBraces(whole).slice(1, -1).trim();
    const empty = parent.items.length === 0;
    return `${text.slice(0, end).trimEnd()}${empty ? ' ' : ', '}${inner} ${text.slice(end)}`;
  }
  const last = parent.items.at(-1);
  const column = columnOf(text, rangeOf(last?.key)[0]);
  const at = endOfLine(text, last?.value === null || last === undefined ? rangeOf(last?.key)[1] : lastEnd(last.value));
  const block = yamlText(whole, rest.length + 1 + blockLevels(piece))
    .split('\n')
    .map((line) => `${' '.repeat(column)}${line}`)
    .join('\n');
  const gap = column === 0 ? '\n\n' : '\n';
  return `${text.slice(0, at)}${gap}${block}${text.slice(at) || '\n'}`;
}

function innermost(piece: Piece, depth: number): Piece {
  return depth === 0 ? piece : innermost(Object.values(piece)[0] as Piece, depth - 1);
}

function inBraces(piece: Piece): string {
  return yamlText(piece, 0);
}

function rangeOf(node: unknown): readonly [number, number] {
  const range = isScalar(node) || isCollection(node) || isAlias(node) ? node.range : null;
  if (range === null || range === undefined) throw new Error('a node of a parsed file has no place');
  return [range[0], range[1]];
}

/** Where the last value inside a node ends: a block map's own range may take in comments that follow it. */
function lastEnd(node: unknown): number {
  if (isCollection(node) && node.flow !== true && node.items.length > 0) {
    const last = node.items.at(-1);
    if (isPair(last)) return last.value === null ? rangeOf(last.key)[1] : lastEnd(last.value);
    return lastEnd(last);
  }
  return rangeOf(node)[1];
}

function columnOf(text: string, offset: number): number {
  return offset - (text.lastIndexOf('\n', offset - 1) + 1);
}

/** Where the line ends in which a value ends; a folded text's range goes on to the next line. */
function endOfLine(text: string, offset: number): number {
  if (text[offset - 1] === '\n') return offset - 1;
  const end = text.indexOf('\n', offset);
  return end === -1 ? text.length : end;
}

/** Comments inside a value, apart from the comment on the key's line, which stays where it is. */
function commentsIn(value: unknown): readonly string[] {
  const kept: string[] = [];
  if (!isCollection(value)) return kept;
  const add = (comment: string | null | undefined) =>
    kept.push(...(comment ?? '').split('\n').filter((line) => line !== ''));
  visit(value, (_key, node) => {
    if (node === value || (!isScalar(node) && !isCollection(node))) return;
    add(node.commentBefore);
    add(node.comment);
  });
  return kept;
}
