import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { largestRemainder } from '../../sim/statistics/largest-remainder.js';

const counts = fc
  .array(fc.nat(100_000), { minLength: 1, maxLength: 6 })
  .filter((all) => all.some((count) => count > 0));

describe('The largest remainder', () => {
  test('always adds up and is never further than one from the share', () => {
    fc.assert(
      fc.property(counts, (all) => {
        const sum = all.reduce((total, count) => total + count, 0);
        const whole = largestRemainder(all);
        expect(whole.reduce((total, count) => total + count, 0)).toBe(100);
        for (const [index, icons] of whole.entries())
          expect(Math.abs(icons - (100 * all[index]) / sum)).toBeLessThan(1);
      }),
    );
  });

  test('gives seats as worked by hand', () => {
    // Shares 61.5, 23.1, 15.4: whole parts 61, 23, 15, the one left over goes to the remainder .5.
    expect(largestRemainder([800, 300, 200])).toEqual([62, 23, 15]);
  });

  // The example by which textbooks tell the method (from memory): a quota of 10 000 votes a seat gives 4, 1, 1, 1, 0, 0
  // at once, and the remainders .7, .6, .59, .2, .6, .31 give the last three seats to the first, second and fifth party.
  test('fills ten seats from 100 000 votes of six parties', () => {
    expect(largestRemainder([47_000, 16_000, 15_900, 12_000, 6000, 3100], 10)).toEqual([5, 2, 1, 1, 1, 0]);
  });

  // The Alabama paradox in its smallest form (from memory): states of 6, 6 and 2 have 4.29, 4.29, 1.43 of 10 seats and
  // 4.71, 4.71, 1.57 of 11.
  test('takes a seat from the smallest state when the house grows from 10 to 11', () => {
    expect(largestRemainder([6, 6, 2], 10)).toEqual([4, 4, 2]);
    expect(largestRemainder([6, 6, 2], 11)).toEqual([5, 5, 1]);
  });

  test('gives equal remainders to the first, and nothing where nothing was counted', () => {
    expect(largestRemainder([1, 1, 1])).toEqual([34, 33, 33]);
    expect(largestRemainder([0, 0])).toEqual([0, 0]);
  });
});
