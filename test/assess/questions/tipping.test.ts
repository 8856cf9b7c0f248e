import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { describe, expect, it } from 'vitest';
import { pessimisticRow } from '../../../sim/assess/questions/pessimistic.js';
import { tippingValues } from '../../../sim/assess/questions/tipping.js';
import { idsBetween } from '../../../sim/ensemble/columns.js';
import type { Flyer } from '../../../sim/ensemble/flyer.js';
import { createSyntheticFlyer, type SyntheticFlyer } from '../../decision/synthetic-flyer.js';

const FLIGHTS = 8000;

/** Risk 0.01 + 0.06 x + 0.02 y, x and y uniform: 5 % plain. */
function twoGuesses(seed: string) {
  return createSyntheticFlyer({
    seed,
    inputs: [{ path: 'x' }, { path: 'y' }],
    risk: (_, [x, y]) => 0.01 + 0.06 * x + 0.02 * y,
  });
}

interface Asked {
  readonly path: string;
  readonly better?: 'low' | 'high';
  readonly mustBeHeld?: boolean;
}

async function tipping(flyer: SyntheticFlyer, limit: number, inputs: readonly Asked[], stop?: AbortSignal) {
  const [plain] = await flyer.fly({ set: 'explore', ids: idsBetween(0, FLIGHTS), heights: [100], detail: 'outcomes' });
  const before = flyer.flown();
  const found = await tippingValues({
    flyer,
    plain,
    set: 'explore',
    limit,
    inputs: inputs.map((input) => ({ ...input, uniforms: (set, flights) => flyer.uniforms(input.path, set, flights) })),
    valueAt: (path, quantile) => (path === 'x' ? 10 * quantile : quantile),
    ...(stop ? { stop } : {}),
  });
  return { ...found, flown: flyer.flown() - before };
}

const tip = (seed: string, limit: number, inputs: readonly Asked[]) => tipping(twoGuesses(seed), limit, inputs);

/** In so many studies of one guess with a known risk over its score: how the bracket lies to the true crossing. */
async function brackets(law: string, risk: (score: number) => number, crossing: number, studies: number) {
  const limit = risk(crossing);
  const counts = { heldTooFar: 0, turnedTooSoon: 0, bothEnds: 0 };
  for (let study = 0; study < studies; study++) {
    const flyer = createSyntheticFlyer({
      seed: `${law} ${study}`,
      inputs: [{ path: 'x' }],
      risk: (_, [x]) => risk(normalQuantile(x, 0, 1)),
    });
    const { keeps, turned } = (await tipping(flyer, limit, [{ path: 'x', better: 'low' }])).rows[0];
    const truth = normalCdf(crossing, 0, 1);
    if (keeps !== null && keeps.quantile > truth + 0.005) counts.heldTooFar += 1;
    if (turned !== null && turned.quantile < truth - 0.005) counts.turnedTooSoon += 1;
    if (keeps !== null && turned !== null) counts.bothEnds += 1;
  }
  return counts;
}

describe('tipping value', () => {
  // Each end is to miss in 5 % of studies: of 40, 2 +- 3 standard deviations of 1.4.
  it.each([
    ['a logistic law', (score: number) => 1 / (1 + Math.exp(3.5 - 0.6 * score)), 1.2],
    ['a threshold: fails if 0.4 score + noise is over 2', (score: number) => 1 - normalCdf(2 - 0.4 * score, 0, 1), 1],
    ['a U-shaped law', (score: number) => 1 / (1 + Math.exp(3.8 - 0.35 * score ** 2)), 1.7],
    ['a law linear in the quantile', (score: number) => 0.01 + 0.06 * normalCdf(score, 0, 1), 0.8],
  ])('lies in its bracket as often as that says: %s', async (law, risk, crossing) => {
    const { heldTooFar, turnedTooSoon, bothEnds } = await brackets(law, risk, crossing, 40);
    expect(heldTooFar).toBeLessThanOrEqual(6);
    expect(turnedTooSoon).toBeLessThanOrEqual(6);
    expect(bothEnds).toBeGreaterThan(12);
  });

  it('costs no flight, and its places agree with one another', async () => {
    const { rows, flown } = await tip('places', 0.06, [{ path: 'x', better: 'low' }]);
    const [{ status, side, keeps, crossing, turned, flights }] = rows;
    expect([status, side, flown, flights]).toEqual(['turns', 'high', 0, 0]);
    const quantiles = [keeps, crossing, turned].map((place) => place?.quantile ?? Number.NaN);
    expect(quantiles).toEqual([...quantiles].sort((a, b) => a - b));
    expect([keeps, crossing, turned].map((place) => place?.value)).toEqual(quantiles.map((one) => 10 * one));
  });

  it.each([false, true])('says that the verdict holds where the guess cannot turn it; held: %s', async (mustBeHeld) => {
    const { rows, flown } = await tip('holds', 0.12, [{ path: 'y', better: 'low', mustBeHeld }]);
    expect(rows[0]).toMatchObject({ status: 'holds', crossing: null, keepsToEnd: true, turned: null });
    // y at 0.99: 0.01 + 0.03 + 0.0198 = 6 %.
    const { estimate, lower, upper } = rows[0].riskAtEnd;
    expect(Math.abs(estimate - 0.06)).toBeLessThan(0.015);
    expect(lower < 0.06 && 0.06 < upper).toBe(true);
    expect(flown).toBe(mustBeHeld ? 500 : 0);
  });

  it.each([false, true])(
    'looks on the better side while the risk is over the limit, and on both where the side is not known; held: %s',
    async (mustBeHeld) => {
      const over = await tip('over', 0.035, [{ path: 'x', better: 'low', mustBeHeld }]);
      expect(over.rows[0].side).toBe('low');
      // 0.02 + 0.06 x = 0.035 at x = 0.25.
      const { keeps, turned } = over.rows[0];
      expect(turned?.quantile ?? 0).toBeLessThanOrEqual(0.25);
      expect(keeps?.quantile ?? 1).toBeGreaterThanOrEqual(0.25);
      const both = await tip('both', 0.06, [{ path: 'x', mustBeHeld }]);
      expect(both.rows.map(({ side, status }) => [side, status])).toEqual([
        ['low', 'holds'],
        ['high', 'turns'],
      ]);
    },
  );

  it.each([false, true])(
    'says so when the guess at its median already stands on the other side; held: %s',
    async (mustBeHeld) => {
      // Rare large values carry the risk: 0.2 above x = 0.9, else 0.04. Plain 5.6 %, at the median 4 %; limit 5 %.
      const flyer = createSyntheticFlyer({
        seed: 'median',
        inputs: [{ path: 'x' }],
        risk: (_, [x]) => (x > 0.9 ? 0.2 : 0.04),
      });
      const { rows } = await tipping(flyer, 0.05, [{ path: 'x', better: 'low', mustBeHeld }]);
      expect(rows[0]).toMatchObject({ status: 'not on this side', crossing: null, keeps: null });
    },
  );
});

describe('the tipping value of a guess that must be held', () => {
  it('is closed in by flights with it held', async () => {
    let [held, width] = [0, 0];
    for (let study = 0; study < 30; study++) {
      const { rows, flown } = await tip(`tip ${study}`, 0.06, [{ path: 'x', better: 'low', mustBeHeld: true }]);
      const [{ status, keeps, turned, flights }] = rows;
      expect([status, flown]).toEqual(['turns', flights]);
      // 0.02 + 0.06 x = 0.06 at x = 2/3.
      const [inner, outer] = [keeps?.quantile ?? 0.5, turned?.quantile ?? 0.99];
      if (inner <= 2 / 3 && 2 / 3 <= outer) held += 1;
      width += (outer - inner) / 30;
    }
    expect(held).toBeGreaterThanOrEqual(27);
    // Sampling alone: 1.645 sqrt(0.03 / 1000) / 0.06 = 0.15 to each side; the grid of normal scores adds about as much.
    expect(width).toBeLessThan(0.45);
  });

  it('is flown too where a curve cannot be read off, and left out when stopped', async () => {
    const flyer = twoGuesses('one value');
    const oneValue = { ...flyer, uniforms: () => new Float64Array(FLIGHTS).fill(0.5) };
    expect((await tipping(oneValue, 0.08, [{ path: 'y', better: 'low' }])).flown).toBe(500);
    const stopped = {
      ...flyer,
      fly: (...[batch, heard, stop]: Parameters<Flyer['fly']>) =>
        flyer.fly({ ...batch, ids: stop ? batch.ids.subarray(0, 100) : batch.ids }, heard),
    };
    const inputs = [
      { path: 'y', better: 'low' as const },
      { path: 'x', better: 'low' as const, mustBeHeld: true },
    ];
    const { rows } = await tipping(stopped, 0.08, inputs, AbortSignal.abort());
    expect(rows.map(({ path }) => path)).toEqual(['y']);
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
