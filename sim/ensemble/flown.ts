/** A store of flights flies what is missing and nothing twice. */
import type { SetName } from '../draws/draw.js';
import type { FlightColumns } from '../flight/record.js';
import { idsBetween, viewOf } from './columns.js';
import type { Detail, Flyer } from './flyer.js';
import { keeping } from './keep-flights.js';
import { inMemory } from './logbook.js';

export interface Flown {
  /** The first `flights` flights of the set at each height, in the order of `heights`; fewer after a stop. */
  at(set: SetName, heights: readonly number[], flights: number): Promise<readonly FlightColumns[]>;
  /** Everything that was asked of a set so far, by height ascending. */
  all(set: SetName): readonly FlightColumns[];
  /** Hands in flights flown elsewhere: the first flights of the set at that height. */
  put(set: SetName, columns: FlightColumns): void;
}

/** What is kept of each flight: the same in all sets, or by set. */
export type DetailOf = Detail | ((set: SetName) => Detail);

/**
 * Keeps the flights that a flyer has flown, so that a height flown with more flights later only adds to its prefix.
 * Heights that lack the same flights are flown together, because they share the fall. What a flyer with a logbook
 * already knows is not flown, and does not count as asked before it is.
 */
export function remember(
  flyer: Flyer,
  detail: DetailOf,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Flown {
  const flying = keeping(flyer);
  const detailOf = typeof detail === 'string' ? () => detail : detail;
  const asked = new Map<SetName, Map<number, FlightColumns>>();
  const ofSet = (set: SetName): Map<number, FlightColumns> => {
    const found = asked.get(set) ?? new Map<number, FlightColumns>();
    asked.set(set, found);
    return found;
  };
  const flightsAt = (set: SetName, height: number): number => ofSet(set).get(height)?.outcome.length ?? 0;
  return {
    async at(set, heights, flights) {
      const known = ofSet(set);
      const lacking = [...new Set(heights.filter((height) => flightsAt(set, height) < flights))];
      if (lacking.length > 0) {
        const batch = { set, ids: idsBetween(0, flights), heights: lacking, detail: detailOf(set) };
        for (const columns of await flying.fly(batch, onFlown, stop)) known.set(columns.height, columns);
      }
      return heights.map((height) => {
        const columns = known.get(height) as FlightColumns;
        return columns.outcome.length > flights ? viewOf(columns, 0, flights) : columns;
      });
    },
    all: (set) => [...ofSet(set).values()].sort((a, b) => a.height - b.height),
    put(set, columns) {
      ofSet(set).set(columns.height, columns);
      const { logbook } = flying;
      const place = { set, height: columns.height, changes: [] };
      if (logbook.missing(place, detailOf(set), { from: 0, to: columns.outcome.length }).length > 0)
        logbook.enter({ ...place, detail: detailOf(set), ids: { from: 0 }, source: inMemory(columns) });
    },
  };
}
