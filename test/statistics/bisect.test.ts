import { describe, expect, it } from 'vitest';
import { bisect, doubledBracket } from '../../sim/statistics/bisect.js';

describe('bisection', () => {
  it('closes in on the square root of 2 until the bracket is a given share of its upper end', () => {
    const { fails, holds } = bisect({ fails: 1, holds: 2 }, (x) => x * x >= 2, { share: 1e-15 });
    expect(holds - fails).toBeLessThanOrEqual(1e-15 * holds);
    expect(fails * fails).toBeLessThan(2);
    expect(holds).toBeCloseTo(Math.SQRT2, 14);
  });

  it('leaves 2^-k of the width after k halvings, also where the condition holds on the lower side', () => {
    // x <= 1/3 turns between 0.25 and 0.375 on a grid of eighths.
    expect(bisect({ fails: 1, holds: 0 }, (x) => x <= 1 / 3, { halvings: 3 })).toEqual({ fails: 0.375, holds: 0.25 });
    expect(bisect({ fails: 1, holds: 0 }, (x) => x <= 1 / 3, { halvings: 0 })).toEqual({ fails: 1, holds: 0 });
  });

  it('finds neighbouring whole numbers, on either side of 0 and in either direction', () => {
    for (const turn of [-7, -1, 0, 3, 99, 100]) {
      const up = bisect({ fails: -8, holds: 100 }, (n) => n >= turn, 'whole numbers');
      expect(up).toEqual({ fails: turn - 1, holds: turn });
      const down = bisect({ fails: 101, holds: -8 }, (n) => n <= turn, 'whole numbers');
      expect(down).toEqual({ fails: turn + 1, holds: turn });
    }
    expect(bisect({ fails: 4, holds: 5 }, () => expect.unreachable(), 'whole numbers')).toEqual({ fails: 4, holds: 5 });
  });
});

describe('a bracket by doubling', () => {
  const from = (turn: number, most: number) => doubledBracket({ fails: 0, first: 1, most }, (x) => x >= turn);

  it('ends at the first of 1, 2, 4 ... at which the condition holds', () => {
    expect(from(1, 100)).toEqual({ fails: 0, holds: 1 });
    expect(from(2, 100)).toEqual({ fails: 1, holds: 2 });
    expect(from(5, 100)).toEqual({ fails: 4, holds: 8 });
  });

  it('looks no further than the most, and says so where the condition fails there', () => {
    expect(from(70, 100)).toEqual({ fails: 64, holds: 100 });
    expect(from(100, 100)).toEqual({ fails: 64, holds: 100 });
    expect(from(101, 100)).toBeNull();
    expect(doubledBracket({ fails: 0, first: 8, most: 5 }, (x) => x >= 3)).toEqual({ fails: 0, holds: 5 });
  });
});
