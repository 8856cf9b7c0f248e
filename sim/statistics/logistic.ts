/** Logistic regression: the chance of an event as a function of what is known beforehand. */
import { dot } from './products.js';
import { inverseOf, type Matrix, quadraticForm } from './symmetric.js';

/** A cell: flights (or other trials) that share a row of regressors. The first regressor is 1, for the intercept. */
export interface LogisticCell {
  readonly row: readonly number[];
  readonly trials: number;
  readonly events: number;
}

export type LogisticFit =
  | {
      readonly status: 'fitted';
      readonly coefficients: readonly number[];
      /** Inverse of the information at the coefficients. */
      readonly covariance: Matrix;
    }
  /** "no information": the cells do not tell all coefficients apart; "no end": the likelihood grows without end. */
  | { readonly status: 'not fitted'; readonly why: 'no information' | 'no end' };

const MOST_STEPS = 200;
/** A step that gains less log-likelihood than this is the last. */
const GAIN = 1e-10;
const SHORTEST_STEP = 2 ** -20;
/** Without the penalty, a cell this near to certain or impossible shows that the likelihood has no maximum. */
const CERTAIN = 1e-8;

/**
 * Logistic regression, ln(p/(1 - p)) = row . coefficients, by Newton steps on the log-likelihood (iteratively reweighted
 * least squares), each halved until it gains. With `firth` the log-likelihood is raised by half the logarithm of the
 * determinant of the information (Jeffreys' prior): the coefficients are then finite however the events lie, and nearly
 * without bias where events are few. Score: sum over cells of row (events - trials p + h (1/2 - p)), with h the cell's
 * leverage summed over its trials.
 *
 * Sources: McCullagh and Nelder, Generalized Linear Models, 2nd ed. 1989, ch. 4; Firth, Biometrika 80:27, 1993; Heinze and
 * Schemper, Statistics in Medicine 21:2409, 2002 (all cited from memory).
 */
export function fitLogistic(cells: readonly LogisticCell[], { firth }: { readonly firth: boolean }): LogisticFit {
  const trials = cells.reduce((sum, cell) => sum + cell.trials, 0);
  const events = cells.reduce((sum, cell) => sum + cell.events, 0);
  if (trials === 0) return { status: 'not fitted', why: 'no information' };
  const scales = cells[0].row.map((_, i) => cells.reduce((most, { row }) => Math.max(most, Math.abs(row[i])), 0) || 1);
  const scaled = cells.map((cell) => ({ ...cell, row: cell.row.map((value, i) => value / scales[i]) }));
  let now = stateAt(
    scaled,
    scales.map((_, i) => (i === 0 ? logit((events + 0.5) / (trials + 1)) : 0)),
    firth,
  );
  if (now === null) return { status: 'not fitted', why: 'no information' };
  for (let step = 0; step < MOST_STEPS; step++) {
    const next = stepFrom(scaled, now, firth);
    if (next === null || next.likelihood - now.likelihood < GAIN) {
      const settled: State = next ?? now;
      if (!firth && settled.chances.some((chance) => Math.min(chance, 1 - chance) < CERTAIN))
        return { status: 'not fitted', why: 'no end' };
      return {
        status: 'fitted',
        coefficients: settled.coefficients.map((value, i) => value / scales[i]),
        covariance: settled.covariance.map((row, i) => row.map((value, j) => value / (scales[i] * scales[j]))),
      };
    }
    now = next;
  }
  return { status: 'not fitted', why: 'no end' };
}

interface State {
  readonly coefficients: readonly number[];
  readonly chances: readonly number[];
  readonly covariance: Matrix;
  /** Log-likelihood of the data, with the penalty where `firth` asks for it. */
  readonly likelihood: number;
}

/** The state at given coefficients; null where the information is singular. */
function stateAt(cells: readonly LogisticCell[], coefficients: readonly number[], firth: boolean): State | null {
  const size = coefficients.length;
  const information = coefficients.map(() => new Array<number>(size).fill(0));
  const chances = new Array<number>(cells.length);
  let likelihood = 0;
  cells.forEach(({ row, trials, events }, cell) => {
    const eta = dot(row, coefficients);
    const chance = expit(eta);
    chances[cell] = chance;
    likelihood += events * eta - trials * logOneAndExp(eta);
    const weight = trials * chance * (1 - chance);
    for (let i = 0; i < size; i++) for (let j = 0; j <= i; j++) information[i][j] += weight * row[i] * row[j];
  });
  for (let i = 0; i < size; i++) for (let j = 0; j < i; j++) information[j][i] = information[i][j];
  const found = inverseOf(information);
  if (found === null) return null;
  const penalty = firth ? found.logDeterminant / 2 : 0;
  return { coefficients, chances, covariance: found.inverse, likelihood: likelihood + penalty };
}

/** The state after a Newton step, halved until it gains; null where no part of the step gains. */
function stepFrom(cells: readonly LogisticCell[], from: State, firth: boolean): State | null {
  const score = from.coefficients.map(() => 0);
  cells.forEach(({ row, trials, events }, cell) => {
    const chance = from.chances[cell];
    let rest = events - trials * chance;
    if (firth) {
      const leverage = trials * chance * (1 - chance) * quadraticForm(from.covariance, row);
      rest += leverage * (0.5 - chance);
    }
    for (let i = 0; i < score.length; i++) score[i] += rest * row[i];
  });
  const step = from.covariance.map((row) => dot(row, score));
  for (let share = 1; share >= SHORTEST_STEP; share /= 2) {
    const next = stateAt(
      cells,
      from.coefficients.map((value, i) => value + share * step[i]),
      firth,
    );
    if (next !== null && next.likelihood >= from.likelihood) return next;
  }
  return null;
}

export function expit(eta: number): number {
  return 1 / (1 + Math.exp(-eta));
}

function logit(chance: number): number {
  return Math.log(chance / (1 - chance));
}

/** ln(1 + e^x), also where e^x overflows. */
function logOneAndExp(x: number): number {
  return Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));
}
