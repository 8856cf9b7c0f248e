import { describe, expect, it } from 'vitest';
import { driversOf } from '../../../sim/assess/questions/drivers.js';
import { betterSideOf, worseQuantile } from '../../../sim/assess/questions/held-input.js';
import { createSyntheticFlyer } from '../../decision/synthetic-flyer.js';

const FLIGHTS = 2000;
const IDS = Uint32Array.from({ length: FLIGHTS }, (_, id) => id);
const PATHS = Array.from({ length: 25 }, (_, index) => `dummy ${index}`);

describe('what drives the risk', () => {
  it('flags one of 25 dummy inputs in at most 5 % of studies', async () => {
    const studies = 150;
    let flagged = 0;
    for (let study = 0; study < studies; study++) {
      const flyer = createSyntheticFlyer({ seed: `drivers ${study}`, risk: () => 0.08 });
      const [columns] = await flyer.fly({ set: 'explore', ids: IDS, heights: [100], detail: 'causes' });
      const inputs = PATHS.map((path) => ({ path, uniforms: flyer.uniforms(path, 'explore', FLIGHTS) }));
      if (driversOf(columns, inputs).groups.some(({ rows }) => rows.some((row) => row.flagged))) flagged += 1;
    }
    // Binomial(150, 0.05): 7.5, standard deviation 2.7.
    expect(flagged).toBeGreaterThan(0);
    expect(flagged).toBeLessThanOrEqual(13);
  });

  it('flags the inputs that matter, by cause, and says where the failed flights crowd', async () => {
    const flyer = createSyntheticFlyer({
      seed: 'crowds',
      inputs: [{ path: 'late' }, { path: 'chance' }, { path: 'both' }, { path: 'none' }],
      risk: (_, [late, chance, both]) =>
        chance < 0.04 ? 1 : 0.1 * late ** 2 + (Math.abs(both - 0.5) > 0.45 ? 0.2 : 0),
      cause: ([, chance]) => (chance < 0.04 ? 'arm release' : 'reaction'),
    });
    const ids = Uint32Array.from({ length: 2 * FLIGHTS }, (_, id) => id);
    const [columns] = await flyer.fly({ set: 'explore', ids, heights: [100], detail: 'causes' });
    const inputs = ['late', 'chance', 'both', 'none'].map((path) => ({
      path,
      uniforms: flyer.uniforms(path, 'explore', 2 * FLIGHTS),
    }));
    const { groups } = driversOf(columns, inputs);
    expect(groups.map(({ cause }) => cause)).toEqual(['all', 'arm release', 'reaction']);
    expect(groups[0].failures).toBe(groups[1].failures + groups[2].failures);
    const crowds = (cause: string) =>
      Object.fromEntries(
        (groups.find((group) => group.cause === cause)?.rows ?? [])
          .filter(({ flagged }) => flagged)
          .map(({ path, crowds }) => [path, crowds]),
      );
    expect(crowds('arm release')).toEqual({ chance: 'low values' });
    expect(crowds('reaction')).toMatchObject({ late: 'high values', both: 'both ends' });
    expect(groups[0].rows.slice(0, 2).map(({ path }) => path)).toEqual(['chance', 'late']);
    expect(betterSideOf(inputs[0].uniforms, columns.outcome)).toBe('low');
    expect(betterSideOf(inputs[3].uniforms, columns.outcome)).toBeUndefined();
  });

  it('does not rank under 100 failures', async () => {
    const flyer = createSyntheticFlyer({ seed: 'few', risk: () => 0.03 });
    const [columns] = await flyer.fly({ set: 'explore', ids: IDS, heights: [100], detail: 'causes' });
    const [all] = driversOf(columns, [{ path: 'x', uniforms: flyer.uniforms('x', 'explore', FLIGHTS) }]).groups;
    expect(all.status).toBe('too few to rank');
    expect(all.rows).toEqual([]);
  });
});

describe('the worse side of a guess', () => {
  it('lies opposite to the better one', () => {
    expect(worseQuantile({ path: 'x', better: 'low' }, 0.25)).toBe(0.75);
    expect(worseQuantile({ path: 'x', better: 'high' }, 0.25)).toBe(0.25);
    expect(worseQuantile({ path: 'x', better: 'middle' }, 0.25)).toBe(0.875);
    expect(worseQuantile({ path: 'x' }, 0.25)).toBeNull();
  });
});
