/** The chance of failure as a smooth curve over one input, read off flights in which that input was drawn anew. */
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { expit, fitLogistic, type LogisticCell } from './logistic.js';
import { naturalSpline } from './natural-spline.js';
import { dot } from './products.js';
import { quadraticForm } from './symmetric.js';

/** A risk with its band; each end of the band is a one-sided 95 % bound. */
export interface RiskBand {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** The risk at a normal score of the input: 0 its median, -1 the value that 16 % lie under. */
export type RiskAlong = (score: number) => RiskBand;

/** Quantiles of the input at which the pieces of the curve meet. */
const KNOTS = [0.01, 0.1, 0.35, 0.65, 0.9, 0.99];
/** Width of a cell of scores; the flights in a cell share their mean score. */
const CELL = 0.02;
/** Standard normal deviate of a one-sided 95 % bound. */
export const ONE_SIDED = 1.6448536269514722;

/** Flights in which the input was drawn anew: its quantile in its own law, and 0 where the flight did not fail. */
export interface DrawnFlights {
  readonly uniforms: ArrayLike<number>;
  readonly failed: ArrayLike<number>;
}

/**
 * Where the input is independent of all others, the risk with it held at a value and all else as drawn is the conditional
 * mean of failure at that value (law of total probability). The risk is fitted as a natural cubic spline of the normal
 * score in the log-odds, for each input by itself (a joint fit would give risks at given values of the other inputs, and
 * would have to be averaged over them again). Firth's penalty makes the fit exist however few flights have failed.
 *
 * Further flights help with the shape of the curve and have a level of their own. The level of the curve is that of the
 * first flights, so that it does not matter whether the further flights were looked at before.
 *
 * Each end of the band is to miss in 5 % of studies. In simulations the band missed the place at which a known risk
 * crosses a limit in 0 to 9 % of 200 studies of 8000 flights (logistic, probit, U-shaped, linear, rising by a factor of 4
 * within a standard deviation), and in 0 to 12 % with 1000 flights of which 45 fail. A jump is smoothed out.
 *
 * @returns null where the flights do not tell the curve, as with few distinct values
 */
export function riskAlong(flights: DrawnFlights, further?: DrawnFlights): RiskAlong | null {
  const spline = naturalSpline(KNOTS.map((quantile) => normalQuantile(quantile, 0, 1)));
  const more = further === undefined ? [] : cellsOf(further);
  const rowAt = (score: number, level: number) => (more.length === 0 ? spline(score) : [...spline(score), level]);
  const withRows = (cells: readonly Cell[], level: number): readonly LogisticCell[] =>
    cells.map(({ score, trials, events }) => ({ row: rowAt(score, level), trials, events }));
  const fit = fitLogistic([...withRows(cellsOf(flights), 0), ...withRows(more, 1)], { firth: true });
  if (fit.status !== 'fitted') return null;
  return (score) => {
    const row = rowAt(score, 0);
    const eta = dot(row, fit.coefficients);
    const half = ONE_SIDED * Math.sqrt(Math.max(0, quadraticForm(fit.covariance, row)));
    return { estimate: expit(eta), lower: expit(eta - half), upper: expit(eta + half) };
  };
}

/** Flights of nearly the same score, at the mean of their scores. */
interface Cell {
  readonly score: number;
  readonly trials: number;
  readonly events: number;
}

function cellsOf({ uniforms, failed }: DrawnFlights): readonly Cell[] {
  const cells = new Map<number, { sum: number; trials: number; events: number }>();
  for (let flight = 0; flight < failed.length; flight++) {
    const score = normalQuantile(uniforms[flight], 0, 1);
    const place = Math.round(score / CELL);
    const cell = cells.get(place) ?? { sum: 0, trials: 0, events: 0 };
    cell.sum += score;
    cell.trials += 1;
    if (failed[flight] !== 0) cell.events += 1;
    cells.set(place, cell);
  }
  return [...cells.values()].map(({ sum, trials, events }) => ({ score: sum / trials, trials, events }));
}
