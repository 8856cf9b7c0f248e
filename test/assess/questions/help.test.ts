import { describe, expect, it } from 'vitest';
import { savedInHundred, whatWouldHelp } from '../../../sim/assess/questions/help.js';
import { idsBetween } from '../../../sim/ensemble/columns.js';
import { createSyntheticFlyer } from '../../decision/synthetic-flyer.js';

const FLIGHTS = 4000;

/** Risk 0.02 + 0.08 x, x uniform: 6 % plain, 6 % at the median, 2.4 % at the better end (x = 0.05). */
function linear(seed: string) {
  return createSyntheticFlyer({
    seed,
    inputs: [{ path: 'x' }, { path: 'event' }, { path: 'unknown' }],
    risk: (_, [x]) => 0.02 + 0.08 * x,
  });
}

async function helpOf(seed: string, failedSample?: number) {
  const flyer = linear(seed);
  const [plain] = await flyer.fly({ set: 'explore', ids: idsBetween(0, FLIGHTS), heights: [100], detail: 'outcomes' });
  return whatWouldHelp({
    flyer,
    plain,
    set: 'explore',
    seed,
    inputs: [{ path: 'x', better: 'low' }],
    ...(failedSample === undefined ? {} : { failedSample }),
  });
}

describe('what would help', () => {
  for (const failedSample of [undefined, 100]) {
    it(`covers the known saving with its interval, with ${failedSample ?? 'all'} failed flights flown again`, async () => {
      const studies = 60;
      const covered = { median: 0, 'better end': 0 };
      const mean = { median: 0, 'better end': 0 };
      for (let study = 0; study < studies; study++) {
        for (const { heldAt, lower, upper, savedInHundred: saved } of (await helpOf(`help ${study}`, failedSample))
          .rows) {
          if (heldAt !== 'median' && heldAt !== 'better end') continue;
          const truth = heldAt === 'median' ? 0 : 3.6;
          mean[heldAt] += saved / studies;
          if (lower <= truth && truth <= upper) covered[heldAt] += 1;
        }
      }
      // 90 % intervals, exact ends joined: conservative. 54 of 60 expected, standard deviation 2.3.
      expect(covered.median).toBeGreaterThanOrEqual(50);
      expect(covered['better end']).toBeGreaterThanOrEqual(50);
      expect(Math.abs(mean.median)).toBeLessThan(0.15);
      expect(Math.abs(mean['better end'] - 3.6)).toBeLessThan(0.15);
    });
  }

  it('flies again every failed flight and 800 soft ones, for each place where the input is held', async () => {
    const flyer = linear('cost');
    const batch = { set: 'explore' as const, ids: idsBetween(0, FLIGHTS), heights: [100] };
    const [plain] = await flyer.fly({ ...batch, detail: 'outcomes' });
    const inputs = [
      { path: 'x', better: 'low' as const },
      { path: 'event', better: 'low' as const, isEvent: true },
      { path: 'unknown' },
    ];
    const found = await whatWouldHelp({ flyer, plain, set: 'explore', seed: 'cost', inputs });
    expect(found.rows.map(({ path, heldAt }) => `${path} ${heldAt}`).sort()).toEqual([
      'event median',
      'unknown high end',
      'unknown low end',
      'unknown median',
      'x better end',
      'x median',
    ]);
    expect(found.rows[0].path).toBe('x');
    expect(flyer.flown()).toBe(FLIGHTS + 6 * (found.failed + 800));
    const idle = found.rows.filter(({ path }) => path !== 'x');
    for (const { savedInHundred: saved, lower, upper } of idle) {
      expect(saved).toBe(0);
      expect(lower).toBeLessThan(0);
      expect(upper).toBeGreaterThan(0);
    }
  });

  it('counts none of 800 soft flights broken as up to 3 in 800', () => {
    const counts = { saved: 0, failedFlown: 0, broken: 0, softFlown: 800, flights: 800, failed: 0, soft: 800 };
    expect(savedInHundred(counts).lower).toBeCloseTo(-100 * (1 - 0.05 ** (1 / 800)), 6);
    expect(savedInHundred(counts).upper).toBe(0);
  });
});
