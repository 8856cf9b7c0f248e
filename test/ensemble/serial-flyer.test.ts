import { describe, expect, it } from 'vitest';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import { CAUSES, COLUMN_NAMES } from '../../sim/flight/record.js';
import { fakeFails, fakeMaker, firstIds } from './fake-maker.js';

describe('the serial flyer', () => {
  it('flies every flight once, in ascending order, at all heights together', async () => {
    const { maker, log } = fakeMaker(() => 10);
    await createSerialFlyer(maker).fly({ set: 'confirm', ids: firstIds(50), heights: [100, 200], detail: 'outcomes' });
    expect(log.flown.map(({ id }) => id)).toEqual([...firstIds(50)]);
    expect(log.flown.every(({ set, heights }) => set === 'confirm' && heights.join() === '100,200')).toBe(true);
  });

  it('puts each flight where its number stands among the ids asked for', async () => {
    const { maker } = fakeMaker(() => 10);
    const ids = Uint32Array.of(3, 10, 27, 81);
    const [flown] = await createSerialFlyer(maker).fly({ set: 'explore', ids, heights: [100], detail: 'outcomes' });
    expect(Array.from(flown.outcome, (outcome) => outcome !== 0)).toEqual([...ids].map((id) => fakeFails(id, 10)));
  });

  it('keeps the columns that the detail of each height asks for', async () => {
    const { maker } = fakeMaker(() => 10);
    const detail = ['outcomes', 'full', 'causes'] as const;
    const flown = await createSerialFlyer(maker).fly({ set: 'explore', ids: firstIds(40), heights: [1, 2, 3], detail });
    expect(flown.map(({ columns }) => Object.keys(columns))).toEqual([['touchdown_speed'], COLUMN_NAMES, COLUMN_NAMES]);
  });

  it('seeks the cause of flights that are not soft, where causes are asked for, under the changes of the batch', async () => {
    const { maker, log } = fakeMaker((height) => (height === 100 ? 20 : 5));
    const changes = [{ path: 'wind.speed', quantile: 0.9 }];
    const flyer = createSerialFlyer(maker);
    const [low, high] = await flyer.fly({
      set: 'explore',
      ids: firstIds(100),
      heights: [100, 200],
      detail: ['outcomes', 'causes'],
      changes,
    });
    expect(log.sought).toHaveLength(5);
    expect(log.sought.every(({ id, height }) => height === 200 && fakeFails(id, 5))).toBe(true);
    expect(log.sought[0].changes).toEqual([...changes, { path: 'pilot.reaction', quantile: 0.5 }]);
    const reaction = CAUSES.indexOf('reaction');
    expect(high.cause.filter((cause) => cause === reaction)).toHaveLength(5);
    expect(low.cause.filter((cause) => cause === CAUSES.indexOf('not sought'))).toHaveLength(20);
  });

  it('tells how many flights were flown, and they add up', async () => {
    const { maker } = fakeMaker(() => 10);
    const heard: number[] = [];
    await createSerialFlyer(maker).fly({ set: 'explore', ids: firstIds(70), heights: [1], detail: 'outcomes' }, (n) =>
      heard.push(n),
    );
    expect(heard.length).toBeGreaterThan(1);
    expect(heard.reduce((sum, n) => sum + n, 0)).toBe(70);
  });

  it('ends early when told to, with the same flights that a smaller batch gives', async () => {
    const batch = { set: 'explore', ids: firstIds(1000), heights: [100, 200], detail: 'full' } as const;
    const stop = new AbortController();
    const partial = await createSerialFlyer(fakeMaker(() => 10).maker).fly(batch, () => stop.abort(), stop.signal);
    const flights = partial[0].outcome.length;
    expect(flights).toBeGreaterThan(0);
    expect(flights).toBeLessThan(1000);
    const small = { ...batch, ids: firstIds(flights) };
    expect(partial).toEqual(await createSerialFlyer(fakeMaker(() => 10).maker).fly(small));
  });

  it('flies nothing when told to stop before it begins', async () => {
    const { maker, log } = fakeMaker(() => 10);
    const batch = { set: 'explore', ids: firstIds(10), heights: [1], detail: 'outcomes' } as const;
    const [flown] = await createSerialFlyer(maker).fly(batch, undefined, AbortSignal.abort());
    expect(flown.outcome).toHaveLength(0);
    expect(log.flown).toEqual([]);
  });
});
