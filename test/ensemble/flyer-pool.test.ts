import { pathToFileURL } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { createMaker } from '../../sim/ensemble/maker.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { holdInputs } from '../../sim/scenario/hold.js';
import { burdock } from './burdock.js';
import { firstIds } from './fake-maker.js';

/** Workers load compiled files only, so this is tested on what the build made. */
const { createFlyerPool } = (await import(pathToFileURL('dist/sim/ensemble/flyer-pool.js').href)) as {
  createFlyerPool: typeof import('../../sim/ensemble/flyer-pool.js').createFlyerPool;
};

const windy = holdInputs(burdock(), [{ path: 'wind.speed', value: 8 }]);
const calm = holdInputs(burdock(), [{ path: 'wind.speed', value: 0 }]);
const batch = { set: 'explore', ids: firstIds(40), heights: [60], detail: 'outcomes' } as const;

function bytes(flown: readonly FlightColumns[]): readonly Uint8Array[] {
  return flown.flatMap(({ outcome, columns }) =>
    [outcome, ...Object.values(columns)].map(({ buffer }) => new Uint8Array(buffer)),
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
