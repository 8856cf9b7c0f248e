import { sampleCorrelation, sampleRankCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { correlatedGroups } from '../../sim/distributions/correlation.js';
import type { Correlation } from '../../sim/distributions/distribution.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { fixed, scenarioOf, unmeasured, varies } from '../draws/scenario.js';

const N = 20_000;
const IDS = Uint32Array.from({ length: N }, (_, i) => i);
const PATHS = ['site.temperature', 'wind.speed', 'can.mass', 'pad.wait'];

const tie = (one: string, other: string, rank: number): Correlation => ({ between: [one, other], rank });

function drawer(correlations: readonly Correlation[]) {
  const inputs = {
    'site.temperature': varies({ family: 'normal', mean: 300, sd: 4 }),
    'wind.speed': varies({ family: 'weibull', shape: 2, scale: 3.5 }),
    'can.mass': varies({ family: 'normal', mean: 0.6, sd: 0.01 }, [0.58, 0.61]),
    'pad.wait': varies({ family: 'triangular', from: 300, mode: 1200, to: 3600 }),
    'can.diameter': fixed(0.08),
  };
  return createDrawer(scenarioOf({ inputs, correlations }), 'seed');
}

/** Standard error of a rank correlation of n normal pairs, from above: 1.06 (1 - rho^2)/sqrt(n) and 1/sqrt(n). */
const LIMIT = 5 / Math.sqrt(N);

describe('rank correlation', () => {
  const correlations = [
    tie('site.temperature', 'wind.speed', 0.7),
    tie('wind.speed', 'pad.wait', -0.4),
    tie('can.mass', 'wind.speed', 0.2),
  ];

  test('comes out as stated for every pair, stated or not, in the drawn inputs themselves', () => {
    const tied = drawer(correlations);
    const values: number[][] = [[], [], [], []];
    for (const id of IDS) {
      const { site, wind, can, pad } = tied.draw('explore', id).inputs;
      [site.temperature, wind.speed, can.mass, pad.wait].forEach((value, i) => {
        values[i].push(value);
      });
    }
    const rank = (i: number, j: number) => sampleRankCorrelation(values[i], values[j]);
    expect(Math.abs(rank(0, 1) - 0.7)).toBeLessThan(LIMIT);
    expect(Math.abs(rank(1, 3) + 0.4)).toBeLessThan(LIMIT);
    expect(Math.abs(rank(1, 2) - 0.2)).toBeLessThan(LIMIT);
    expect(Math.abs(rank(0, 2))).toBeLessThan(LIMIT);
    expect(Math.abs(rank(0, 3))).toBeLessThan(LIMIT);
    expect(Math.abs(rank(2, 3))).toBeLessThan(LIMIT);
  });

  test('leaves each input its own distribution', () => {
    const tied = drawer(correlations);
    for (const path of PATHS) {
      const sorted = tied.uniforms(path, 'explore', IDS).sort();
      const distance = sorted.reduce((most, u, i) => Math.max(most, Math.abs(u - (i + 0.5) / N)), 0);
      // Kolmogorov's limiting law: sqrt(n) D is over 2.69 once in a million.
      expect(distance * Math.sqrt(N), path).toBeLessThan(2.69);
    }
  });

  test('leaves the first input of a group, and all outside it, bit by bit as they were', () => {
    const free = drawer([]);
    const tied = drawer([tie('wind.speed', 'pad.wait', 0.5)]);
    for (const path of ['site.temperature', 'wind.speed', 'can.mass'])
      expect(tied.uniforms(path, 'explore', IDS)).toEqual(free.uniforms(path, 'explore', IDS));
    expect(tied.uniforms('pad.wait', 'explore', IDS)).not.toEqual(free.uniforms('pad.wait', 'explore', IDS));
  });

  test('of 1 and -1 ties inputs wholly', () => {
    const same = drawer([tie('wind.speed', 'pad.wait', 1)]);
    const opposite = drawer([tie('wind.speed', 'pad.wait', -1)]);
    const speed = same.uniforms('wind.speed', 'explore', IDS);
    expect(sampleCorrelation([...speed], [...same.uniforms('pad.wait', 'explore', IDS)])).toBeGreaterThan(0.999999);
    expect(sampleCorrelation([...speed], [...opposite.uniforms('pad.wait', 'explore', IDS)])).toBeLessThan(-0.999999);
  });

  test('with an input that is held fixed has no effect', () => {
    const tied = drawer([tie('can.diameter', 'wind.speed', 0.8)]);
    expect(tied.uniforms('wind.speed', 'explore', IDS)).toEqual(drawer([]).uniforms('wind.speed', 'explore', IDS));
  });

  test('of unmeasured inputs holds between worlds', () => {
    const inputs = {
      'can.drag_factor': unmeasured({ family: 'log-normal', median: 1, spread: 0.1 }),
      'rotors.vortex_ring_depth': unmeasured({ family: 'uniform', from: 0.1, to: 0.4 }),
    };
    const ties = [tie('can.drag_factor', 'rotors.vortex_ring_depth', 0.6)];
    const tied = createDrawer(scenarioOf({ inputs, correlations: ties }), 'seed');
    const first = tied.uniforms('can.drag_factor', 'worlds', [0, 59, 60]);
    const second = tied.uniforms('rotors.vortex_ring_depth', 'worlds', [0, 59, 60]);
    expect(first[0]).toBe(first[1]);
    expect(second[0]).toBe(second[1]);
    expect(second[1]).not.toBe(second[2]);
    const worlds = Uint32Array.from({ length: 2000 }, (_, i) => 60 * i);
    const rank = sampleRankCorrelation(
      [...tied.uniforms('can.drag_factor', 'worlds', worlds)],
      [...tied.uniforms('rotors.vortex_ring_depth', 'worlds', worlds)],
    );
    expect(Math.abs(rank - 0.6)).toBeLessThan(5 / Math.sqrt(2000));
  });
});

describe('correlations that no joint distribution has', () => {
  test('are found: one input follows two others that are opposed', () => {
    const [group] = correlatedGroups(
      [tie('a', 'b', 0.9), tie('b', 'c', 0.9), tie('a', 'c', -0.9)],
      ['a', 'b', 'c', 'd'],
    );
    expect(group.paths).toEqual(['a', 'b', 'c']);
    expect(group.factor).toBeNull();
  });

  test('are found: two inputs wholly tied, and a third tied to one of them alone', () => {
    const [group] = correlatedGroups([tie('a', 'b', 1), tie('b', 'c', 0.5)], ['a', 'b', 'c']);
    expect(group.factor).toBeNull();
  });

  test('stop the making of a drawer, as a reader of scenarios must not let them through', () => {
    const impossible = [
      tie('site.temperature', 'wind.speed', 0.9),
      tie('wind.speed', 'pad.wait', 0.9),
      tie('site.temperature', 'pad.wait', -0.9),
    ];
    expect(() => drawer(impossible)).toThrow(/No joint distribution/);
  });

  test('or that join inputs of two kinds stop it too', () => {
    const inputs = {
      'can.drag_factor': unmeasured({ family: 'log-normal', median: 1, spread: 0.1 }),
      'can.mass': varies({ family: 'normal', mean: 0.6, sd: 0.01 }),
    };
    const scenario = scenarioOf({ inputs, correlations: [tie('can.drag_factor', 'can.mass', 0.5)] });
    expect(() => createDrawer(scenario, 's')).toThrow(/two kinds/);
  });
});

test('the factor of a possible group gives back the normal correlations', () => {
  // r = 2 sin(pi rho/6): rho 0.5 -> 0.517638; the product of the factor with its transpose is the matrix.
  const [{ factor }] = correlatedGroups([tie('a', 'b', 0.5), tie('b', 'c', -0.3)], ['a', 'b', 'c']);
  const product = (i: number, j: number) =>
    [0, 1, 2].reduce((sum, k) => sum + (factor?.[3 * i + k] ?? Number.NaN) * (factor?.[3 * j + k] ?? Number.NaN), 0);
  expect(product(0, 1)).toBeCloseTo(0.5176380902, 9);
  expect(product(1, 2)).toBeCloseTo(2 * Math.sin((-0.3 * Math.PI) / 6), 12);
  expect(product(0, 2)).toBeCloseTo(0, 12);
  expect(product(2, 2)).toBeCloseTo(1, 12);
});
