/**
 * The file of a part or of an unfinished study. One line of JSON says what it is and lists its flights, entry by entry;
 * then the entries' columns, binary, lowest byte first: ids where they are a list (4 bytes each), outcomes and causes
 * (1 byte), numbers (4 bytes); at the end the SHA-256 of all before. A column of an entry can be read by itself.
 */
import { createHash } from 'node:crypto';
import { type Answer, ok, refused } from '../../basics/answer.js';
import { DETAILS, type Detail } from '../../ensemble/flyer.js';
import type { Entry, Place, Source } from '../../ensemble/logbook.js';
import { littleEndianBytes, numbersFrom } from '../../ensemble/raw-columns.js';
import type { ColumnName, FlightColumns } from '../../flight/record.js';
import type { Part } from './part.js';

/** Goes up when the form of the file changes. */
export const PART_FORMAT = 1;
const KIND = 'part';
/** How every part file begins. */
export const PART_MARK = `{"kind":"${KIND}","format":`;
const DIGEST = 32;
const NEWLINE = 10;
const PIECE = 2 ** 20;
/** A head has a scenario and some hundred entries; what is longer is none. */
const LONGEST_HEAD = 2 ** 26;

interface ListedEntry extends Place {
  readonly detail: Detail;
  readonly columns: readonly ColumnName[];
  readonly flights: number;
  /** Number of the first flight, or how many ids the list has; of a list its first flights are held. */
  readonly ids: { readonly from: number } | { readonly list: number };
}

interface Head extends Part {
  readonly kind: typeof KIND;
  readonly format: number;
  readonly entries: readonly ListedEntry[];
}

/** A file to read from, wherever it is. */
export interface Bytes {
  readonly size: number;
  read(start: number, length: number): Uint8Array;
}

export interface ReadPart {
  readonly part: Part;
  readonly entries: readonly Entry[];
}

/** The file in pieces. An entry's flights are looked at when its piece is due, so that one entry at a time is in memory. */
export function* partFile(part: Part, entries: readonly Entry[]): Generator<Uint8Array> {
  const hash = createHash('sha256');
  for (const piece of contentOf(part, entries)) {
    hash.update(piece);
    yield piece;
  }
  yield hash.digest();
}

function* contentOf({ versions, part, whole, name, options, scenario }: Part, entries: readonly Entry[]) {
  const listed = entries.map(({ set, height, changes, detail, ids, source }): ListedEntry => {
    const columns = Object.keys(source.load().columns) as ColumnName[];
    const which = ids instanceof Uint32Array ? { list: ids.length } : { from: ids.from };
    return { set, height, changes, detail, columns, flights: source.flights, ids: which };
  });
  const head: Head = {
    kind: KIND,
    format: PART_FORMAT,
    versions,
    part,
    whole,
    name,
    options,
    scenario,
    entries: listed,
  };
  yield Buffer.from(`${JSON.stringify(head)}\n`);
  for (const { ids, source } of entries) {
    const { outcome, cause, columns } = source.load();
    if (ids instanceof Uint32Array) yield littleEndianBytes(ids);
    yield outcome;
    yield cause;
    for (const values of Object.values(columns)) yield littleEndianBytes(values);
  }
}

/** Reads the head and checks the whole file; flights are read when they are asked for. */
export function readPart(file: Bytes): Answer<ReadPart> {
  if (file.size === 0) return refused('the file is empty.');
  const start = Buffer.from(file.read(0, Math.min(file.size, PART_MARK.length))).toString();
  if (!PART_MARK.startsWith(start) && start !== PART_MARK)
    return refused('the file is no part of a study; give files that assess --part or an interrupted assess wrote.');
  const line = headLine(file);
  if (line === null) return refused(cutOff(file.size));
  const head = parsed(line);
  if (head === null) return refused(DAMAGED);
  if (head.format !== PART_FORMAT) {
    const writer = head.versions?.program ?? 'unknown';
    return refused(`the file has form ${head.format} (version ${writer}), but this version reads form ${PART_FORMAT}.`);
  }
  const starts = startsOf(head, line.length + 1);
  if (starts === null) return refused(DAMAGED);
  const end = starts[starts.length - 1];
  if (file.size < end + DIGEST) return refused(cutOff(file.size, end + DIGEST));
  if (file.size > end + DIGEST || !isIntact(file, end)) return refused(DAMAGED);
  const entries = head.entries.map((entry, index) => entryOf(file, entry, starts[index]));
  const { versions, part, whole, name, options, scenario } = head;
  return ok({ part: { versions, part, whole, name, options, scenario }, entries });
}

const DAMAGED = 'the file is damaged: its bytes are not those that were written. Fly it again.';

function cutOff(size: number, of?: number): string {
  return `the file was cut off${of === undefined ? '' : `: ${size} of ${of} bytes are there`}. Copy it again or fly it again.`;
}

/** The bytes before the first line's end; null where there is none. */
function headLine(file: Bytes): Buffer | null {
  const pieces: Uint8Array[] = [];
  for (let start = 0; start < Math.min(file.size, LONGEST_HEAD); start += PIECE) {
    const piece = file.read(start, Math.min(PIECE, file.size - start));
    const end = piece.indexOf(NEWLINE);
    pieces.push(end === -1 ? piece : piece.subarray(0, end));
    if (end !== -1) return Buffer.concat(pieces);
  }
  return null;
}

function parsed(line: Buffer): Head | null {
  try {
    return JSON.parse(line.toString('utf8')) as Head;
  } catch {
    return null;
  }
}

/** Where each entry starts, and where the last one ends; null where the list makes no sense. */
function startsOf({ entries }: Head, first: number): readonly number[] | null {
  if (!Array.isArray(entries)) return null;
  const starts = [first];
  for (const { flights, columns, detail, ids } of entries) {
    const isSound =
      Number.isInteger(flights) && flights >= 0 && Array.isArray(columns) && DETAILS.includes(detail) && ids;
    if (!isSound) return null;
    const list = 'list' in ids ? ids.list : 0;
    starts.push(starts[starts.length - 1] + 4 * list + flights * (2 + 4 * columns.length));
  }
  return starts;
}

function isIntact(file: Bytes, end: number): boolean {
  const hash = createHash('sha256');
  for (let start = 0; start < end; start += PIECE) hash.update(file.read(start, Math.min(PIECE, end - start)));
  return hash.digest().equals(file.read(end, DIGEST));
}

function entryOf(file: Bytes, listed: ListedEntry, start: number): Entry {
  const { set, height, changes, detail, flights, columns: names } = listed;
  const list = 'list' in listed.ids ? listed.ids.list : 0;
  const first = start + 4 * list;
  const load = (): FlightColumns => {
    const columns = names.map((name, index) => {
      const at = first + flights * (2 + 4 * index);
      return [name, numbersFrom(file.read(at, 4 * flights))];
    });
    return {
      height,
      outcome: Uint8Array.from(file.read(first, flights)),
      cause: Uint8Array.from(file.read(first + flights, flights)),
      columns: Object.fromEntries(columns),
    };
  };
  const source: Source = { flights, load };
  const ids = 'list' in listed.ids ? idsFrom(file.read(start, 4 * list)) : listed.ids;
  return { set, height, changes, detail, ids, source };
}

function idsFrom(bytes: Uint8Array): Uint32Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return Uint32Array.from({ length: bytes.length / 4 }, (_, index) => view.getUint32(4 * index, true));
}
