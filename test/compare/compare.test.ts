import { describe, expect, it } from 'vitest';
import { resultJson } from '../../sim/basics/result-json.js';
import { compareDesigns } from '../../sim/compare/compare.js';
import { planCompare } from '../../sim/compare/plan.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import { answered, refusalOf } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';
import { compareSynthetic, fallingRisk, OPTIONS, plainBurdock } from './designs.js';

describe('a comparison of designs whose risks are known', () => {
  const worse = { risk: fallingRisk(150, 0.03), cause: () => 'reaction' as const };
  const better = { risk: fallingRisk(110, 0.02), cause: () => 'lapse' as const };
  const found = compareSynthetic(worse, better).then(answered);

  it('finds the safer one at the planned heights, by about the known difference', async () => {
    const { verdict, comparisons, flights } = await found;
    expect([verdict, flights]).toEqual(['B safer', 8000]);
    const [{ pairs }] = comparisons;
    // 0.03 + 0.5 exp(-100/15) - 0.02 - 0.5 exp(-140/15) = 0.0106.
    expect(pairs.difference.lower).toBeLessThan(0.0106);
    expect(pairs.difference.upper).toBeGreaterThan(0.0106);
    expect(pairs.saves).toEqual([{ cause: 'reaction', flights: pairs.pairs.onlyA }]);
  });

  it('compares each at its aim on fresh flights', async () => {
    const { a, b, comparisons } = await found;
    const [latestA, latestB] = [a.heights?.latest ?? 0, b.heights?.latest ?? 0];
    // The risk is under 4.15 %, what 2000 flights accept at 5 %, from 207 m on for A, from 157 m on for B.
    expect(latestA).toBeGreaterThanOrEqual(200);
    expect(latestA).toBeLessThanOrEqual(230);
    expect(latestB).toBeGreaterThanOrEqual(150);
    expect(latestB).toBeLessThanOrEqual(180);
    // Both aim where the flank has run out.
    const [heightA, heightB] = [a.heights?.aim?.height ?? 0, b.heights?.aim?.height ?? 0];
    expect(Math.min(heightA, heightB)).toBeGreaterThan(220);
    const [, , third] = comparisons;
    if (third.status !== 'compared') throw new Error(third.why);
    expect(third.pairs).toMatchObject({ heightA, heightB, set: 'confirm', riskA: { flights: 4000 } });
    expect(third.pairs.saves.every(({ cause }) => cause === 'reaction')).toBe(true);
  });

  it('does not fly the second comparison where both plan the same height, and says so', async () => {
    const [, second] = (await found).comparisons;
    expect(second).toMatchObject({ basis: 'planned of A', status: 'not compared' });
  });

  it("compares the designs alone at A's planned height where B plans another one", async () => {
    const higher = { ...worse, overrides: ['plan.throttle_up_height=180 m'] };
    const result = answered(await compareSynthetic(higher, worse, { flights: 3000, aims: false }));
    expect(result.verdict).toBe('B safer');
    const [first, second] = result.comparisons;
    expect([first.pairs.heightA, first.pairs.heightB]).toEqual([180, 250]);
    expect(second).toMatchObject({ status: 'compared', pairs: { heightA: 180, heightB: 180, identical: true } });
    expect(result.warnings.map(({ code }) => code)).toContain('planned heights differ');
    expect(result.differences).toEqual([{ path: 'plan.throttle_up_height', a: '180 m', b: '250 m' }]);
  });

  it('says why there is no comparison at the aims', async () => {
    const hopeless = { risk: () => 0.2 };
    const [, , third] = answered(await compareSynthetic(hopeless, better)).comparisons;
    expect(third).toMatchObject({ status: 'not compared', why: expect.stringMatching(/every limit of A with 2000/) });
    const [, , left] = answered(await compareSynthetic(worse, better, { flights: 500, aims: false })).comparisons;
    expect(left).toMatchObject({ status: 'not compared', why: expect.stringContaining('--planned-only') });
  });

  it('finds a design and itself identical: no difference that matters', async () => {
    const result = answered(await compareSynthetic(worse, worse, { flights: 2000 }));
    expect(result).toMatchObject({ verdict: 'no difference that matters', identical: true, differences: [] });
    expect(result.comparisons[2]).toMatchObject({ status: 'compared', pairs: { identical: true } });
  });

  it('is a pure function of its request, and differs for another seed', async () => {
    const text = async (seed: string) =>
      [...resultJson(answered(await compareSynthetic(worse, better, { seed, flights: 2500 })))].join('');
    expect(await text('1')).toBe(await text('1'));
    expect(await text('2')).not.toBe(await text('1'));
  });

  it('gives, interrupted, the pairs flown until then and marks them partial', async () => {
    const stop = new AbortController();
    const onProgress = (_part: string, flown: number) => flown >= 5000 && stop.abort();
    const result = answered(await compareSynthetic(worse, better, {}, { onProgress, stop: stop.signal }));
    // Turns of 1000 flights each: A, B, A, B, A; the last block of A has no pair.
    expect(result).toMatchObject({ partial: true, flights: 3000 });
    expect(result.warnings.map(({ code }) => code)).toContain('partial');
    expect(result.comparisons[2]).toMatchObject({ why: expect.stringContaining('interrupted') });
    const whole = answered(await compareSynthetic(worse, better, { flights: result.flights, aims: false }));
    expect(result.comparisons[0]).toEqual(whole.comparisons[0]);
  });

  it('tells how far it is, in flights that only grow, of a total that is reached', async () => {
    const heard: (readonly [string, number, number])[] = [];
    const onProgress = (...told: readonly [string, number, number]) => heard.push(told);
    await compareSynthetic(worse, better, { flights: 3000 }, { onProgress });
    expect([...new Set(heard.map(([part]) => part))]).toEqual(['planned', 'search for A', 'search for B']);
    const flown = heard.map(([, count]) => count);
    expect(flown).toEqual(flown.toSorted((a, b) => a - b));
    expect(heard.every(([, count, total]) => count <= total)).toBe(true);
    expect(heard[0][2]).toBe(6000 + 2 * 5 * 2000);
  });

  it('has nothing to give when it was stopped before the first pair', async () => {
    expect(await compareSynthetic(worse, better, {}, { stop: AbortSignal.abort() })).toEqual({
      status: 'nothing flown',
    });
  });

  it('warns where the two are judged by different criteria', async () => {
    const stricter = { ...worse, overrides: ['criteria.tilt=20 deg'] };
    const result = answered(await compareSynthetic(worse, stricter, { flights: 300, aims: false }));
    expect(result.warnings).toContainEqual(
      expect.objectContaining({ code: 'criteria differ', text: expect.stringContaining('criteria.tilt') }),
    );
  });
});

describe('the plan of a comparison', () => {
  it('refuses a planned height over the ejection of either, and too many flights, all at once', () => {
    const high = plainBurdock('plan.throttle_up_height=700 m');
    const messages = refusalOf(planCompare(high, high, { ...OPTIONS, flights: 1e9 }));
    expect(messages).toHaveLength(3);
    expect(messages[1]).toMatch(/^The second scenario: plan\.throttle_up_height is 700 m/);
  });

  it("leaves A's height out where B is ejected too low for it", () => {
    const low = plainBurdock('ejection.height=100 m', 'plan.throttle_up_height=60 m');
    expect(planCompare(plainBurdock(), low, OPTIONS)).toEqual({ status: 'ok', value: [60] });
  });
});

describe('a comparison of real flights', () => {
  const design = (...overrides: readonly string[]) => {
    const scenario = burdock('plan.throttle_up_height=80 m', ...overrides);
    const flyer = createSerialFlyer(createMaker(scenario, '1'));
    return { scenario, overrides, flyer, criteria: criteriaOf(scenario) };
  };
  const options = { ...OPTIONS, flights: 40, aims: false };
  const compared = async (...overrides: readonly string[]) =>
    answered(await compareDesigns(design(), design(...overrides), options));

  it('of a scenario with itself has identical outcomes', async () => {
    const { identical, verdict, comparisons } = await compared();
    expect([identical, verdict]).toEqual([true, 'no difference that matters']);
    expect(comparisons[0].raw.a).toEqual(comparisons[0].raw.b);
  });

  it('of two that differ by 0.1 g finds neither safer, though no flight is quite the same', async () => {
    const { verdict, comparisons, differences } = await compared(
      'can.mass={normal: {mean: 610.1 g, sd: 5 g}, kind: varies from flight to flight}',
    );
    expect(['not settled', 'no difference that matters']).toContain(verdict);
    expect(differences.map(({ path }) => path)).toEqual(['can.mass']);
    expect(comparisons[0].raw.a.touchdownSpeed).not.toBe(comparisons[0].raw.b.touchdownSpeed);
  });
});
