import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type { Flyer } from '../../sim/ensemble/flyer.js';
import { createMaker } from '../../sim/ensemble/maker.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { burdock } from './burdock.js';

/** Workers load compiled files only, so this is tested on what the build made. */
const { createThreadsFlyer } = (await import(pathToFileURL('dist/sim/ensemble/threads-flyer.js').href)) as {
  createThreadsFlyer: typeof import('../../sim/ensemble/threads-flyer.js').createThreadsFlyer;
};

const scenario = burdock();
const batch = (first: number, flights: number) =>
  ({
    set: 'explore',
    ids: Uint32Array.from({ length: flights }, (_, index) => first + index),
    heights: [60, 200],
    detail: ['outcomes', 'causes'],
  }) as const;

function bytes(flown: readonly FlightColumns[]): readonly Uint8Array[] {
  return flown.flatMap(({ outcome, cause, columns }) =>
    [outcome, cause, ...Object.values(columns)].map(({ buffer }) => new Uint8Array(buffer)),
  );
}

describe('the threads flyer', () => {
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
    for (const request of [batch(40, 70), batch(0, 40)])
      expect(bytes(await pool.fly(request))).toEqual(bytes(await serial.fly(request)));
  });

  it('hears every flight once, and stops with a prefix of the flights', async () => {
    const pool = threads('s', 2);
    let heard = 0;
    await pool.fly(batch(0, 70), (flights) => {
      heard += flights;
    });
    expect(heard).toBe(70);
    const stop = new AbortController();
    const partial = await pool.fly(batch(0, 300), () => stop.abort(), stop.signal);
    const flights = partial[0].outcome.length;
    expect(flights).toBeLessThan(300);
    expect(bytes(partial)).toEqual(bytes(await pool.fly(batch(0, flights))));
  });

  it('throws here what a worker throws there', async () => {
    const broken = createThreadsFlyer({ ...scenario, inputs: [] }, 's', 1);
    flyers.push(broken);
    await expect(broken.fly(batch(0, 1))).rejects.toThrow(/./);
  });
});
