import { describe, expect, it } from 'vitest';
import { heightGrid } from '../../sim/decision/height-grid.js';
import { answered } from '../answers.js';

describe('the grid of heights', () => {
  it('holds about ten heights from a quarter of the planned one to twice it, and the planned one', () => {
    const grid = heightGrid({ kind: 'standard' }, 250, 640);
    expect(grid).toEqual({ status: 'ok', value: [60, 90, 110, 140, 160, 200, 250, 310, 400, 500] });
  });

  it('ends with the highest step under the ejection', () => {
    const grid = heightGrid({ kind: 'standard' }, 250, 307);
    expect(grid).toEqual({ status: 'ok', value: [60, 90, 110, 140, 160, 200, 250, 300] });
  });

  it('is finer for a low drop, and never at or below the ground', () => {
    const heights = answered(heightGrid({ kind: 'standard' }, 3, 8));
    expect(heights).toContain(3);
    expect(Math.min(...heights)).toBeGreaterThan(0);
  });

  it('adds the planned height to a list, sorts it and takes each height once', () => {
    const grid = heightGrid({ kind: 'list', heights: [300, 80, 80, 120] }, 250, 640);
    expect(grid).toEqual({ status: 'ok', value: [80, 120, 250, 300] });
  });

  it('is the planned height alone where that is asked for', () => {
    expect(heightGrid({ kind: 'planned' }, 250, 640)).toEqual({ status: 'ok', value: [250] });
  });

  it('refuses heights above the low ejections, naming them and the highest one possible', () => {
    const grid = heightGrid({ kind: 'list', heights: [100, 700, 800] }, 250, 640.7);
    expect(grid).toMatchObject({ status: 'refused', messages: [expect.stringMatching(/700, 800 m.*at most 640 m/)] });
  });

  it('refuses a plan above the low ejections', () => {
    const grid = heightGrid({ kind: 'planned' }, 650, 640);
    expect(grid).toMatchObject({ status: 'refused', messages: [expect.stringContaining('plan.throttle_up_height')] });
  });
});
