/**
 * A logbook holds the flights of a study that are known: flown here, or read from the file of a part or of an unfinished
 * study. A flight has a single truth, whoever flew it, so a logbook only grows.
 */
import type { Change, SetName } from '../draws/draw.js';
import type { ColumnName, FlightColumns } from '../flight/record.js';
import { emptyColumns, joined, placeColumns, viewOf } from './columns.js';
import { columnsKept, type Detail, tells } from './flyer.js';

/** What flights of one number share: on what draws and from what height they are flown. */
export interface Place {
  readonly set: SetName;
  readonly height: number;
  readonly changes: readonly Change[];
}

export interface Range {
  readonly from: number;
  readonly to: number;
}

/** Flights that may still lie in a file: read whenever they are asked for. */
export interface Source {
  readonly flights: number;
  load(): FlightColumns;
}

/** What the logbook holds, as its file lists it: flights `from` on, or the first flights of a list of ids. */
export interface Entry extends Place {
  readonly detail: Detail;
  readonly ids: { readonly from: number } | Uint32Array;
  readonly source: Source;
}

export interface Logbook {
  /** Enters what was flown; false where it contradicts what is known of the same flights. */
  enter(entry: Entry): boolean;
  /** Makes room for flights to come, so that they are not copied together later. */
  reserve(place: Place, detail: Detail, range: Range): void;
  /** What of a range is not known in that detail, ascending. */
  missing(place: Place, detail: Detail, range: Range): readonly Range[];
  /** The known flights of a range, up to the first that is not known. */
  take(place: Place, detail: Detail, range: Range): FlightColumns;
  /** The known flights of a list, up to the first that is not known. */
  takeList(place: Place, detail: Detail, ids: Uint32Array): FlightColumns;
  entries(): readonly Entry[];
}

/** Consecutive flights, and `room` for flights to come. */
interface Stretch {
  from: number;
  source: Source;
  room: FlightColumns | null;
}

interface Shelf {
  readonly place: Place;
  readonly detail: Detail;
  /** Ascending and apart. */
  stretches: Stretch[];
  /** Flights of lists of ids, each list by its text. */
  readonly lists: Map<string, { readonly ids: Uint32Array; flown: FlightColumns }>;
}

export function createLogbook(): Logbook {
  const places = new Map<string, Map<Detail, Shelf>>();

  const shelvesOf = ({ set, height, changes }: Place): Map<Detail, Shelf> => {
    const key = JSON.stringify([set, height, changes.map(({ path, quantile }) => [path, quantile])]);
    const found = places.get(key) ?? new Map<Detail, Shelf>();
    places.set(key, found);
    return found;
  };
  const shelfOf = ({ set, height, changes }: Place, detail: Detail): Shelf => {
    const shelves = shelvesOf({ set, height, changes });
    const found = shelves.get(detail) ?? {
      place: { set, height, changes },
      detail,
      stretches: [],
      lists: new Map(),
    };
    shelves.set(detail, found);
    return found;
  };
  /** Shelves that tell what is asked, the shelf of that very detail first. */
  const telling = (place: Place, asked: Detail): readonly Shelf[] =>
    [...shelvesOf(place).values()]
      .filter(({ detail }) => tells(detail, asked))
      .sort((one, other) => Number(other.detail === asked) - Number(one.detail === asked));

  return {
    enter(entry) {
      const shelf = shelfOf(entry, entry.detail);
      return entry.ids instanceof Uint32Array
        ? enterList(shelf, entry.ids, entry.source.load())
        : enterStretch(shelf, entry.ids.from, entry.source);
    },
    reserve(place, detail, { from, to }) {
      const shelf = shelfOf(place, detail);
      const batch = { set: place.set, ids: new Uint32Array(0), heights: [place.height], detail };
      const [room] = emptyColumns(batch, to - from);
      insert(shelf, { from, source: inMemory(viewOf(room, 0, 0)), room });
    },
    missing(place, detail, { from, to }) {
      const gaps: Range[] = [];
      const known = telling(place, detail).flatMap(({ stretches }) => stretches);
      for (let at = from; at < to; ) {
        const end = endOfKnown(known, at);
        if (end > at) at = end;
        else {
          const next = Math.min(to, ...known.map((one) => one.from).filter((start) => start > at));
          gaps.push({ from: at, to: next });
          at = next;
        }
      }
      return gaps;
    },
    take(place, detail, { from, to }) {
      const pieces: { readonly shelf: Shelf; readonly stretch: Stretch; readonly at: Range }[] = [];
      for (let at = from; at < to; ) {
        const [found] = telling(place, detail).flatMap((shelf) => {
          const stretch = shelf.stretches.find((one) => one.from <= at && endOf(one) > at);
          return stretch ? [{ shelf, stretch }] : [];
        });
        if (found === undefined) break;
        const end = Math.min(to, endOf(found.stretch));
        pieces.push({ ...found, at: { from: at, to: end } });
        at = end;
      }
      const names = columnsKept(detail);
      if (pieces.length === 0) return noFlights(place, detail);
      const cut = ({ stretch, at }: (typeof pieces)[number]) =>
        viewOf(stretch.source.load(), at.from - stretch.from, at.to - stretch.from, names);
      const [{ shelf }] = pieces;
      if (pieces.some((piece) => piece.shelf !== shelf)) return joined(pieces.map(cut));
      if (pieces.length > 1) join(shelf, new Set(pieces.map(({ stretch }) => stretch)));
      const whole = shelf.stretches.find((one) => one.from <= from && endOf(one) > from) as Stretch;
      keep(whole);
      return cut({ shelf, stretch: whole, at: { from, to: pieces[pieces.length - 1].at.to } });
    },
    takeList(place, detail, ids) {
      const exact = shelvesOf(place).get(detail)?.lists.get(textOf(ids))?.flown;
      if (exact) return exact;
      const [first, last] = [ids[0], ids[ids.length - 1]];
      const within = telling(place, detail)
        .flatMap(({ stretches }) => stretches)
        .find((one) => one.from <= first && endOf(one) > last);
      if (within === undefined) return noFlights(place, detail);
      keep(within);
      return picked(viewOf(within.source.load(), 0, within.source.flights, columnsKept(detail)), ids, within.from);
    },
    entries() {
      return [...places.values()].flatMap((shelves) =>
        [...shelves.values()].flatMap(({ place, detail, stretches, lists }) => [
          ...stretches
            .filter(({ source }) => source.flights > 0)
            .map(({ from, source }): Entry => ({ ...place, detail, ids: { from }, source })),
          ...[...lists.values()].map(({ ids, flown }): Entry => ({ ...place, detail, ids, source: inMemory(flown) })),
        ]),
      );
    },
  };
}

export function inMemory(columns: FlightColumns): Source {
  return { flights: columns.outcome.length, load: () => columns };
}

function endOf({ from, source }: Stretch): number {
  return from + source.flights;
}

/** End of the known flights from `at` on; `at` itself where that flight is not known. */
function endOfKnown(known: readonly Stretch[], at: number): number {
  return Math.max(at, ...known.filter((one) => one.from <= at && endOf(one) > at).map(endOf));
}

function insert(shelf: Shelf, stretch: Stretch): void {
  shelf.stretches.push(stretch);
  shelf.stretches.sort((one, other) => one.from - other.from);
}

/** Enters the flights that the shelf lacks, and holds the others against what it has. */
function enterStretch(shelf: Shelf, from: number, source: Source): boolean {
  const to = from + source.flights;
  const growing = shelf.stretches.find((one) => one.room !== null && endOf(one) === from);
  if (growing?.room && fits(growing.room, from - growing.from, source)) {
    placeColumns([growing.room], from - growing.from, [source.load()]);
    growing.source = inMemory(viewOf(growing.room, 0, to - growing.from));
    return true;
  }
  let agree = true;
  let at = from;
  for (const stretch of shelf.stretches.filter((one) => one.from < to && endOf(one) > from)) {
    if (stretch.from > at) insert(shelf, cutOf(source, from, at, stretch.from));
    const [start, end] = [Math.max(from, stretch.from), Math.min(to, endOf(stretch))];
    agree &&= areSame(
      viewOf(source.load(), start - from, end - from),
      viewOf(stretch.source.load(), start - stretch.from, end - stretch.from),
    );
    at = end;
  }
  if (at < to) insert(shelf, cutOf(source, from, at, to));
  return agree;
}

function fits(room: FlightColumns, start: number, source: Source): boolean {
  if (start + source.flights > room.outcome.length) return false;
  return Object.keys(room.columns).join() === Object.keys(source.load().columns).join();
}

function cutOf(source: Source, first: number, from: number, to: number): Stretch {
  if (from === first && to === first + source.flights) return { from, source, room: null };
  const load = () => viewOf(source.load(), from - first, to - first);
  return { from, source: { flights: to - from, load }, room: null };
}

function enterList({ lists }: Shelf, ids: Uint32Array, flown: FlightColumns): boolean {
  const key = textOf(ids);
  const known = lists.get(key);
  if (known === undefined) lists.set(key, { ids, flown });
  else known.flown = joined([known.flown, flown]);
  return true;
}

/** Joins the stretches, in their order, to a single stretch; each is let go as it is copied. */
function join(shelf: Shelf, stretches: ReadonlySet<Stretch>): void {
  const parts = [...stretches];
  const flights = parts.reduce((sum, { source }) => sum + source.flights, 0);
  const { place, detail } = shelf;
  const [room] = emptyColumns({ set: place.set, ids: new Uint32Array(0), heights: [place.height], detail }, flights);
  const [first] = parts;
  const kept = new Set(Object.keys(room.columns) as ColumnName[]);
  let start = 0;
  for (const stretch of parts) {
    const columns = stretch.source.load();
    placeColumns([room], start, [columns]);
    for (const name of kept) if (columns.columns[name] === undefined) kept.delete(name);
    start += stretch.source.flights;
  }
  const names = columnsKept(detail).filter((name) => kept.has(name));
  const whole: Stretch = { from: first.from, source: inMemory(viewOf(room, 0, flights, names)), room: null };
  shelf.stretches = shelf.stretches.filter((one) => !stretches.has(one));
  insert(shelf, whole);
}

/** Holds what was read, so that it is not read again at the next question. */
function keep(stretch: Stretch): void {
  stretch.source = inMemory(stretch.source.load());
}

function noFlights({ set, height }: Place, detail: Detail): FlightColumns {
  return emptyColumns({ set, ids: new Uint32Array(0), heights: [height], detail }, 0)[0];
}

function picked(all: FlightColumns, ids: Uint32Array, first: number): FlightColumns {
  const columns = Object.entries(all.columns).map(([name, values]) => [
    name,
    Float32Array.from(ids, (id) => values[id - first]),
  ]);
  return {
    height: all.height,
    outcome: Uint8Array.from(ids, (id) => all.outcome[id - first]),
    cause: Uint8Array.from(ids, (id) => all.cause[id - first]),
    columns: Object.fromEntries(columns),
  };
}

function areSame(one: FlightColumns, other: FlightColumns): boolean {
  const bytes = ({ buffer, byteOffset, byteLength }: ArrayBufferView) => Buffer.from(buffer, byteOffset, byteLength);
  const names = Object.keys(one.columns) as ColumnName[];
  return (
    bytes(one.outcome).equals(bytes(other.outcome)) &&
    bytes(one.cause).equals(bytes(other.cause)) &&
    names.every((name) => {
      const [a, b] = [one.columns[name], other.columns[name]];
      return a !== undefined && b !== undefined && bytes(a).equals(bytes(b));
    })
  );
}

/** A list of ids as a key. */
function textOf(ids: Uint32Array): string {
  return Buffer.from(ids.buffer, ids.byteOffset, ids.byteLength).toString('base64');
}
