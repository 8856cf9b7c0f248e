import { describe, expect, it } from 'vitest';
import { standingOf } from '../../../report/kit/words/standing.js';
import type { HeightPoint } from '../../../sim/assess/result.js';
import type { HeightDecision } from '../../../sim/decision/result.js';
import { proportion } from '../../../sim/statistics/proportion.js';

const point = (flights: number, verdict: HeightPoint['verdict']): HeightPoint =>
  ({ height: 310, risk: proportion(Math.round(0.02 * flights), flights), verdict }) as HeightPoint;
const decided = (verdict: string) => ({ explored: [{ height: 310, verdict }] }) as unknown as HeightDecision;

describe('how a height with fewer flights than asked for stands', () => {
  it('has too few to judge, though its interval is under the limit', () => {
    expect(standingOf(point(300, 'within'), { flights: 8000, heightDecision: decided('not shown') })).toBe('too few');
    expect(standingOf(point(300, 'within'), { flights: 8000, heightDecision: null })).toBe('too few');
  });
  it('is within where the search settled it early', () => {
    expect(standingOf(point(2000, 'within'), { flights: 8000, heightDecision: decided('within') })).toBe('within');
  });
  it('is given up where it is above', () => {
    expect(standingOf(point(300, 'above'), { flights: 8000, heightDecision: decided('above') })).toBe('given up');
  });
});
