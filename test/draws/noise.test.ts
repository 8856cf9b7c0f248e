import { mean, sampleCorrelation, sampleSkewness, sampleVariance } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { standardNormalBelow, standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import type { NoiseSeries } from '../../sim/draws/draw.js';
import { createNoise } from '../../sim/draws/noise.js';
import { generatorOf, streamKey } from '../../sim/draws/streams.js';

const NONE = new Set<string>();

function read(series: NoiseSeries, columns: number, nodes: number): number[] {
  return Array.from({ length: nodes * columns }, (_, i) => series.at(Math.floor(i / columns), i % columns));
}

describe('noise', () => {
  test('is the same in whatever order the nodes are read', () => {
    const one = createNoise('s');
    const other = createNoise('s');
    one.start('explore', 7, NONE);
    other.start('explore', 7, NONE);
    const forward = read(one.noise.gusts, 3, 2000);
    for (const node of [1999, 3, 3, 700, 0, 1998])
      for (const column of [2, 0, 1]) {
        expect(other.noise.gusts.at(node, column)).toBe(forward[3 * node + column]);
        expect(one.noise.gusts.at(node, column)).toBe(forward[3 * node + column]);
      }
  });

  test('belongs to the flight: another flight, set or seed gives other noise, and coming back the same', () => {
    const noise = createNoise('s');
    const other = createNoise('t');
    const starts = [
      () => noise.start('explore', 7, NONE),
      () => noise.start('explore', 8, NONE),
      () => noise.start('confirm', 7, NONE),
    ];
    const seen = starts.map((start) => {
      start();
      return noise.noise.gusts.at(40, 1);
    });
    other.start('explore', 7, NONE);
    expect(new Set([...seen, other.noise.gusts.at(40, 1)]).size).toBe(4);
    starts[0]();
    expect(noise.noise.gusts.at(40, 1)).toBe(seen[0]);
  });

  test('of one series does not depend on how much of another was read', () => {
    const noise = createNoise('s');
    noise.start('explore', 1, NONE);
    const alone = noise.noise.throttle.at(0, 0);
    noise.start('explore', 2, NONE);
    noise.start('explore', 1, NONE);
    read(noise.noise.gusts, 3, 500);
    read(noise.noise.callOut, 1, 500);
    expect(noise.noise.throttle.at(0, 0)).toBe(alone);
  });

  for (const name of ['gusts', 'callOut', 'throttle'] as const)
    test(`${name}: standard normal numbers without memory`, () => {
      const noise = createNoise('s');
      noise.start('explore', 0, NONE);
      const n = 60_000;
      const values = name === 'gusts' ? read(noise.noise.gusts, 3, n / 3) : read(noise.noise[name], 1, n);
      // Standard errors for n independent normal numbers: mean 1/sqrt(n), variance sqrt(2/n), skewness sqrt(6/n).
      expect(Math.abs(mean(values))).toBeLessThan(5 / Math.sqrt(n));
      expect(Math.abs(sampleVariance(values) - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
      expect(Math.abs(sampleSkewness(values))).toBeLessThan(5 * Math.sqrt(6 / n));
      for (const lag of [1, 2, 3])
        expect(Math.abs(sampleCorrelation(values.slice(lag), values.slice(0, -lag)))).toBeLessThan(5 / Math.sqrt(n));
      for (const z of [-3, -2, -1, 0, 1, 2, 3]) {
        const expected = standardNormalBelow(z);
        const share = values.filter((value) => value < z).length / n;
        expect(Math.abs(share - expected)).toBeLessThan(5 * Math.sqrt((expected * (1 - expected)) / n));
      }
    });

  test('is the normal quantile of its uniform numbers within 2e-4, in the tails exactly', () => {
    const noise = createNoise('s');
    noise.start('explore', 5, NONE);
    const uniform = generatorOf(streamKey('s', 'explore', 'noise.throttle', 5));
    let [tails, worst] = [0, 0];
    for (const value of read(noise.noise.throttle, 1, 200_000)) {
      const u = uniform();
      const exact = standardNormalQuantile(u, 1 - u);
      worst = Math.max(worst, Math.abs(value - exact));
      if (Math.abs(exact) < 2.661) continue;
      tails += 1;
      expect(value).toBe(exact);
    }
    expect(worst).toBeLessThan(2e-4);
    expect(tails).toBeGreaterThan(1000);
  });

  test('of neighbouring flights is unrelated', () => {
    const noise = createNoise('s');
    const beginnings = Array.from({ length: 10_000 }, (_, id) => {
      noise.start('explore', id, NONE);
      return noise.noise.gusts.at(0, 0);
    });
    expect(Math.abs(sampleCorrelation(beginnings.slice(1), beginnings.slice(0, -1)))).toBeLessThan(0.05);
    expect(Math.abs(sampleVariance(beginnings) - 1)).toBeLessThan(5 * Math.sqrt(2 / 10_000));
  });

  test('outages: unit-exponential gaps and lengths', () => {
    const noise = createNoise('s');
    noise.start('explore', 0, NONE);
    const values = read(noise.noise.outages, 2, 20_000);
    // Mean and variance of the unit exponential are 1; standard errors 1/sqrt(n) and sqrt(8/n).
    expect(Math.abs(mean(values) - 1)).toBeLessThan(5 / Math.sqrt(40_000));
    expect(Math.abs(sampleVariance(values) - 1)).toBeLessThan(5 * Math.sqrt(8 / 40_000));
    expect(Math.min(...values)).toBeGreaterThanOrEqual(0);
  });

  test('that is held is zero, a held outage never comes, and the rest goes on as drawn', () => {
    const noise = createNoise('s');
    noise.start('explore', 3, NONE);
    const throttle = read(noise.noise.throttle, 1, 100);
    noise.start('explore', 3, new Set(['noise.gusts', 'noise.outages']));
    expect(read(noise.noise.gusts, 3, 1000).every((value) => value === 0)).toBe(true);
    expect(noise.noise.outages.at(0, 0)).toBeGreaterThan(1e9);
    expect(noise.noise.outages.at(0, 1)).toBe(0);
    expect(read(noise.noise.throttle, 1, 100)).toEqual(throttle);
    noise.start('explore', 3, NONE);
    expect(noise.noise.gusts.at(0, 0)).not.toBe(0);
  });

  test('asked for far beyond any flight is a bug that says so', () => {
    expect(() => createNoise('s').noise.gusts.at(1e9, 0)).toThrow(/beyond any flight/);
  });
});
