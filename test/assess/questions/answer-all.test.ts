import { describe, expect, it } from 'vitest';
import { askInputs } from '../../../sim/assess/questions/answer-all.js';
import { unmeasuredDrawn } from '../../../sim/assess/questions/inputs-to-hold.js';
import { createDrawer } from '../../../sim/draws/drawer.js';
import { createSerialFlyer } from '../../../sim/ensemble/serial-flyer.js';
import { burdock } from '../../ensemble/burdock.js';
import { fakeMaker, firstIds } from '../../ensemble/fake-maker.js';

const FLIGHTS = 1000;

async function tippingOf(...overrides: readonly string[]) {
  const scenario = burdock(...overrides);
  const flyer = createSerialFlyer(fakeMaker(() => 4).maker);
  const batch = { set: 'explore', ids: firstIds(FLIGHTS), heights: [250], detail: 'causes' } as const;
  const [plain] = await flyer.fly(batch);
  const drawer = createDrawer(scenario, '1');
  const { tipping } = await askInputs({
    scenario,
    seed: '1',
    flyer,
    drawer,
    plain,
    set: 'explore',
    limit: 0.05,
    worlds: null,
    stop: undefined,
  });
  return tipping?.rows ?? [];
}

const flown = (rows: Awaited<ReturnType<typeof tippingOf>>) => [
  ...new Set(rows.filter(({ flights }) => flights > 0).map(({ path }) => path)),
];

describe('tipping values of a study', () => {
  it('are read off the plain flights for every guess of the demo', async () => {
    const rows = await tippingOf();
    expect(new Set(rows.map(({ path }) => path)).size).toBe(guesses(burdock()));
    expect(flown(rows)).toEqual([]);
  });

  it('are flown for guesses drawn with others, and for those of a few values', async () => {
    const pair = 'correlations=[{between: [can.arm_drag_area, can.blade_drag_area], rank: 0.5}]';
    expect(flown(await tippingOf(pair))).toEqual(['can.arm_drag_area', 'can.blade_drag_area']);
    const few = 'can.drag_factor={samples: [0.9, 1, 1.2], kind: fixed but not measured}';
    expect(flown(await tippingOf(few))).toEqual(['can.drag_factor']);
  });
});

/** Numbers that nobody has measured: those drawn once for all flights. */
const guesses = (scenario: ReturnType<typeof burdock>) =>
  createDrawer(scenario, '1').drawn.filter(({ unmeasured }) => unmeasured).length;

// What reading them off rests on. For k numbers the largest of the k (k - 1)/2 + 2 k correlations of independent draws stays
// under 4.5 / sqrt(n): normal law, 1 in 400 for k of 26.
describe('the guesses of plain flights', () => {
  it.each(['explore', 'confirm'] as const)('are drawn anew in every flight, apart from one another: %s', (set) => {
    const scenario = burdock();
    const drawer = createDrawer(scenario, '1');
    const n = 4000;
    const columns = unmeasuredDrawn(scenario, drawer, set, firstIds(n)).map(({ uniforms }) => Array.from(uniforms));
    expect(columns).toHaveLength(guesses(scenario));
    const reaction = Array.from(drawer.uniforms('pilot.reaction', set, firstIds(n)));
    const wind = Array.from(drawer.uniforms('wind.speed', set, firstIds(n)));
    const all = [...columns, reaction, wind];
    for (const [i, one] of columns.entries()) {
      expect(new Set(one).size).toBe(n);
      for (const other of all.slice(i + 1)) expect(Math.abs(correlation(one, other))).toBeLessThan(4.5 / Math.sqrt(n));
    }
  });
});

/** Of uniform numbers: mean 1/2, variance 1/12. */
function correlation(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, u, i) => sum + 12 * (u - 0.5) * (other[i] - 0.5), 0) / one.length;
}
