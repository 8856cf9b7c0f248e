import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { quantileWithInterval, sortedValues } from '../../sim/statistics/quantile.js';

/** JCGM 101:2008, clause 9.2: a sum of four inputs by the Monte Carlo method, ends of the shortest 95 % interval. */
const FLIGHTS = 100_000;

function sums(seed: string, inputs: readonly ((uniform: number) => number)[]): Float64Array {
  const streams = inputs.map((_, index) => seedrandom(`${seed} ${index}`));
  const values = Float64Array.from({ length: FLIGHTS }, () =>
    inputs.reduce((sum, input, index) => sum + input(streams[index].double()), 0),
  );
  return sortedValues(values);
}

const normal = (uniform: number): number => normalQuantile(uniform, 0, 1);
const rectangular = (uniform: number): number => Math.sqrt(3) * (2 * uniform - 1);
const wide = (uniform: number): number => 10 * rectangular(uniform);

describe('the additive model of JCGM 101', () => {
  const cases: [string, readonly ((uniform: number) => number)[], number, number][] = [
    ['four normal inputs', [normal, normal, normal, normal], 2, 3.919928],
    ['four rectangular inputs', [rectangular, rectangular, rectangular, rectangular], 2, 3.879407],
    // Exact value recomputed; JCGM prints 17.0.
    ['one input ten times wider', [rectangular, rectangular, rectangular, wide], 10.148892, 17.015814],
  ];
  for (const [name, inputs, deviation, end] of cases) {
    it(`has the published ends with ${name}`, () => {
      const sorted = sums(name, inputs);
      const [lower, upper] = [0.025, 0.975].map((p) => quantileWithInterval(sorted, p, 0.999));
      expect(lower.lower).toBeLessThan(-end);
      expect(lower.upper).toBeGreaterThan(-end);
      expect(upper.lower).toBeLessThan(end);
      expect(upper.upper).toBeGreaterThan(end);
      // Standard error of a standard deviation: at most u / sqrt(2 n) for these laws; four of them.
      const square = sorted.reduce((sum, value) => sum + value * value, 0) / FLIGHTS;
      expect(Math.abs(Math.sqrt(square) / deviation - 1)).toBeLessThan(4 / Math.sqrt(2 * FLIGHTS));
    });
  }
});
