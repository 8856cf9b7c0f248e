import { describe, expect, it } from 'vitest';
import { idsBetween, joined } from '../../sim/ensemble/columns.js';
import { remember } from '../../sim/ensemble/flown.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

const model = { seed: 'store', risk: (height: number) => height / 1000 };

describe('the store of flights', () => {
  it('flies nothing twice and gives what one batch gives', async () => {
    const flyer = createSyntheticFlyer(model);
    const flown = remember(flyer, 'outcomes');
    await flown.at('explore', [100, 200], 300);
    await flown.at('explore', [100], 200);
    const [low, high, new_] = await flown.at('explore', [100, 200, 300], 1000);
    expect(flyer.flown()).toBe(3000);
    const once = await createSyntheticFlyer(model).fly({
      set: 'explore',
      ids: idsBetween(0, 1000),
      heights: [100, 200, 300],
      detail: 'outcomes',
    });
    expect([low, high, new_]).toEqual(once);
    expect(flown.all('explore').map(({ height }) => height)).toEqual([100, 200, 300]);
    expect(flown.all('confirm')).toEqual([]);
  });

  it('keeps the sets apart and takes flights from elsewhere', async () => {
    const flyer = createSyntheticFlyer(model);
    const flown = remember(flyer, 'outcomes');
    const [explore] = await flown.at('explore', [100], 500);
    const [confirm] = await flown.at('confirm', [100], 500);
    expect(confirm.outcome).not.toEqual(explore.outcome);
    const other = remember(flyer, 'outcomes');
    other.put('explore', explore);
    await other.at('explore', [100], 400);
    expect(flyer.flown()).toBe(1000);
  });

  it('joins stretches and drops a column that one of them lacks', async () => {
    const flyer = createSyntheticFlyer(model);
    const [part] = await flyer.fly({ set: 'explore', ids: idsBetween(0, 3), heights: [100], detail: 'outcomes' });
    const whole = joined([part, { ...part, columns: { ...part.columns, east: new Float32Array(3) } }]);
    expect(whole.outcome.length).toBe(6);
    expect(Object.keys(whole.columns)).toEqual(['touchdown_speed']);
  });
});
