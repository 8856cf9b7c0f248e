import { describe, expect, it } from 'vitest';
import { assess } from '../../sim/assess/assess.js';
import { planAssess } from '../../sim/assess/plan.js';
import type { StudyProgress } from '../../sim/assess/progress.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { COLUMN_NAMES } from '../../sim/flight/record.js';
import { traceFlight } from '../../sim/trace/trace-flight.js';
import { answered } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../ensemble/fake-maker.js';

/** Given heights: the search for a height to recommend has tests of its own. */
const HEIGHTS = { kind: 'list', heights: [60, 200, 310] } as const;
const options = (flights: number) => ({ seed: '1', flights, heights: HEIGHTS, overrides: [] }) as const;

async function fakeStudy(failuresAt: (height: number) => number, flights: number, stop?: AbortSignal) {
  const scenario = burdock();
  const { maker } = fakeMaker(failuresAt);
  const means = meansOf(scenario, maker);
  return assess(scenario, options(flights), means, stop ? { stop } : {});
}

describe('an assessment of flights whose risk is known', () => {
  it('counts what failed, at every height and by cause', async () => {
    const result = answered(await fakeStudy((height) => (height < 200 ? 50 : 3), 1000));
    expect(result.risk).toMatchObject({ count: 30, flights: 1000, estimate: 0.03 });
    expect(result.outcomes).toEqual({ soft: 970, hard: 0, crash: 30, numerical: 0 });
    expect(result.causes.map(({ cause, risk }) => [cause, risk.count])).toEqual([['reaction', 30]]);
    const low = result.curve.find(({ height }) => height === 60);
    expect(low).toMatchObject({ verdict: 'above', risk: { count: 150, flights: 300 } });
  });

  it.each([
    [3, 'within'],
    [20, 'above'],
    [5, 'not shown'],
  ])('with %d failures in 100 gives the verdict %s at a limit of 5 %%', async (failures, verdict) => {
    const result = answered(await fakeStudy(() => failures, 1000));
    expect(result.verdict).toBe(verdict);
    expect(result.criteria[0]).toMatchObject({ name: 'ground impact', limit: 0.05, verdict });
  });

  it('lets the worst criterion decide over all', async () => {
    const scenario = burdock('criteria.recovery_circle.radius=1 m');
    const { maker } = fakeMaker(() => 1);
    const means = meansOf(scenario, maker);
    const result = answered(await assess(scenario, options(1000), means));
    expect([result.verdict, result.overall]).toEqual(['within', 'above']);
  });

  it('has nothing to give when it was stopped before the first flight', async () => {
    expect(await fakeStudy(() => 5, 100, AbortSignal.abort())).toEqual({ status: 'nothing flown' });
  });

  it('gives, interrupted, the result of the flights flown and marks it partial', async () => {
    const scenario = burdock();
    const study = (flights: number, stopAfter: number) => {
      const { maker } = fakeMaker(() => 4);
      const stop = new AbortController();
      const onProgress = ({ flown }: StudyProgress) => flown >= stopAfter && stop.abort();
      const means = meansOf(scenario, maker);
      return assess(scenario, options(flights), means, { onProgress, stop: stop.signal });
    };
    const partial = answered(await study(5000, 700));
    expect(partial.partial).toBe(true);
    expect(partial.flights).toBeLessThan(5000);
    const whole = answered(await study(partial.flights, Number.POSITIVE_INFINITY));
    const others = partial.warnings.filter(({ code }) => code !== 'partial');
    expect(others).toHaveLength(partial.warnings.length - 1);
    expect({ ...partial, partial: false, warnings: others }).toEqual(whole);
  });

  it('refuses a plan above the low ejections and a study too large to keep, before flying', async () => {
    expect(planAssess(burdock('plan.throttle_up_height=700 m'), options(10)).status).toBe('refused');
    expect(planAssess(burdock(), options(1e9)).status).toBe('refused');
    expect((await fakeStudy(() => 5, 1e9)).status).toBe('refused');
  });
});

describe('an assessment of real flights', () => {
  const scenario = burdock();
  const fly = async (seed: string) => {
    const maker = createMaker(scenario, seed);
    const request = { seed, flights: 30, heights: { kind: 'list', heights: [60] }, overrides: [] } as const;
    const means = meansOf(scenario, maker);
    return answered(await assess(scenario, request, means));
  };
  const first = fly('1');
  const text = async (study: ReturnType<typeof fly>) => [...resultJson(await study)].join('');

  it('repeats byte for byte, and differs for another seed', async () => {
    expect(await text(fly('1'))).toBe(await text(first));
    expect(await text(fly('2'))).not.toBe(await text(first));
  });

  it('names flights that trace flies again to the same touchdown speed', async () => {
    const { listed } = await first;
    expect(listed.length).toBeGreaterThan(1);
    for (const { id, touchdownSpeed } of listed) {
      const { values } = answered(traceFlight(scenario, '1', id)).trace.record;
      expect(Math.fround(values[COLUMN_NAMES.indexOf('touchdown_speed')])).toBe(touchdownSpeed);
    }
  });

  it('fails more often from too low a height', async () => {
    const { curve } = await first;
    expect(curve[0].risk.estimate).toBeGreaterThan(0.8);
    expect(curve[1].risk.estimate).toBeLessThan(0.2);
  });
});
