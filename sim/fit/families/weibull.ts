/** Fits a Weibull law by maximum likelihood, and tells what few samples leave open about it. */
import seedrandom from 'seedrandom';
import { max } from 'simple-statistics';
import { bisect, doubledBracket } from '../../statistics/bisect.js';
import { asList, rangeOf95 } from '../../statistics/quantile.js';

export interface WeibullFit {
  readonly shape: number;
  readonly scale: number;
}

/** The shapes between which the likeliest shape is sought. */
const LEAST_SHAPE = 1e-3;
const MOST_SHAPE = 2 ** 20;

/**
 * The Weibull law of greatest likelihood: the shape k solves sum x^k ln x/sum x^k - 1/k = mean ln x, then scale = (mean
 * x^k)^(1/k) (Lieblein and Zelen, Journal of Research of the National Bureau of Standards 57:273, 1956). The values are
 * above 0 and not all equal. Powers are taken of x over the largest x, so that no power overflows.
 */
export function fitWeibull(values: ArrayLike<number>): WeibullFit {
  const logs = Float64Array.from(values, Math.log);
  const largest = max(asList(logs));
  const relative = logs.map((log) => log - largest);
  const mean = relative.reduce((sum, log) => sum + log, 0) / relative.length;
  const excess = (shape: number) => {
    let weights = 0;
    let weighted = 0;
    for (const log of relative) {
      const weight = Math.exp(shape * log);
      weights += weight;
      weighted += weight * log;
    }
    return weighted / weights - 1 / shape - mean;
  };
  const isReached = (shape: number) => !(excess(shape) < 0);
  const bracket = doubledBracket({ fails: LEAST_SHAPE, first: 1, most: MOST_SHAPE }, isReached);
  const { fails, holds } =
    bracket === null ? { fails: MOST_SHAPE, holds: MOST_SHAPE } : bisect(bracket, isReached, { share: 1e-12 });
  const shape = (fails + holds) / 2;
  const power = relative.reduce((sum, log) => sum + Math.exp(shape * log), 0) / relative.length;
  return { shape, scale: Math.exp(largest + Math.log(power) / shape) };
}

/** Times that samples of the same size are drawn again. */
const REDRAWN = 2000;
/** Above this number of samples the asymptotic law is as good. */
const LARGE = 200;

export interface WeibullSpread {
  /** 2.5, 50 and 97.5 % of what the shape and the logarithm of the scale may be. */
  readonly shape: readonly [number, number, number];
  readonly logScale: readonly [number, number, number];
}

/**
 * What n samples leave open: fitted shape over true shape, and fitted shape times ln(fitted scale over true scale), have
 * laws free of the true values (Thoman, Bain and Antle, Technometrics 11:445, 1969); standard samples are drawn again and
 * again to find these laws. Above 200 samples the asymptotic variances 0.6079 k^2/n and 1.1087/(k^2 n) (the same paper)
 * are used.
 */
export function weibullSpread({ shape, scale }: WeibullFit, n: number): WeibullSpread {
  const around = (middle: number, sd: number): [number, number, number] => [
    middle - 1.96 * sd,
    middle,
    middle + 1.96 * sd,
  ];
  if (n > LARGE) {
    const relative = around(0, Math.sqrt(0.6079 / n));
    return {
      shape: relative.map((one) => shape * Math.exp(one)) as [number, number, number],
      logScale: around(Math.log(scale), Math.sqrt(1.1087 / n) / shape),
    };
  }
  const random = seedrandom.alea(`standard weibull ${n}`);
  const shapes = new Float64Array(REDRAWN);
  const scales = new Float64Array(REDRAWN);
  for (let i = 0; i < REDRAWN; i++) {
    const sample = Float64Array.from(
      { length: n },
      () => -Math.log1p(-Math.min(random.double(), 1 - 2 ** -53)) || 1e-12,
    );
    const again = fitWeibull(sample);
    shapes[i] = shape / again.shape;
    scales[i] = Math.log(scale) - (again.shape * Math.log(again.scale)) / shape;
  }
  return { shape: rangeOf95(shapes), logScale: rangeOf95(scales) };
}
