/** Means and straight lines with the standard errors that their own residuals give. */

import { linearRegression } from 'simple-statistics';
import { studentQuantile } from '../statistics/student.js';
import type { Measured } from './result.js';

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function meanWithError(values: readonly number[]): Measured {
  const value = mean(values);
  if (values.length < 3) return { value, error: null };
  const sd = Math.sqrt(values.reduce((sum, one) => sum + (one - value) ** 2, 0) / (values.length - 1));
  return { value, error: widened(sd / Math.sqrt(values.length), values.length - 1) };
}

/** A standard error, widened so that 1.96 times the widened error reaches as far as Student's t times the error itself. */
export function widened(error: number, freedom: number): number {
  return (error * studentQuantile(0.975, freedom)) / 1.96;
}

export interface Line {
  readonly slope: Measured;
  readonly intercept: Measured;
}

/** Least squares y = intercept + slope x, with standard errors from the residuals. */
export function straightLine(x: readonly number[], y: readonly number[]): Line {
  const n = x.length;
  const { m: slope, b: intercept } = linearRegression(x.map((one, i) => [one, y[i]]));
  if (n < 3) return { slope: { value: slope, error: null }, intercept: { value: intercept, error: null } };
  const mx = mean(x);
  const sxx = x.reduce((sum, one) => sum + (one - mx) ** 2, 0);
  const rest = x.reduce((sum, one, i) => sum + (y[i] - intercept - slope * one) ** 2, 0) / (n - 2);
  return {
    slope: { value: slope, error: widened(Math.sqrt(rest / sxx), n - 2) },
    intercept: { value: intercept, error: widened(Math.sqrt(rest * (1 / n + mx ** 2 / sxx)), n - 2) },
  };
}
