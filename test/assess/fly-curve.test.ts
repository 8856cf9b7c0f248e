import { describe, expect, it } from 'vitest';
import { flyCurve } from '../../sim/assess/fly-curve.js';
import { groundImpact } from '../../sim/decision/criteria.js';
import { SCREENING_FLIGHTS } from '../../sim/decision/height-plan.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import { fakeMaker, firstIds } from '../ensemble/fake-maker.js';

const risky = (height: number) => (height < 150 ? 60 : 2);
const request = { flights: 1000, heights: [100, 200, 300], plannedHeight: 200, criteria: [groundImpact(0.05)] };

describe('the curve of heights', () => {
  it('stops a hopeless height after the pilot and flies the others in full', async () => {
    const { maker } = fakeMaker(risky);
    const flown = await flyCurve(request, createSerialFlyer(maker));
    expect(flown.map(({ height, outcome }) => [height, outcome.length])).toEqual([
      [100, SCREENING_FLIGHTS],
      [200, 1000],
      [300, 1000],
    ]);
  });

  it('flies the planned height in full even where it is hopeless', async () => {
    const { maker } = fakeMaker(risky);
    const flown = await flyCurve({ ...request, plannedHeight: 100 }, createSerialFlyer(maker));
    expect(flown[0].outcome).toHaveLength(1000);
  });

  it('gives at each height a prefix of the flights that one undivided batch gives', async () => {
    const { maker } = fakeMaker(risky);
    const flyer = createSerialFlyer(maker);
    const flown = await flyCurve(request, flyer);
    const whole = await flyer.fly({
      set: 'explore',
      ids: firstIds(1000),
      heights: request.heights,
      detail: ['outcomes', 'causes', 'outcomes'],
    });
    expect(flown.slice(1)).toEqual(whole.slice(1));
    expect(flown[0].outcome).toEqual(whole[0].outcome.slice(0, SCREENING_FLIGHTS));
  });

  it('keeps the pilot where it was stopped during it', async () => {
    const { maker } = fakeMaker(risky);
    const stop = new AbortController();
    const flown = await flyCurve(request, createSerialFlyer(maker), () => stop.abort(), stop.signal);
    expect(new Set(flown.map(({ outcome }) => outcome.length)).size).toBe(1);
    expect(flown[0].outcome.length).toBeLessThan(SCREENING_FLIGHTS);
  });
});
