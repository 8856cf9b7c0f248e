import { describe, expect, it } from 'vitest';
import { chiSquareQuantile, studentQuantile } from '../../sim/statistics/student.js';

describe("Student's t and chi-squared quantiles", () => {
  // Fisher and Yates, Statistical Tables; the values stand in every textbook.
  it.each([
    [0.975, 1, 12.7062],
    [0.975, 4, 2.77645],
    [0.95, 10, 1.81246],
    [0.975, 23, 2.06866],
    [0.5, 7, 0],
    [0.025, 4, -2.77645],
  ])('give t(%d; %d) = %d', (p, freedom, value) => {
    expect(studentQuantile(p, freedom)).toBeCloseTo(value, 4);
  });

  it.each([
    [0.025, 4, 0.484419],
    [0.975, 4, 11.1433],
    [0.5, 23, 22.3369],
    [0.95, 1, 3.84146],
  ])('give chi-squared(%d; %d) = %d', (p, freedom, value) => {
    expect(chiSquareQuantile(p, freedom)).toBeCloseTo(value, 4);
  });

  it('tend to the normal quantile', () => {
    expect(studentQuantile(0.975, 1e7)).toBeCloseTo(1.959964, 5);
  });
});
