import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { idsBetween, viewOf } from '../../sim/ensemble/columns.js';
import { type Batch, columnsKept, DETAILS, type Detail, detailAt, type Flyer } from '../../sim/ensemble/flyer.js';
import { keepFlights } from '../../sim/ensemble/keep-flights.js';
import { createLogbook, inMemory } from '../../sim/ensemble/logbook.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { fakeMaker } from './fake-maker.js';

const plain = () => createSerialFlyer(fakeMaker((height) => height / 10).maker);

/** A flyer that tells which flights it flew. */
function told(flyer: Flyer) {
  const flown: string[] = [];
  const telling: Flyer = {
    fly(batch, onFlown, stop) {
      batch.heights.forEach((height, index) => {
        for (const id of batch.ids)
          flown.push([batch.set, height, id, JSON.stringify(batch.changes ?? []), detailAt(batch, index)].join());
      });
      return flyer.fly(batch, onFlown, stop);
    },
    close: flyer.close,
  };
  return { flyer: telling, flown };
}

const detail = fc.constantFrom<Detail>(...DETAILS);
const ids = fc.oneof(
  fc.tuple(fc.nat(60), fc.nat(60)).map(([from, count]) => idsBetween(from, from + count)),
  fc.uniqueArray(fc.nat(90), { minLength: 1, maxLength: 20 }).map((list) => Uint32Array.from(list).sort()),
);
const batch: fc.Arbitrary<Batch> = fc
  .record({
    set: fc.constantFrom('explore' as const, 'confirm' as const),
    ids,
    heights: fc.uniqueArray(fc.constantFrom(100, 200, 300), { minLength: 1 }),
    held: fc.boolean(),
  })
  .chain(({ held, ...rest }) =>
    fc.array(detail, { minLength: rest.heights.length, maxLength: rest.heights.length }).map((details) => ({
      ...rest,
      detail: details,
      ...(held ? { changes: [{ path: 'wind.speed', quantile: 0.9 }] } : {}),
    })),
  );

/** Causes count only where they were asked for. */
function asAsked(flown: readonly FlightColumns[], { detail: details }: Batch) {
  return flown.map((columns, index) => ({ ...columns, cause: /causes/.test(details[index]) ? columns.cause : null }));
}

describe('a flyer that keeps a logbook', () => {
  it('gives for any batches in any order what the plain flyer gives', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(batch, { maxLength: 8 }), async (batches) => {
        const keeping = keepFlights(plain());
        for (const one of batches)
          expect(asAsked(await keeping.fly(one), one)).toEqual(asAsked(await plain().fly(one), one));
      }),
      { numRuns: 60 },
    );
  });

  it('flies nothing twice in the same detail, and a batch asked again not at all', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(batch, { maxLength: 8 }), async (batches) => {
        const { flyer, flown } = told(plain());
        const ranges = batches.filter((one) => one.ids.length === 0 || isRange(one.ids));
        const keeping = keepFlights(flyer);
        for (const one of ranges) await keeping.fly(one);
        expect(new Set(flown).size).toBe(flown.length);
        const before = flown.length;
        for (const one of batches) await keeping.fly(one);
        const after = flown.length;
        for (const one of batches) await keeping.fly(one);
        expect(flown.length).toBe(after);
        expect(after).toBeGreaterThanOrEqual(before);
      }),
      { numRuns: 60 },
    );
  });

  it('goes on, after a stop at any flight, with the flights that are missing', async () => {
    for (const after of [0, 16, 40, 80]) {
      const { flyer, flown } = told(plain());
      const keeping = keepFlights(flyer);
      const asked = { set: 'explore', ids: idsBetween(0, 100), heights: [100, 300], detail: 'full' } as const;
      const stop = new AbortController();
      let heard = 0;
      const hear = (flights: number) => {
        heard += flights;
        if (heard >= after) stop.abort();
      };
      if (after === 0) stop.abort();
      const first = await keeping.fly(asked, hear, stop.signal);
      const kept = first[0].outcome.length;
      expect(kept).toBeGreaterThanOrEqual(after);
      flown.length = 0;
      expect(await keeping.fly(asked)).toEqual(await plain().fly(asked));
      expect(flown).toHaveLength(2 * (100 - kept));
    }
  });

  it('flies many flights in strides, with a pause after each, to the same columns', async () => {
    const serial = plain();
    const strides: number[] = [];
    const counting: Flyer = {
      ...serial,
      fly(one) {
        strides.push(one.ids.length);
        return serial.fly(one);
      },
    };
    const heights = Array.from({ length: 16 }, (_, index) => 100 + index);
    const asked = { set: 'explore', ids: idsBetween(0, 4200), heights, detail: 'outcomes' } as const;
    const paused: number[] = [];
    const keeping = keepFlights(counting, createLogbook(), async () => void paused.push(strides.length));
    expect(await keeping.fly(asked)).toEqual(await plain().fly(asked));
    expect([strides, paused]).toEqual([
      [4096, 104],
      [1, 2],
    ]);
  });

  it('does not copy flights that it holds in one piece', async () => {
    const keeping = keepFlights(plain());
    const asked = { set: 'explore', ids: idsBetween(0, 100), heights: [100], detail: 'full' } as const;
    const [whole] = await keeping.fly(asked);
    const [part] = await keeping.fly({ ...asked, ids: idsBetween(10, 20), detail: 'outcomes' });
    expect(part.outcome.buffer).toBe(whole.outcome.buffer);
    expect(Object.keys(part.columns)).toEqual(columnsKept('outcomes'));
  });
});

describe('the logbook', () => {
  it('tells where flights entered twice contradict each other', async () => {
    const [flown] = await plain().fly({ set: 'explore', ids: idsBetween(0, 50), heights: [100], detail: 'facts' });
    const enter = (book: ReturnType<typeof createLogbook>, from: number, columns: FlightColumns) =>
      book.enter({
        set: 'explore',
        height: 100,
        changes: [],
        detail: 'facts',
        ids: { from },
        source: inMemory(columns),
      });
    const book = createLogbook();
    expect(enter(book, 0, viewOf(flown, 0, 30))).toBe(true);
    expect(enter(book, 20, viewOf(flown, 20, 50))).toBe(true);
    const north = (flown.columns.north as Float32Array).slice();
    north[40] += 1;
    expect(enter(book, 0, { ...flown, columns: { ...flown.columns, north } })).toBe(false);
    const place = { set: 'explore', height: 100, changes: [] } as const;
    expect(book.take(place, 'facts', { from: 0, to: 60 })).toEqual(flown);
    expect(book.missing(place, 'outcomes', { from: 40, to: 60 })).toEqual([{ from: 50, to: 60 }]);
    expect(book.missing(place, 'causes', { from: 0, to: 60 })).toEqual([{ from: 0, to: 60 }]);
  });
});

function isRange(list: Uint32Array): boolean {
  return list[list.length - 1] - list[0] === list.length - 1;
}
