/** A flyer with a logbook answers from what is known and flies only what is missing. */
import type { FlightColumns } from '../flight/record.js';
import { emptyColumns, idsBetween } from './columns.js';
import { type Batch, detailAt, type Flyer } from './flyer.js';
import { createLogbook, inMemory, type Logbook, type Place, type Range } from './logbook.js';

export interface KeepingFlyer extends Flyer {
  readonly logbook: Logbook;
}

/** Flights at one height between two pauses: seconds of flying, and many blocks for many threads. */
const STRIDE = 65_536;
const LEAST_STRIDE = 4096;

/**
 * @param pause called between strides and after a stop, when everything flown so far stands in the logbook
 */
export function keepFlights(
  flyer: Flyer,
  logbook: Logbook = createLogbook(),
  pause: () => Promise<void> = async () => {},
): KeepingFlyer {
  type OnFlown = ((flights: number) => void) | undefined;

  /** Flies ids at some heights of the batch, stride by stride; false when stopped. */
  async function flyMissing(batch: Batch, { from, to }: Range, onFlown: OnFlown, stop?: AbortSignal): Promise<boolean> {
    const stride = Math.max(LEAST_STRIDE, Math.floor(STRIDE / batch.heights.length));
    if (to - from > stride) {
      batch.heights.forEach((height, index) => {
        logbook.reserve(placeOf(batch, height), detailAt(batch, index), { from, to });
      });
    }
    for (let start = from; start < to; start += stride) {
      if (stop?.aborted) return false;
      const ids = idsBetween(start, Math.min(to, start + stride));
      const flown = await flyer.fly({ ...batch, ids }, onFlown, stop);
      flown.forEach((columns, index) => {
        const place = placeOf(batch, batch.heights[index]);
        const entry = { ...place, detail: detailAt(batch, index), ids: { from: start }, source: inMemory(columns) };
        if (columns.outcome.length > 0) logbook.enter(entry);
      });
      await pause();
      if (flown.some(({ outcome }) => outcome.length < ids.length)) return false;
    }
    return true;
  }

  /** Heights that lack the same flights are flown together, because they share the fall. */
  async function flyRange(batch: Batch, onFlown: OnFlown, stop?: AbortSignal): Promise<readonly FlightColumns[]> {
    const range = { from: batch.ids[0], to: batch.ids[0] + batch.ids.length };
    const groups = new Map<string, { readonly gaps: readonly Range[]; readonly indices: number[] }>();
    batch.heights.forEach((height, index) => {
      const gaps = logbook.missing(placeOf(batch, height), detailAt(batch, index), range);
      const key = JSON.stringify(gaps);
      const group = groups.get(key) ?? { gaps, indices: [] };
      group.indices.push(index);
      groups.set(key, group);
    });
    const flying = [...groups.values()].flatMap(({ gaps, indices }) => gaps.map((gap) => ({ gap, indices })));
    for (const { gap, indices } of flying) {
      const some = {
        ...batch,
        heights: indices.map((index) => batch.heights[index]),
        detail: indices.map((index) => detailAt(batch, index)),
      };
      if (!(await flyMissing(some, gap, onFlown, stop))) break;
    }
    return batch.heights.map((height, index) => logbook.take(placeOf(batch, height), detailAt(batch, index), range));
  }

  async function flyList(batch: Batch, index: number, onFlown: OnFlown, stop?: AbortSignal): Promise<FlightColumns> {
    const [height, detail] = [batch.heights[index], detailAt(batch, index)];
    const place = placeOf(batch, height);
    const known = logbook.takeList(place, detail, batch.ids);
    const left = batch.ids.subarray(known.outcome.length);
    if (left.length === 0 || stop?.aborted) return known;
    const [more] = await flyer.fly({ ...batch, ids: left, heights: [height], detail }, onFlown, stop);
    if (more.outcome.length > 0) logbook.enter({ ...place, detail, ids: batch.ids, source: inMemory(more) });
    await pause();
    return logbook.takeList(place, detail, batch.ids);
  }

  return {
    logbook,
    async fly(batch, onFlown, stop) {
      if (batch.ids.length === 0) return emptyColumns(batch, 0);
      if (isRange(batch.ids)) return flyRange(batch, onFlown, stop);
      const flown: FlightColumns[] = [];
      for (const index of batch.heights.keys()) flown.push(await flyList(batch, index, onFlown, stop));
      return flown;
    },
    close: flyer.close,
  };
}

/** The flyer itself where it keeps a logbook, else a flyer that keeps its flights in a new logbook. */
export function keeping(flyer: Flyer): KeepingFlyer {
  return 'logbook' in flyer ? (flyer as KeepingFlyer) : keepFlights(flyer);
}

function placeOf({ set, changes }: Batch, height: number): Place {
  return { set, height, changes: changes ?? [] };
}

function isRange(ids: Uint32Array): boolean {
  return ids[ids.length - 1] - ids[0] === ids.length - 1;
}
