import { describe, expect, it } from 'vitest';
import { holm } from '../../sim/statistics/holm.js';
import { kolmogorovPValue, uniformDistance } from '../../sim/statistics/kolmogorov.js';

describe('Kolmogorov law', () => {
  // 5 % points, recomputed with SciPy; they agree with the printed tables of Miller, JASA 51:111, 1956.
  it('has the 5 % points .409246 .294075 .188406 .134028', () => {
    const points: [number, number][] = [
      [10, 0.409246],
      [20, 0.294075],
      [50, 0.188406],
      [100, 0.134028],
    ];
    // Half a unit of the sixth digit of d moves the probability by at most 4 n d 0.05 * 5e-7 = 1.3e-6.
    for (const [n, d] of points) expect(Math.abs(kolmogorovPValue(d, n) - 0.05)).toBeLessThan(1.4e-6);
  });

  // Marsaglia, Tsang and Wang 2003: P(D(10) < 0.274) = 0.6284796154565.
  it('reproduces the published value for n 10, d 0.274', () => {
    expect(1 - kolmogorovPValue(0.274, 10)).toBeCloseTo(0.6284796154565, 9);
  });

  // scipy.stats.kstwo.sf(z / sqrt(n), n), SciPy 1.17.1: an independent implementation.
  it('agrees with another implementation from n 5 to 100 000', () => {
    const reference: [number, number, number][] = [
      [5, 0.5, 0.9162082822963654],
      [5, 1.48, 0.01124820665788382],
      [10, 2, 0.000209088213448878],
      [20, 3, 2.0739486599088113e-9],
      [100, 0.8, 0.5182193645480672],
      [140, 1.3, 0.06303472003210353],
      [141, 0.5, 0.9549094893418928],
      [141, 0.8, 0.5221577963245764],
      [141, 1.48, 0.022837620551714344],
      [141, 1.49, 0.02150089188616989],
      [500, 1.3, 0.06543386037161181],
      [1000, 1, 0.2644092421903177],
      [1000, 2, 0.0006397648803336532],
      [100000, 1.3, 0.06790553067294702],
      [100000, 3, 3.02582317155749e-8],
    ];
    for (const [n, z, expected] of reference) {
      expect(Math.abs(kolmogorovPValue(z / Math.sqrt(n), n) / expected - 1)).toBeLessThan(2e-5);
    }
  });

  it('falls as the distance grows, over every change of method', () => {
    for (const n of [1, 2, 60, 140, 141, 3000]) {
      let last = 1;
      for (let d = 0.001; d < 1; d += 0.001) {
        const p = kolmogorovPValue(d, n);
        expect(p).toBeLessThanOrEqual(last + 1e-9);
        last = p;
      }
    }
  });
});

describe('distance from the uniform', () => {
  it('is that of the worst step of the empirical distribution', () => {
    expect(uniformDistance([0.1, 0.5, 0.9])).toBeCloseTo(1 / 3 - 0.1, 12);
    expect(uniformDistance([0.9, 0.95])).toBeCloseTo(0.9, 12);
  });
});

describe('Holm correction', () => {
  // Worked by hand from the definition: 4 x .005, 3 x .01, 2 x .03, 1 x .04 raised to .06.
  it('multiplies by the tests left and never falls', () => {
    const expected = [0.03, 0.06, 0.06, 0.02];
    holm([0.01, 0.04, 0.03, 0.005]).forEach((p, i) => {
      expect(p).toBeCloseTo(expected[i], 12);
    });
    expect(holm([0.5, 0.9])).toEqual([1, 1]);
    expect(holm([])).toEqual([]);
  });
});
