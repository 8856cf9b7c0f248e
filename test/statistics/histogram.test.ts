import { describe, expect, it } from 'vitest';
import { convergence } from '../../sim/statistics/convergence.js';
import { speedHistogram } from '../../sim/statistics/histogram.js';
import { clopperPearson } from '../../sim/statistics/proportion.js';

describe('histogram of touchdown speeds', () => {
  it('counts by outcome, keeps the lower edge, and leaves out what has no speed', () => {
    const found = speedHistogram([0, 0, 1, 2, 2, 3, 0], [0, 0.5, 1.9, 2, 99, 1, Number.NaN], {
      from: 0,
      width: 0.5,
      count: 4,
    });
    expect(found.soft).toEqual([1, 1, 0, 0]);
    expect(found.hard).toEqual([0, 0, 0, 1]);
    expect(found.crash).toEqual([0, 0, 0, 0]);
    expect(found.beyond).toEqual([0, 0, 2]);
  });
});

describe('convergence', () => {
  it('ends at all flights, with the interval of that count', () => {
    const outcome = Array.from({ length: 777 }, (_, i) => (i % 10 === 3 ? 2 : 0));
    const found = convergence(outcome);
    expect(found.flights[0]).toBe(10);
    expect(found.flights.at(-1)).toBe(777);
    expect(found.estimate.at(-1)).toBe(78 / 777);
    expect(found.upper.at(-1)).toBe(clopperPearson(78, 777).upper);
    expect(new Set(found.flights).size).toBe(found.flights.length);
  });

  it('of no flights has no points', () => {
    expect(convergence([]).flights).toEqual([]);
  });
});
