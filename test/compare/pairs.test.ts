import { describe, expect, it } from 'vitest';
import { comparePairs, otherDraws } from '../../sim/compare/pairs.js';
import { idsBetween } from '../../sim/ensemble/columns.js';
import type { CAUSES } from '../../sim/flight/record.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';

type Cause = (typeof CAUSES)[number];

async function flights(risk: number, count: number, cause: Cause = 'reaction', seed = 'compare') {
  const flyer = createSyntheticFlyer({ seed, risk: () => risk, cause: () => cause });
  return (await flyer.fly({ set: 'explore', ids: idsBetween(0, count), heights: [100], detail: 'causes' }))[0];
}

describe('comparing two designs on the same draws', () => {
  it('finds the safer one, whichever comes first', async () => {
    const [worse, better] = [await flights(0.06, 8000, 'reaction'), await flights(0.04, 8000, 'lapse')];
    const found = comparePairs(worse, better, 'explore');
    expect(found.verdict).toBe('B safer');
    expect(found.difference.lower).toBeLessThan(0.02);
    expect(found.difference.upper).toBeGreaterThan(0.02);
    expect(found.pValue).toBeLessThan(1e-6);
    expect(found.flightsToSettle).toBeNull();
    expect(found.saves).toEqual([{ cause: 'reaction', flights: found.pairs.onlyA }]);
    expect(found.breaks).toEqual([]);
    const turned = comparePairs(better, worse, 'explore');
    expect(turned.verdict).toBe('A safer');
    expect(turned.breaks).toEqual([{ cause: 'reaction', flights: found.pairs.onlyA }]);
  });

  it('says no difference that matters for identical outcomes and for a difference that is there but tiny', async () => {
    const same = await flights(0.05, 8000);
    const found = comparePairs(same, same, 'explore');
    expect(found.verdict).toBe('no difference that matters');
    expect(found.identical).toBe(true);
    expect(found.pValue).toBe(1);
    expect(found.difference.estimate).toBe(0);
    const tiny = comparePairs(same, await flights(0.051, 8000), 'explore');
    expect(tiny.identical).toBe(false);
    expect(tiny.verdict).toBe('no difference that matters');
    expect(comparePairs(same, await flights(0.051, 8000), 'explore', 0).verdict).toBe('A safer');
  });

  it('is not settled where the pairs are few or disagree much, and names the pairs that would settle it', async () => {
    const [a, b] = [await flights(0.05, 2000, 'reaction', 'one'), await flights(0.05, 2000, 'lapse', 'other')];
    const found = comparePairs(a, b, 'explore');
    expect(found.verdict).toBe('not settled');
    // 3.84 d / 0.005^2 with d near 0.095: about 16 000.
    expect(found.flightsToSettle).toBeGreaterThan(12000);
    expect(found.flightsToSettle).toBeLessThan(20000);
    expect(found.pairs.both + found.pairs.onlyA + found.pairs.onlyB + found.pairs.neither).toBe(2000);
  });

  it('calls equal designs with independent draws different in at most about 5 % of studies', async () => {
    let called = 0;
    for (let study = 0; study < 200; study++) {
      const a = await flights(0.05, 1000, 'reaction', `a ${study}`);
      const b = await flights(0.05, 1000, 'reaction', `b ${study}`);
      if (comparePairs(a, b, 'explore').verdict.endsWith('safer')) called += 1;
    }
    // Exact test: at most 5 %, 10 of 200; two standard deviations of 3.1.
    expect(called).toBeLessThanOrEqual(16);
  });

  it('pairs only the flights that both flew', async () => {
    const found = comparePairs(await flights(0.05, 3000), await flights(0.05, 2000), 'confirm');
    expect(found.riskA.flights).toBe(2000);
    expect(found.identical).toBe(true);
  });
});

describe('comparing saved results', () => {
  const result = (seed: string, drawScheme = 1) => ({
    seed,
    versions: { program: '0.1.0', resultSchema: 1, drawScheme, node: '20.19.0' },
  });

  it('has a reason against it where the draws are not the same', () => {
    expect(otherDraws(result('1'), result('1'))).toBeNull();
    expect(otherDraws(result('1'), result('2'))).toContain('has seed "1", the second "2"');
    expect(otherDraws(result('1'), result('1', 2))).toContain('draw scheme');
  });
});
