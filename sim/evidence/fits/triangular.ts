/** Triangular by maximum likelihood, all three corners unknown, and what few samples leave open about it. */
import seedrandom from 'seedrandom';
import { andersonDarling } from '../../statistics/anderson-darling.js';
import { quantileOf, sortedValues } from '../../statistics/quantile.js';

export interface TriangularFit {
  readonly from: number;
  readonly mode: number;
  readonly to: number;
  readonly logLikelihood: number;
}

/**
 * Given both ends, the likeliest mode is one of the samples x_r: it maximises
 * sum_(i<r) ln((x_i - a)/(x_r - a)) + sum_(i>r) ln((b - x_i)/(b - x_r)), and the log-likelihood is n ln(2/(b - a)) plus
 * that (Johnson and Kotz, Journal of Applied Statistics 26:117, 1999; cited from memory). The ends are then sought with
 * the simplex of Nelder and Mead, Computer Journal 7:308, 1965, in the logarithms of their distances to the samples.
 */
export function fitTriangular(ascending: Float64Array): TriangularFit {
  const n = ascending.length;
  const [least, most] = [ascending[0], ascending[n - 1]];
  const width = most - least;
  const at = (logs: readonly number[]) => {
    const from = least - width * Math.exp(logs[0]);
    const to = most + width * Math.exp(logs[1]);
    return { from, to, ...likeliestMode(ascending, from, to) };
  };
  // Under e^-12 of the width the end is the sample itself; above e^4 no data of this kind tells.
  const held = (logs: readonly number[]) => logs.map((log) => Math.min(4, Math.max(-12, log)));
  const best = descend((logs) => -at(held(logs)).logLikelihood, [-2, -2], 1);
  return at(held(best));
}

function likeliestMode(
  x: Float64Array,
  from: number,
  to: number,
): { readonly mode: number; readonly logLikelihood: number } {
  const n = x.length;
  let above = 0;
  for (let i = 1; i < n; i++) above += Math.log(to - x[i]);
  let below = 0;
  let best = Number.NEGATIVE_INFINITY;
  let mode = x[0];
  for (let r = 0; r < n; r++) {
    const value =
      below + above - (r === 0 ? 0 : r * Math.log(x[r] - from)) - (r === n - 1 ? 0 : (n - 1 - r) * Math.log(to - x[r]));
    if (value > best) {
      best = value;
      mode = x[r];
    }
    below += Math.log(x[r] - from);
    if (r + 1 < n) above -= Math.log(to - x[r + 1]);
  }
  return { mode, logLikelihood: n * Math.log(2 / (to - from)) + best };
}

/** Smallest value of a function of two numbers near `start`: the simplex of Nelder and Mead with its usual factors. */
function descend(f: (point: readonly number[]) => number, start: readonly number[], size: number): readonly number[] {
  const make = (point: readonly number[]) => ({ point, value: f(point) });
  let simplex = [start, [start[0] + size, start[1]], [start[0], start[1] + size]].map(make);
  for (let turn = 0; turn < 200; turn++) {
    simplex = simplex.sort((a, b) => a.value - b.value);
    const [best, good, worst] = simplex;
    if (worst.value - best.value < 1e-9 * (1 + Math.abs(best.value))) break;
    const centre = best.point.map((one, i) => (one + good.point[i]) / 2);
    const along = (factor: number) => make(centre.map((one, i) => one + factor * (worst.point[i] - one)));
    const mirrored = along(-1);
    if (mirrored.value < best.value) {
      const further = along(-2);
      simplex[2] = further.value < mirrored.value ? further : mirrored;
    } else if (mirrored.value < good.value) simplex[2] = mirrored;
    else {
      const nearer = along(mirrored.value < worst.value ? -0.5 : 0.5);
      if (nearer.value < Math.min(worst.value, mirrored.value)) simplex[2] = nearer;
      else simplex = simplex.map(({ point }) => make(point.map((one, i) => (one + best.point[i]) / 2)));
    }
  }
  return simplex.sort((a, b) => a.value - b.value)[0].point;
}

export function triangularBelow(x: number, { from, mode, to }: Omit<TriangularFit, 'logLikelihood'>): number {
  if (x <= from) return 0;
  if (x >= to) return 1;
  return x < mode ? (x - from) ** 2 / ((to - from) * (mode - from)) : 1 - (to - x) ** 2 / ((to - from) * (to - mode));
}

/** Times that samples of the same size are drawn from the fit and fitted again. */
const REDRAWN = 200;

export interface TriangularSpread {
  /** 2.5, 50 and 97.5 % of what each corner may be. */
  readonly from: readonly [number, number, number];
  readonly mode: readonly [number, number, number];
  readonly to: readonly [number, number, number];
  /** Share of redrawn samples that lie at least as far from their own fit, counted with the sample itself. */
  readonly pValue: number;
}

/**
 * No table holds for a triangular law with all three corners estimated: samples of the same size are drawn from the
 * fit, fitted again, and their Anderson-Darling distances and corners are compared (parametric bootstrap; corners
 * mirrored about the fit: Davison and Hinkley, Bootstrap Methods, 1997, section 5.2, cited from memory).
 */
export function triangularSpread(fit: TriangularFit, n: number, statistic: number): TriangularSpread {
  const random = seedrandom.alea(`triangular ${n}`);
  const corners = { from: new Float64Array(REDRAWN), mode: new Float64Array(REDRAWN), to: new Float64Array(REDRAWN) };
  let further = 0;
  const rising = (fit.mode - fit.from) / (fit.to - fit.from);
  for (let i = 0; i < REDRAWN; i++) {
    const sample = Float64Array.from({ length: n }, () => {
      const u = random.double();
      return u < rising
        ? fit.from + Math.sqrt(u * (fit.to - fit.from) * (fit.mode - fit.from))
        : fit.to - Math.sqrt((1 - u) * (fit.to - fit.from) * (fit.to - fit.mode));
    }).sort();
    const again = fitTriangular(sample);
    if (andersonDarling(sample.map((x) => triangularBelow(x, again))) >= statistic) further += 1;
    for (const name of ['from', 'mode', 'to'] as const) corners[name][i] = 2 * fit[name] - again[name];
  }
  const three = (list: Float64Array) => {
    const sorted = sortedValues(list);
    return [0.025, 0.5, 0.975].map((p) => quantileOf(sorted, p)) as [number, number, number];
  };
  return {
    from: three(corners.from),
    mode: three(corners.mode),
    to: three(corners.to),
    pValue: (further + 1) / (REDRAWN + 1),
  };
}
