import { describe, expect, it } from 'vitest';
import { listedFlights } from '../../sim/assess/listed-flights.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import { fakeFails, fakeMaker, firstIds } from '../ensemble/fake-maker.js';

async function flown(failures: number, flights = 100) {
  const { maker } = fakeMaker(() => failures);
  const batch = { set: 'explore', ids: firstIds(flights), heights: [250], detail: 'causes' } as const;
  return (await createSerialFlyer(maker).fly(batch))[0];
}

describe('the listed flights', () => {
  it('begin with the hardest hit, the earliest of several', async () => {
    const columns = await flown(20);
    const speeds = columns.columns.touchdown_speed ?? new Float32Array();
    const [first] = listedFlights(columns);
    const hardest = Math.max(...speeds);
    expect(first.touchdownSpeed).toBe(hardest);
    expect(first.id).toBe(`explore:${speeds.indexOf(hardest)}@250`);
    expect(first.why).toContain('hits hardest');
  });

  it('hold a typical flight of each cause and soft ones, each flight once', async () => {
    const listed = listedFlights(await flown(20));
    expect(listed.some(({ why, cause }) => why.includes('typical of "reaction"') && cause === 'reaction')).toBe(true);
    expect(listed.some(({ why, outcome }) => why.includes('ordinary') && outcome === 'soft')).toBe(true);
    expect(new Set(listed.map(({ id }) => id)).size).toBe(listed.length);
  });

  it('say of each what became of it', async () => {
    for (const { id, outcome } of listedFlights(await flown(20))) {
      const number = Number(/:(\d+)@/.exec(id)?.[1]);
      expect(outcome).toBe(fakeFails(number, 20) ? 'crash' : 'soft');
    }
  });

  it.each([0, 100])('go without what there is not, with %d failures in 100', async (failures) => {
    const listed = listedFlights(await flown(failures));
    expect(listed.length).toBeGreaterThan(0);
    expect(new Set(listed.map(({ outcome }) => outcome)).size).toBe(1);
  });
});
