import { describe, expect, it } from 'vitest';
import type { AssessResult } from '../../sim/assess/result.js';
import { compareResults } from '../../sim/compare/saved-results.js';
import { answered, refusalOf } from '../answers.js';
import { fakeResult } from '../assess/fake-result.js';

const a = await fakeResult(9, 1000);
const b = await fakeResult(3, 1000);

function compared(first: AssessResult, second: AssessResult) {
  return answered(compareResults(first, second, 0.005));
}

describe('two results flown earlier', () => {
  it('compare from their raw columns, without flying', () => {
    const result = compared(a, b);
    expect(result).toMatchObject({ source: 'earlier results', verdict: 'B safer', flights: 1000, seed: '1' });
    // The stand-in fails 90 and 30 of 1000, the 30 being among the 90.
    expect(result.comparisons[0].pairs.pairs).toEqual({ both: 30, onlyA: 60, onlyB: 0, neither: 910 });
    expect(result.comparisons[0].pairs.saves).toEqual([{ cause: 'reaction', flights: 60 }]);
    expect(result.comparisons[2]).toMatchObject({ why: expect.stringContaining('give the scenario files') });
  });

  it('compare over the flights that both hold', async () => {
    const result = compared(a, await fakeResult(3, 600));
    expect(result.flights).toBe(600);
    expect(result.warnings[0]).toMatchObject({ code: 'common flights', text: expect.stringContaining('first 600') });
  });

  it("compare at A's planned height where B flew it too, and say so where it did not", async () => {
    const lower = await fakeResult(3, 600, 'plan.throttle_up_height=200 m');
    const onGrid = compared(lower, a);
    const point = a.raw.curve.find(({ height }) => height === 200);
    expect(onGrid.comparisons[1].status).toBe(point ? 'compared' : 'not compared');
    const offGrid = compared(await fakeResult(3, 600, 'plan.throttle_up_height=203 m'), a);
    expect(offGrid.comparisons[1]).toMatchObject({ why: expect.stringContaining('did not fly') });
  });

  it.each([
    ['another seed', { seed: '2' }, /has seed "1", the second "2"/],
    ['another draw scheme', { versions: { ...a.versions, drawScheme: 99 } }, /draw scheme/],
    ['another version of the program', { versions: { ...a.versions, program: '9.9.9' } }, /program version/],
    ['another Node', { versions: { ...a.versions, node: '99.0.0' } }, /Node version/],
  ])('are refused with %s, with the reason and what to do', (_what, change, why) => {
    const messages = refusalOf(compareResults(a, { ...b, ...change }, 0.005)).join();
    expect(messages).toMatch(why);
    expect(messages).toContain('Give the two scenario files instead');
  });
});
