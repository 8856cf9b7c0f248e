import { describe, expect, it } from 'vitest';
import { chiSquareQuantile, studentQuantile } from '../../sim/statistics/student.js';

describe("Student's t and chi-squared quantiles", () => {
  // Recomputed with SciPy 1.17.1, as those of chi-squared below.
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

  // Closed forms of the distribution functions: 1 and 4 degrees of freedom, and chi-squared of 4.
  it.each([0.6, 0.95, 0.975, 0.999])('go back to %d through the closed forms', (p) => {
    expect(studentQuantile(p, 1)).toBeCloseTo(Math.tan(Math.PI * (p - 0.5)), 8);
    const sine = studentQuantile(p, 4) / Math.hypot(2, studentQuantile(p, 4));
    expect(0.5 + (sine * (3 - sine * sine)) / 4).toBeCloseTo(p, 10);
    const half = chiSquareQuantile(p, 4) / 2;
    expect(1 - Math.exp(-half) * (1 + half)).toBeCloseTo(p, 10);
  });

  it('tend to the normal quantile', () => {
    expect(studentQuantile(0.975, 1e7)).toBeCloseTo(1.959964, 5);
  });
});
