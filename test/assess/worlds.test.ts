import betaCdf from '@stdlib/stats-base-dists-beta-cdf';
import betaQuantile from '@stdlib/stats-base-dists-beta-quantile';
import { describe, expect, it } from 'vitest';
import { measureFirst } from '../../sim/assess/questions/measure-first.js';
import { flyWorlds, isAssured, worldsOf } from '../../sim/assess/worlds.js';
import { groundImpact } from '../../sim/decision/criteria.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { jeffreysLaw } from '../../sim/statistics/beta-law.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

const STUDIES = 60;
const LIMIT = 0.05;
const IMPACT = groundImpact(LIMIT);

/** In each world the risk is one draw of Beta(2, 38): mean 5 %, 5 to 95 % from 0.9 to 11 %. */
function betaWorlds(seed: string) {
  const risks = new Map<number, number>();
  const riskOf = (guess: number): number => {
    const risk = risks.get(guess) ?? betaQuantile(guess, 2, 38);
    risks.set(guess, risk);
    return risk;
  };
  return createSyntheticFlyer({
    seed,
    inputs: [{ path: 'guess', unmeasured: true }],
    risk: (_, [guess]) => riskOf(guess),
  });
}

function softFlights(flights: number): FlightColumns {
  return { height: 100, outcome: new Uint8Array(flights), cause: new Uint8Array(flights), columns: {} };
}

describe('the risk over worlds', () => {
  it('finds a known beta law: its ends, its spread and the share of worlds within the limit', async () => {
    const mean = { lower: 0, upper: 0, sd: 0, share: 0 };
    let covered = 0;
    const truth = betaCdf(LIMIT, 2, 38);
    for (let study = 0; study < STUDIES; study++) {
      const found = await flyWorlds(betaWorlds(`beta ${study}`), 100, IMPACT);
      expect(found?.status).toBe('spread');
      mean.lower += (found?.lower ?? 0) / STUDIES;
      mean.upper += (found?.upper ?? 0) / STUDIES;
      mean.sd += (found?.sd ?? 0) / STUDIES;
      const share = found?.shareWithin;
      mean.share += (share?.estimate ?? 0) / STUDIES;
      if (share && share.lower <= truth && truth <= share.upper) covered += 1;
    }
    // One study of 100 worlds scatters by about a tenth of the spread; 60 studies by a seventh of that.
    expect(Math.abs(mean.lower - betaQuantile(0.05, 2, 38))).toBeLessThan(0.003);
    expect(Math.abs(mean.upper - betaQuantile(0.95, 2, 38))).toBeLessThan(0.004);
    // Standard deviation of Beta(2, 38): sqrt(0.05 * 0.95 / 41).
    expect(Math.abs(mean.sd - Math.sqrt((0.05 * 0.95) / 41))).toBeLessThan(0.002);
    expect(Math.abs(mean.share - truth)).toBeLessThan(0.02);
    expect(covered / STUDIES).toBeGreaterThan(0.75);
  });

  it('without any spread says so in about half of the studies and shows little in the others', async () => {
    let none = 0;
    for (let study = 0; study < STUDIES; study++) {
      const found = await flyWorlds(createSyntheticFlyer({ seed: `none ${study}`, risk: () => 0.04 }), 100, IMPACT);
      if (found?.status === 'not distinguishable from none') {
        none += 1;
        expect(found.shareWithin).toBeNull();
        expect(found.sd).toBe(0);
      }
      // Scatter of the variance estimate: sqrt(2/99) 0.04 0.96 / 60 = 9e-5, so a standard deviation of 0.0095; three times the variance: 0.0165.
      expect(found?.sd).toBeLessThan(0.0165);
    }
    // Binomial(60, 1/2): 30 +- 3 standard deviations of 3.9.
    expect(none).toBeGreaterThan(18);
    expect(none).toBeLessThan(42);
  });

  it('needs two worlds flown to their end, and leaves out one that is not', () => {
    expect(worldsOf(softFlights(119), IMPACT)).toBeNull();
    expect(worldsOf(softFlights(150), IMPACT)?.worlds).toBe(2);
  });

  it('assures only with the verdict, and by the verdict alone where there is no spread', async () => {
    const found = await flyWorlds(betaWorlds('assurance'), 100, IMPACT);
    expect(isAssured('within', found, 0.5)).toBe(true);
    expect(isAssured('within', found, 0.9)).toBe(false);
    expect(isAssured('not shown', found, 0.1)).toBe(false);
    expect(isAssured('within', worldsOf(softFlights(120), IMPACT), 0.99)).toBe(true);
    expect(isAssured('within', null, 0.5)).toBe(false);
  });
});

describe('what to measure first', () => {
  // Risk 0.01 + 0.06 a + 0.03 b with a and b uniform: standard deviations 0.06/sqrt(12) and 0.03/sqrt(12).
  const flyer = createSyntheticFlyer({
    seed: 'measure',
    inputs: ['b', 'dummy', 'a'].map((path) => ({ path, unmeasured: true })),
    risk: (_, [b, _dummy, a]) => 0.01 + 0.06 * a + 0.03 * b,
  });
  const total = Math.hypot(0.06, 0.03) / Math.sqrt(12);

  it('ranks the inputs by the spread that each one causes, and states what a perfect measurement leaves', async () => {
    const flights = 40000;
    const ids = Uint32Array.from({ length: flights }, (_, id) => id);
    const [{ outcome }] = await flyer.fly({ set: 'explore', ids, heights: [100], detail: 'outcomes' });
    const rows = measureFirst(
      ['b', 'dummy', 'a'].map((path) => ({
        path,
        uniforms: flyer.uniforms(path, 'explore', flights),
        ...(path === 'a' ? { trials: jeffreysLaw(1, 9) } : {}),
      })),
      outcome,
      total,
    );
    expect(rows.map(({ path }) => path)).toEqual(['a', 'b', 'dummy']);
    expect(rows[0].sd).toBeGreaterThan(0.9 * (0.06 / Math.sqrt(12)));
    expect(rows[0].sd).toBeLessThan(1.1 * (0.06 / Math.sqrt(12)));
    // What b leaves when a is known: 0.03/sqrt(12) = 0.0087.
    expect(Math.abs((rows[0].sdAfter ?? 0) - 0.03 / Math.sqrt(12))).toBeLessThan(0.003);
    expect(rows[0].shown).toBe(true);
    expect(rows[2].shown).toBe(false);
    // Ten trials known, ten more: half of the variance that a causes is expected to stay.
    const half = Math.sqrt(total ** 2 - rows[0].sd ** 2 / 2);
    expect(rows[0].moreTrials[0].sdAfter).toBeCloseTo(half, 9);
  });

  it('states no share where the worlds show no spread', () => {
    const uniforms = flyer.uniforms('a', 'explore', 1000);
    const [row] = measureFirst([{ path: 'a', uniforms }], new Uint8Array(1000), 0);
    expect(row).toEqual({ path: 'a', sd: 0, share: null, sdAfter: null, pValue: 1, shown: false, moreTrials: [] });
  });
});
