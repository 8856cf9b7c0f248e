import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import type { Flyer } from '../../sim/ensemble/flyer.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { holdInputs } from '../../sim/scenario/hold.js';
import { burdock } from './burdock.js';
import { firstIds } from './fake-maker.js';

/** Workers load compiled files only, so this is tested on what the build made. */
const { createFlyerPool, createThreadsFlyer } = (await import(
  pathToFileURL('dist/sim/ensemble/flyer-pool.js').href
)) as typeof import('../../sim/ensemble/flyer-pool.js');

const windy = holdInputs(burdock(), [{ path: 'wind.speed', value: 8 }]);
const calm = holdInputs(burdock(), [{ path: 'wind.speed', value: 0 }]);
const batch = { set: 'explore', ids: firstIds(40), heights: [60], detail: 'outcomes' } as const;

function bytes(flown: readonly FlightColumns[]): readonly Uint8Array[] {
  return flown.flatMap(({ outcome, cause, columns }) =>
    [outcome, cause, ...Object.values(columns)].map(({ buffer }) => new Uint8Array(buffer)),
  );
}

describe('a pool of flyers', () => {
  const pool = createFlyerPool('s', 2);
  afterAll(() => pool.close());

  it('flies several scenarios on the same workers in turns, each with the bytes of the serial flyer', async () => {
    const flyers = { windy: pool.flyer(windy), calm: pool.flyer(calm) };
    const alone = async (scenario: typeof windy) =>
      bytes(await createSerialFlyer(createMaker(scenario, 's')).fly(batch));
    const [first, second] = [await alone(windy), await alone(calm)];
    expect(first).not.toEqual(second);
    expect(bytes(await flyers.windy.fly(batch))).toEqual(first);
    expect(bytes(await flyers.calm.fly(batch))).toEqual(second);
    await flyers.windy.close();
    expect(bytes(await flyers.calm.fly(batch))).toEqual(second);
    // A closed flyer is forgotten by the workers, not broken: it is learnt again.
    expect(bytes(await flyers.windy.fly(batch))).toEqual(first);
  });

  it('refuses two batches at a time, which would mix their answers', async () => {
    const flyer = pool.flyer(calm);
    const first = flyer.fly(batch);
    await expect(flyer.fly(batch)).rejects.toThrow('one batch at a time');
    await first;
  });
});

describe('the threads flyer', () => {
  const scenario = burdock();
  const request = (first: number, flights: number) =>
    ({
      set: 'explore',
      ids: Uint32Array.from({ length: flights }, (_, index) => first + index),
      heights: [60, 200],
      detail: ['outcomes', 'causes'],
    }) as const;
  const flyers: Flyer[] = [];
  const threads = (seed: string, count: number) => {
    const flyer = createThreadsFlyer(scenario, seed, count);
    flyers.push(flyer);
    return flyer;
  };
  afterAll(() => Promise.all(flyers.map((flyer) => flyer.close())));

  it('gives the bytes of the serial flyer, batch after batch on warm workers, backwards too', async () => {
    const serial = createSerialFlyer(createMaker(scenario, 's'));
    const pool = threads('s', 2);
    for (const asked of [request(40, 70), request(0, 40)])
      expect(bytes(await pool.fly(asked))).toEqual(bytes(await serial.fly(asked)));
  });

  it('hears every flight once, and stops with a prefix of the flights', async () => {
    const pool = threads('s', 2);
    let heard = 0;
    await pool.fly(request(0, 70), (flights) => {
      heard += flights;
    });
    expect(heard).toBe(70);
    const stop = new AbortController();
    const partial = await pool.fly(request(0, 300), () => stop.abort(), stop.signal);
    const flights = partial[0].outcome.length;
    expect(flights).toBeLessThan(300);
    expect(bytes(partial)).toEqual(bytes(await pool.fly(request(0, flights))));
  });

  it('throws here what a worker throws there', async () => {
    const broken = createThreadsFlyer({ ...scenario, inputs: [] }, 's', 1);
    flyers.push(broken);
    await expect(broken.fly(request(0, 1))).rejects.toThrow(/./);
  });
});
