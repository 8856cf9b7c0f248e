import { describe, expect, it } from 'vitest';
import { standingOf } from '../../../report/kit/words/standing.js';
import type { HeightPoint } from '../../../sim/assess/result.js';
import { proportion } from '../../../sim/statistics/proportion.js';

const point = (flights: number, verdict: HeightPoint['verdict']): HeightPoint =>
  ({ height: 310, risk: proportion(Math.round(0.02 * flights), flights), verdict }) as HeightPoint;

describe('how a height with fewer flights than asked for stands', () => {
  it('has too few to judge where the one verdict of the result is open', () => {
    expect(standingOf(point(300, 'not shown'), { flights: 8000 })).toBe('too few');
    expect(standingOf(point(8000, 'not shown'), { flights: 8000 })).toBe('not shown');
  });
  it('is within where the search settled it early', () => {
    expect(standingOf(point(2000, 'within'), { flights: 8000 })).toBe('within');
  });
  it('is given up where it is above', () => {
    expect(standingOf(point(300, 'above'), { flights: 8000 })).toBe('given up');
  });
});
