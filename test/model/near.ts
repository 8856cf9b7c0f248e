import { expect } from 'vitest';

/** Expects `actual` within a relative tolerance of `expected`. */
export function expectRelative(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
}

/** Expects `actual` within an absolute tolerance of `expected`. */
export function expectWithin(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
}
