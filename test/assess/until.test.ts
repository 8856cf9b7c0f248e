import { describe, expect, it } from 'vitest';
import { flightsForHalfWidth, flyUntil, halfWidthOf } from '../../sim/assess/until.js';
import { groundImpact } from '../../sim/decision/criteria.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

const request = {
  set: 'explore' as const,
  height: 100,
  detail: 'outcomes' as const,
  criterion: groundImpact(0.05),
};

describe('flying until the interval is narrow', () => {
  it('stops at the first block whose half-width is small enough', async () => {
    const flyer = createSyntheticFlyer({ seed: 'until', risk: () => 0.05 });
    const { columns, note } = await flyUntil({ ...request, flyer, halfWidth: 0.003 });
    // Normal approximation: 1.645^2 0.05 0.95 / 0.003^2 = 14 280 flights.
    expect(note?.reason).toBe('narrow enough');
    expect(note?.flights).toBeGreaterThanOrEqual(13000);
    expect(note?.flights).toBeLessThanOrEqual(16000);
    expect(note?.reached).toBeLessThanOrEqual(0.003);
    expect(columns.outcome.length).toBe(note?.flights);
    const before = columns.outcome.subarray(0, columns.outcome.length - 1000);
    expect(halfWidthOf(before.filter((outcome) => outcome !== 0).length, before.length)).toBeGreaterThan(0.003);
  });

  it('looks first at 2000 flights and gives up at the most', async () => {
    const flyer = createSyntheticFlyer({ seed: 'until', risk: () => 0.05 });
    expect((await flyUntil({ ...request, flyer, halfWidth: 0.5 })).note?.flights).toBe(2000);
    const { note } = await flyUntil({ ...request, flyer, halfWidth: 1e-4, mostFlights: 4500 });
    expect(note).toMatchObject({ flights: 4500, reason: 'most flights reached', asked: 1e-4 });
  });

  it('is likely to take so many flights, in whole blocks and never fewer than the first look', () => {
    // 14 280 by the normal approximation above.
    expect(flightsForHalfWidth(0.05, 0.003)).toBe(15_000);
    expect(flightsForHalfWidth(0.05, 0.1)).toBe(2000);
    expect(flightsForHalfWidth(0.5, 1e-5)).toBe(1_000_000);
  });

  it('flies the same flights as one study of that many', async () => {
    const flyer = createSyntheticFlyer({ seed: 'same', risk: () => 0.05 });
    const { columns, note } = await flyUntil({ ...request, flyer, halfWidth: 0.006 });
    const ids = Uint32Array.from({ length: note?.flights ?? 0 }, (_, id) => id);
    const [once] = await flyer.fly({ set: 'explore', ids, heights: [100], detail: 'outcomes' });
    expect(columns).toEqual(once);
  });
});
