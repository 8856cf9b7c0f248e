/**
 * The aim is the height to plan: least risk, with room on both sides. The risk is smoothed over the heights that were flown
 * on the same draws; the aim is the most central of the heights whose smoothed risk lies within half a flight in 100 of the
 * least, and itself within a tenth. Fresh flights then give its figure.
 */

import { choleskyFactor } from '../statistics/cholesky.js';
import { solveWith } from '../statistics/triangular-solve.js';
/** A difference of half a flight in 100 matters, as in a comparison that is not told otherwise. */
export const MATTERS = 0.005;

/** Failures at one height; the flights are the same at every height of a curve. */
export interface RiskAt {
  readonly height: number;
  readonly flights: number;
  readonly failures: number;
}

export interface PickedAim {
  readonly height: number;
  /** The candidates around it that differ from the least by no more than matters. */
  readonly from: number;
  readonly to: number;
}

/** Points that a value of the smooth rests on, fewer where there are fewer. */
const NEAREST = 7;
/** Keeps the bend small where the points hardly tell it; a share of the sum of the weights. */
const STIFFNESS = 0.002;
/** The aim may lie over the least by this share of what matters, so that a curve that falls to its end keeps it near the end. */
const ROOM = 0.2;

/**
 * A smooth of the risk: local quadratic regression of its logarithm on the height, with tricube weights over the seven
 * nearest points. The logarithm makes a steep flank nearly straight. Risk at a point: (failures + 1/2)/(flights + 1).
 *
 * Source: Cleveland, Journal of the American Statistical Association 74:829, 1979 (cited from memory), without its
 * robustness steps.
 */
export function smoothedRisk(points: readonly RiskAt[]): (height: number) => number {
  const logs = points.map(({ failures, flights }) => Math.log((failures + 0.5) / (flights + 1)));
  return (height) => {
    const distances = points.map((point) => Math.abs(point.height - height));
    const nearest = distances.toSorted((a, b) => a - b).slice(0, NEAREST);
    const reach = 1.01 * nearest[nearest.length - 1] + 1e-9;
    const weights = distances.map((distance) => (distance < reach ? (1 - (distance / reach) ** 3) ** 3 : 0));
    const places = points.map((point) => (point.height - height) / reach);
    return Math.exp(localLevel(places, logs, weights));
  };
}

/** The level at 0 of a weighted quadratic; a straight line or a mean where two points or a single one are there. */
function localLevel(places: readonly number[], values: readonly number[], weights: readonly number[]): number {
  const size = Math.min(3, places.length);
  const moment = (power: number) => places.reduce((sum, place, i) => sum + weights[i] * place ** power, 0);
  const matrix = new Float64Array(size * size);
  for (let row = 0; row < size; row++)
    for (let column = 0; column < size; column++) matrix[row * size + column] = moment(row + column);
  if (size === 3) matrix[8] += STIFFNESS * matrix[0];
  const right = Float64Array.from({ length: size }, (_, row) =>
    places.reduce((sum, place, i) => sum + weights[i] * place ** row * values[i], 0),
  );
  const factor = choleskyFactor(matrix, size, 'lifted');
  return solveWith(factor, right)[0];
}

/**
 * The aim among candidates, ascending: the one nearest to the middle of those around the least that differ from it by no
 * more than `matters`, if its own difference is at most a fifth of that; else the next one that is.
 *
 * In simulated studies of 8000 flights (the curve from 2000 at each height) its true risk lay above the least by under
 * 0.3 flights in 100 in 95 % of them, on U-shaped, flat, steep and falling curves (test/decision/aim.verify.ts).
 */
export function pickAim(curve: readonly RiskAt[], candidates: readonly number[], matters = MATTERS): PickedAim {
  if (candidates.length === 1) return { height: candidates[0], from: candidates[0], to: candidates[0] };
  const smooth = smoothedRisk(curve);
  const risks = candidates.map(smooth);
  const least = risks.indexOf(Math.min(...risks));
  const over = (index: number) => risks[index] - risks[least];
  let [first, last] = [least, least];
  while (first > 0 && over(first - 1) <= matters) first -= 1;
  while (last < candidates.length - 1 && over(last + 1) <= matters) last += 1;
  const middle = (candidates[first] + candidates[last]) / 2;
  let best = least;
  for (let index = first; index <= last; index++) {
    const nearer = Math.abs(candidates[index] - middle) < Math.abs(candidates[best] - middle);
    if (nearer && over(index) <= ROOM * matters) best = index;
  }
  return { height: candidates[best], from: candidates[first], to: candidates[last] };
}
