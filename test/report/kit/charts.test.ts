import { describe, expect, test } from 'vitest';
import { riskFloor, riskTicks } from '../../../report/kit/chart-style.js';
import { textWidth } from '../../../report/kit/draw.js';

describe('The width of a text', () => {
  test('is within a sixth of that of Helvetica, and never under it', () => {
    // Adobe Font Metrics of Helvetica (from memory): H 722, e 556, i 222, g 556, h 556, t 278, space 278, m 833.
    const height = (722 + 556 + 222 + 556 + 556 + 278) / 1000;
    expect(textWidth('Height')).toBeGreaterThanOrEqual(height);
    expect(textWidth('Height')).toBeLessThan(height * (7 / 6));
    expect(textWidth('')).toBe(0);
  });
});

describe('A logarithmic axis of risk', () => {
  test('begins at a round figure under the lowest one it shows', () => {
    expect(riskFloor([5, 2.6, 2.3])).toBe(0.5);
    expect(riskFloor([5, 0.03])).toBe(0.02);
    expect(riskFloor([0, 5])).toBe(0.5);
  });

  test('has ticks 1, 2, 5 where they fit, and tens where they would crowd', () => {
    expect(riskTicks(0.5)).toEqual([0.5, 1, 2, 5, 10, 20, 50, 100]);
    expect(riskTicks(0.02)).toEqual([0.02, 0.1, 1, 10, 100]);
  });
});
