import { describe, expect, it } from 'vitest';
import { assess } from '../../sim/assess/assess.js';
import type { AssessOptions } from '../../sim/assess/plan.js';
import type { AssessMeans } from '../../sim/assess/put-together.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { halfWidthOf } from '../../sim/assess/until.js';
import type { Flyer } from '../../sim/ensemble/flyer.js';
import { answered } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../ensemble/fake-maker.js';

const scenario = burdock('site.keep_out=[]');
const STANDARD: AssessOptions = { seed: '1', flights: 1000, heights: { kind: 'planned' }, overrides: [] };

async function study(changes: Partial<AssessOptions>, means: Partial<AssessMeans> = {}): Promise<AssessResult> {
  const { maker } = fakeMaker((height) => (height < 150 ? 40 : 3));
  const done = await assess(scenario, { ...STANDARD, ...changes }, { ...meansOf(scenario, maker), ...means });
  return answered(done);
}

describe('a study until the interval is narrow enough', () => {
  it('flies whole thousands until it is, and says so', async () => {
    const { stopping, flights, risk } = await study({ until: 0.005 });
    // 3 in 100 fail; 3000 flights leave +-0.52 %, 4000 leave +-0.45 %.
    expect(halfWidthOf(90, 3000)).toBeGreaterThan(0.005);
    const reached = halfWidthOf(120, 4000);
    expect(reached).toBeLessThan(0.005);
    expect(stopping).toEqual({ asked: 0.005, reached, flights: 4000, reason: 'narrow enough' });
    expect({ flights, count: risk.count }).toEqual({ flights: 4000, count: 120 });
  });

  it.each([
    ['the planned height alone', { kind: 'planned' }],
    ['a list of heights', { kind: 'list', heights: [60, 200, 310] }],
    ['a search', { kind: 'standard' }],
  ] as const)('of %s is the study of as many flights, byte for byte, and the note', async (_what, heights) => {
    const { stopping, ...until } = await study({ until: 0.007, heights });
    expect(stopping).toMatchObject({ flights: 2000, reason: 'narrow enough' });
    const fixed = await study({ flights: 2000, heights });
    expect(JSON.stringify(until)).toBe(JSON.stringify(fixed));
  });
});

/** Flights of every other world fail half the time, of the others never; elsewhere as told. */
function unequalWorlds(flyer: Flyer): Flyer {
  return {
    async fly(batch, onFlown, stop) {
      const flown = await flyer.fly(batch, onFlown, stop);
      if (batch.set !== 'worlds') return flown;
      const outcome = Uint8Array.from(batch.ids, (id) => (Math.floor(id / 60) % 2 === 1 && id % 2 === 1 ? 2 : 0));
      return flown.map((columns) => ({ ...columns, outcome }));
    },
    close: flyer.close,
  };
}

describe('a study with an assurance demanded', () => {
  const means = meansOf(scenario, fakeMaker((height) => (height < 150 ? 40 : 3)).maker);

  it('asks the worlds at the planned height, and is met by as large a share of them only', async () => {
    const flyer = unequalWorlds(means.flyer);
    const { overall, assurance } = await study({ assurance: 0.9 }, { flyer });
    expect(overall).toBe('within');
    expect(assurance).toMatchObject({ demanded: 0.9, met: false, worlds: { height: 250, worlds: 100 } });
    // Mean 1/4 and standard deviation 1/4 are those of Beta(1/2, 3/2), for which
    // P(X <= x) = (2/pi) (asin sqrt(x) + sqrt(x (1 - x))) = 0.282 at 0.05; the noise of 60 flights a world is taken out.
    const share = assurance?.worlds?.shareWithin?.estimate as number;
    expect(Math.abs(share - 0.282)).toBeLessThan(0.02);
    const { assurance: enough, warnings } = await study({ assurance: 0.25 }, { flyer });
    expect(enough?.met).toBe(true);
    expect(warnings.map(({ code }) => code)).not.toContain('not assured');
  });

  it('is met where the worlds do not differ, but not where the height is above a limit', async () => {
    expect((await study({ assurance: 0.9 })).assurance?.met).toBe(true);
    const { maker } = fakeMaker(() => 20);
    expect((await study({ assurance: 0.9 }, meansOf(scenario, maker))).assurance?.met).toBe(false);
  });

  it('speaks of the planned height, whatever the aim is', async () => {
    const { heightDecision, worlds, assurance } = await study({ assurance: 0.9, heights: { kind: 'standard' } });
    expect(heightDecision?.latest).toBe(150);
    expect(heightDecision?.aim?.height).not.toBe(250);
    expect([worlds?.height, assurance?.worlds?.height]).toEqual([250, 250]);
  });

  it('rests on the verdict alone where nothing is unmeasured', async () => {
    const drawn = means.drawer.drawn.map((one) => ({ ...one, unmeasured: false }));
    const { assurance } = await study({ assurance: 0.9 }, { drawer: { ...means.drawer, drawn } });
    expect(assurance).toEqual({ demanded: 0.9, worlds: null, met: true });
  });

  it('is not met where nothing is written as unmeasured, but failures come from guesses taken as exact', async () => {
    const exact = burdock('site.keep_out=[]', 'pilot.lapse={ value: 3 %, source: guess }');
    const { maker } = fakeMaker(() => 3, 'lapse');
    const its = meansOf(exact, maker);
    const drawn = its.drawer.drawn.map((one) => ({ ...one, unmeasured: false }));
    const asked = { ...STANDARD, assurance: 0.9 };
    const guessed = answered(await assess(exact, asked, { ...its, drawer: { ...its.drawer, drawn } }));
    expect(guessed.overall).toBe('within');
    expect(guessed.assurance).toEqual({ demanded: 0.9, worlds: null, met: false });
  });
});

describe('the date of a study', () => {
  it('is what its maker wrote, and absent where nothing was written', async () => {
    expect((await study({ date: '1 May, before the flight' })).date).toBe('1 May, before the flight');
    expect('date' in (await study({}))).toBe(false);
  });
});
