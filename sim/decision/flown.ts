import type { SetName } from '../draws/draw.js';
import type { ColumnName, FlightColumns } from '../flight/record.js';
import { firstFlights } from '../study/columns.js';
import type { Detail, Flyer } from '../study/flyer.js';

/** A store of flights flown, which flies what is missing and nothing twice. */
export interface Flown {
  /** The first `flights` flights of the set at each height, in the order of `heights`; fewer after a stop. */
  at(set: SetName, heights: readonly number[], flights: number): Promise<readonly FlightColumns[]>;
  /** Everything flown of a set so far, by height ascending. */
  all(set: SetName): readonly FlightColumns[];
  /** Hands in flights flown elsewhere: the first ones of the set at that height. */
  put(set: SetName, columns: FlightColumns): void;
}

/** Flight ids `from` to `to` - 1. */
export function idsBetween(from: number, to: number): Uint32Array {
  return Uint32Array.from({ length: Math.max(0, to - from) }, (_, index) => from + index);
}

/**
 * Keeps the flights that a flyer has flown, so that a height flown with more flights later only adds to its prefix.
 * Heights that lack the same flights are flown together, because they share the fall.
 */
export function remember(flyer: Flyer, detail: Detail, onFlown?: (flights: number) => void, stop?: AbortSignal): Flown {
  const store = new Map<SetName, Map<number, FlightColumns>>();
  const ofSet = (set: SetName): Map<number, FlightColumns> => {
    const found = store.get(set) ?? new Map<number, FlightColumns>();
    store.set(set, found);
    return found;
  };
  const upTo = (columns: FlightColumns, flights: number): FlightColumns =>
    firstFlights(columns, Math.min(flights, columns.outcome.length));
  return {
    async at(set, heights, flights) {
      const known = ofSet(set);
      const lacking = new Map<number, Set<number>>();
      for (const height of heights) {
        const have = known.get(height)?.outcome.length ?? 0;
        if (have < flights) lacking.set(have, (lacking.get(have) ?? new Set()).add(height));
      }
      for (const [have, group] of lacking) {
        const batch = { set, ids: idsBetween(have, flights), heights: [...group], detail };
        for (const columns of await flyer.fly(batch, onFlown, stop)) {
          const before = known.get(columns.height);
          known.set(columns.height, before === undefined ? columns : joined([before, columns]));
        }
      }
      return heights.map((height) => upTo(known.get(height) as FlightColumns, flights));
    },
    all: (set) => [...ofSet(set).values()].sort((a, b) => a.height - b.height),
    put: (set, columns) => void ofSet(set).set(columns.height, columns),
  };
}

/** Consecutive stretches of one set at one height as one; a column that one of them lacks is dropped. */
export function joined(parts: readonly FlightColumns[]): FlightColumns {
  const size = parts.reduce((sum, part) => sum + part.outcome.length, 0);
  const outcome = new Uint8Array(size);
  const cause = new Uint8Array(size);
  const names = (Object.keys(parts[0].columns) as ColumnName[]).filter((name) =>
    parts.every(({ columns }) => columns[name] !== undefined),
  );
  const columns = Object.fromEntries(names.map((name) => [name, new Float32Array(size)]));
  let start = 0;
  for (const part of parts) {
    outcome.set(part.outcome, start);
    cause.set(part.cause, start);
    for (const name of names) columns[name].set(part.columns[name] as Float32Array, start);
    start += part.outcome.length;
  }
  return { height: parts[0].height, outcome, cause, columns };
}
