import { describe, expect, it } from 'vitest';
import { idsBetween } from '../../sim/decision/flown.js';
import { pessimisticRow } from '../../sim/decision/pessimistic.js';
import { tippingValues } from '../../sim/decision/tipping.js';
import { createSyntheticFlyer } from './synthetic-flyer.js';

const FLIGHTS = 8000;

/** Risk 0.01 + 0.06 x + 0.02 y, x and y uniform: 5 % plain. */
function twoGuesses(seed: string) {
  return createSyntheticFlyer({
    seed,
    inputs: [{ path: 'x' }, { path: 'y' }],
    risk: (_, [x, y]) => 0.01 + 0.06 * x + 0.02 * y,
  });
}

async function tip(seed: string, limit: number, inputs: readonly { path: string; better?: 'low' | 'high' }[]) {
  const flyer = twoGuesses(seed);
  const [plain] = await flyer.fly({ set: 'explore', ids: idsBetween(0, FLIGHTS), heights: [100], detail: 'outcomes' });
  const before = flyer.flown();
  const found = await tippingValues({
    flyer,
    plain,
    set: 'explore',
    limit,
    inputs,
    valueAt: (path, quantile) => (path === 'x' ? 10 * quantile : quantile),
  });
  return { ...found, flown: flyer.flown() - before };
}

describe('tipping value', () => {
  it('brackets the value at which the known risk crosses the limit', async () => {
    let [held, width] = [0, 0];
    for (let study = 0; study < 30; study++) {
      const { rows } = await tip(`tip ${study}`, 0.06, [{ path: 'x', better: 'low' }]);
      expect(rows[0].status).toBe('turns');
      expect(rows[0].side).toBe('high');
      const [inner, outer] = rows[0].quantiles ?? [0, 0];
      expect(rows[0].values).toEqual([10 * inner, 10 * outer]);
      // 0.02 + 0.06 x = 0.06 at x = 2/3.
      if (inner <= 2 / 3 && 2 / 3 <= outer) held += 1;
      width += (outer - inner) / 30;
    }
    expect(held).toBeGreaterThanOrEqual(27);
    // Sampling alone: 1.645 sqrt(0.03 / 2000) / 0.06 = 0.1 to each side; the grid of normal scores adds about as much.
    expect(width).toBeLessThan(0.4);
  });

  it('says that the verdict holds where the guess cannot turn it, for 1000 flights', async () => {
    const { rows, flown } = await tip('holds', 0.065, [{ path: 'y', better: 'low' }]);
    expect(rows[0].status).toBe('holds');
    expect(rows[0].values).toBeNull();
    // y at 0.99: 0.01 + 0.03 + 0.0198 = 6 %.
    expect(Math.abs(rows[0].riskAtEnd - 0.06)).toBeLessThan(0.012);
    expect(flown).toBe(1000);
  });

  it('looks on the better side while the risk is over the limit, and on both where the side is not known', async () => {
    const over = await tip('over', 0.035, [{ path: 'x', better: 'low' }]);
    expect(over.rows[0].side).toBe('low');
    // 0.02 + 0.06 x = 0.035 at x = 0.25.
    const [inner, outer] = over.rows[0].quantiles ?? [0, 0];
    expect(outer).toBeLessThanOrEqual(0.25);
    expect(inner).toBeGreaterThanOrEqual(0.25);
    const both = await tip('both', 0.06, [{ path: 'x' }]);
    expect(both.rows.map(({ side, status }) => [side, status])).toEqual([
      ['low', 'holds'],
      ['high', 'turns'],
    ]);
  });

  it('says so when the input at its median already stands on the other side of the limit', async () => {
    // Rare large values carry the risk: 0.2 above x = 0.9, else 0.04. Plain 5.6 %, at the median 4 %; limit 5 %.
    const flyer = createSyntheticFlyer({
      seed: 'median',
      inputs: [{ path: 'x' }],
      risk: (_, [x]) => (x > 0.9 ? 0.2 : 0.04),
    });
    const [plain] = await flyer.fly({ set: 'explore', ids: idsBetween(0, FLIGHTS), heights: [1], detail: 'outcomes' });
    const inputs = [{ path: 'x', better: 'low' as const }];
    const valueAt = (_: string, quantile: number) => quantile;
    const { rows } = await tippingValues({ flyer, plain, set: 'explore', limit: 0.05, inputs, valueAt });
    expect(rows[0].status).toBe('not on this side');
  });
});

describe('the pessimistic row', () => {
  it('holds every guess at its worse quarter and names those whose side is not known', async () => {
    const found = await pessimisticRow({
      flyer: twoGuesses('row'),
      set: 'explore',
      height: 100,
      limit: 0.05,
      flights: FLIGHTS,
      guesses: [{ path: 'x', better: 'low' }, { path: 'y' }],
    });
    expect(found?.held).toEqual([{ path: 'x', quantile: 0.75 }]);
    expect(found?.left).toEqual(['y']);
    // 0.01 + 0.045 + 0.01 = 6.5 %; three standard deviations of 0.28 %.
    expect(Math.abs((found?.risk.estimate ?? 0) - 0.065)).toBeLessThan(0.0084);
    expect(found?.verdict).toBe('above');
  });
});
