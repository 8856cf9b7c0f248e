import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { fitTriangular, triangularDistance, triangularSpread } from '../../sim/fit/families/triangular.js';

/** Draws from the triangular law on [0, 10] by its inverse. */
function sampleOf(n: number, mode: number, random: () => number): Float64Array {
  return Float64Array.from({ length: n }, () => {
    const u = random();
    return u < mode / 10 ? Math.sqrt(10 * mode * u) : 10 - Math.sqrt(10 * (10 - mode) * (1 - u));
  }).sort();
}

/** Straight from the density, value by value. */
function logLikelihood(sample: Float64Array, from: number, mode: number, to: number): number {
  return sample.reduce((sum, x) => {
    const density = x < mode ? (x - from) / (mode - from) : (to - x) / (to - mode);
    return sum + Math.log((2 * density) / (to - from));
  }, 0);
}

/**
 * Every mode on a grid from the second to the last but one sample, every pair of ends on a grid of their distances to the
 * samples, then finer grids about the best pair.
 */
function byBruteForce(sample: Float64Array): number {
  const n = sample.length;
  const [least, most] = [sample[0], sample[n - 1]];
  const width = most - least;
  const [first, last] = [sample[1], sample[n - 2]];
  const modes = [...sample.slice(1, n - 1), ...Array.from({ length: 19 }, (_, i) => first + ((last - first) * i) / 18)];
  let best = Number.NEGATIVE_INFINITY;
  for (const mode of modes) {
    let [centre, reach] = [[-1, -1], 7];
    let own = Number.NEGATIVE_INFINITY;
    for (let turn = 0; turn < 9; turn++, reach /= 3) {
      const around = centre;
      for (let i = -6; i <= 6; i++) {
        for (let j = -6; j <= 6; j++) {
          const logs = [around[0] + (reach * i) / 6, around[1] + (reach * j) / 6];
          const [from, to] = [least - width * Math.exp(logs[0]), most + width * Math.exp(logs[1])];
          const value = logLikelihood(sample, from, mode, to);
          if (value > own) [own, centre] = [value, logs];
        }
      }
    }
    best = Math.max(best, own);
  }
  return best;
}

describe('A triangular by maximum likelihood', () => {
  it('has the corners of the R package triangle for the sample of Kotz and van Dorp', () => {
    // README of the package (triangle_mle, whose search stops within 1e-6): 0.0076277, 0.3000000, 0.9939370. The sample is from Kotz and van Dorp, Beyond
    // Beta, 2004, section 1.3 (from memory).
    const { from, mode, to } = fitTriangular(Float64Array.of(0.1, 0.25, 0.3, 0.4, 0.45, 0.6, 0.75, 0.8));
    expect(from).toBeCloseTo(0.0076277, 5);
    expect(mode).toBe(0.3);
    expect(to).toBeCloseTo(0.993937, 5);
  });

  it('is as likely as the best of a brute-force grid, no less and no more', () => {
    const random = seedrandom.alea('grid').double;
    for (const [n, mode] of [
      [4, 5],
      [6, 1],
      [9, 9],
      [12, 3],
      [25, 6],
    ]) {
      const sample = sampleOf(n, mode, random);
      const found = fitTriangular(sample);
      expect(found.logLikelihood).toBeCloseTo(logLikelihood(sample, found.from, found.mode, found.to), 9);
      const best = byBruteForce(sample);
      expect(found.logLikelihood).toBeGreaterThan(best - 1e-9);
      expect(found.logLikelihood).toBeLessThan(best + 1e-4);
    }
  });

  it('finds the corners of a large sample', () => {
    const { from, mode, to } = fitTriangular(sampleOf(1000, 3, seedrandom.alea('triangle').double));
    expect(Math.abs(from)).toBeLessThan(0.4);
    expect(Math.abs(mode - 3)).toBeLessThan(0.8);
    expect(Math.abs(to - 10)).toBeLessThan(0.4);
  });

  it('moves and stretches with the samples', () => {
    const sample = sampleOf(15, 3, seedrandom.alea('moved').double);
    const [here, there] = [fitTriangular(sample), fitTriangular(sample.map((x) => 1000 + 1e-3 * x))];
    for (const corner of ['from', 'mode', 'to'] as const)
      expect((there[corner] - 1000) * 1e3).toBeCloseTo(here[corner], 6);
    expect(there.logLikelihood).toBeCloseTo(here.logLikelihood + 15 * Math.log(1000), 6);
  });

  it.each([[[1, 1, 2]], [[1, 2, 2, 2]]])('of two values only, %j, is a wedge that stays finite', (values) => {
    const sample = Float64Array.from(values);
    const found = fitTriangular(sample);
    const { pValue, from, mode, to } = triangularSpread(found, sample.length, triangularDistance(sample, found));
    for (const one of [found.from, found.mode, found.to, found.logLikelihood, pValue, ...from, ...mode, ...to])
      expect(Number.isFinite(one)).toBe(true);
    expect([1, 2]).toContain(found.mode);
  });

  it('has a 5 % point that 5 % of its own samples pass', () => {
    const truth = { from: 0, mode: 3, to: 10, logLikelihood: 0 };
    const point = triangularSpread(truth, 20, 0).points.find(({ level }) => level === 0.05)?.value ?? 0;
    const random = seedrandom.alea('passed').double;
    const passed = Array.from({ length: 400 }, () => {
      const sample = sampleOf(20, 3, random);
      return triangularDistance(sample, fitTriangular(sample)) >= point;
    }).filter(Boolean).length;
    // 20 of 400 are due; standard deviation 4.4, and as much again from the point's own 400 samples: four of both.
    expect(Math.abs(passed - 20)).toBeLessThan(25);
    expect(passed).toBeGreaterThan(2);
  });
});
