import { proportion } from './proportion.js';

/** Points for each factor of ten in the number of flights. */
const POINTS_A_DECADE = 12;
const FIRST_POINT = 10;

/**
 * The estimate and its 90 % interval after the first 10, 12, 15 ... n flights, evenly on a logarithmic scale. Each
 * interval holds by itself; a path that is watched all along crosses a limit more often than a single look at it would.
 *
 * @param failed 0 for each flight that did not fail, in the order of flying
 */
export function convergence(failed: ArrayLike<number>): Convergence {
  const flights: number[] = [];
  const points = [];
  let count = 0;
  let exponent = 0;
  for (let i = 0; i < failed.length; i++) {
    if (failed[i] !== 0) count += 1;
    const due = Math.round(FIRST_POINT * 10 ** (exponent / POINTS_A_DECADE));
    if (i + 1 !== due && i + 1 !== failed.length) continue;
    flights.push(i + 1);
    points.push(proportion(count, i + 1));
    exponent += 1;
  }
  return {
    flights,
    estimate: points.map((point) => point.estimate),
    lower: points.map((point) => point.lower),
    upper: points.map((point) => point.upper),
  };
}

export interface Convergence {
  readonly flights: readonly number[];
  readonly estimate: readonly number[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}
