/** Fits the distributions that a scenario may hold to samples of a quantity. */
import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { Distribution } from '../distributions/distribution.js';
import { createLaw } from '../distributions/law.js';
import {
  andersonDarling,
  type CriticalPoint,
  modifiedForNormal,
  modifiedForWeibull,
  NORMAL_POINTS,
  refusedAt,
  WEIBULL_POINTS,
} from '../statistics/anderson-darling.js';
import { asList } from '../statistics/quantile.js';
import { chiSquareQuantile, studentQuantile } from '../statistics/student.js';
import { fitTriangular, triangularDistance, triangularSpread } from './families/triangular.js';
import { fitWeibull, weibullSpread } from './families/weibull.js';
import type { FamilyFit, FitFamily, FittedParameter } from './result.js';

/** Fewer values than this fix no spread at all. */
export const FEWEST = 3;
/** With fewer values than this no test confirms a shape. */
export const FEW = 10;
/** A triangular law is fitted to this many evenly spread values at most. */
const MOST_FOR_TRIANGULAR = 1000;

/** A fitted family with what the scenario fragment and the pictures need of it. */
export interface Fitted {
  readonly fit: FamilyFit;
  /** In the unit of the samples; null for the samples themselves. */
  readonly law: Distribution;
  /** 2.5, 50 and 97.5 % of each parameter, by name. */
  readonly spread: Readonly<Record<string, readonly [number, number, number]>>;
}

export interface FitRequest {
  /** Ascending, in the unit, at least three, not all equal. */
  readonly values: Float64Array;
  readonly unit: string;
  /** Unit of a difference: "K" where the unit is "degC". */
  readonly differenceUnit: string;
  /** Whether the unit's zero means nothing of the quantity, as with degC: then ratios mean nothing. */
  readonly interval: boolean;
}

/** The fits of every family that the samples allow. */
export function fitFamilies(request: FitRequest): readonly Fitted[] {
  const positive = request.values[0] > 0 && !request.interval;
  return [
    fitNormal(request),
    ...(positive ? [fitLogNormal(request), fitWeibullFamily(request)] : []),
    fitTriangularFamily(request),
    fitThemselves(request),
  ];
}

/** Mean and standard deviation, the latter with n - 1 under the root. */
export function momentsOf(values: Float64Array): { readonly mean: number; readonly sd: number } {
  return { mean: mean(asList(values)), sd: sampleStandardDeviation(asList(values)) };
}

/**
 * What n values leave open about a normal law: the mean by Student's t, the standard deviation by the chi-squared law
 * (the posterior with the prior 1/sigma; Box and Tiao, Bayesian Inference in Statistical Analysis, 1973, section 2.4,
 * cited from memory). The two together predict the next value as t(n - 1) s sqrt(1 + 1/n) does.
 */
export function normalSpread(mean: number, sd: number, n: number) {
  const reach = (studentQuantile(0.975, n - 1) * sd) / Math.sqrt(n);
  const root = (p: number) => sd * Math.sqrt((n - 1) / chiSquareQuantile(1 - p, n - 1));
  return {
    mean: [mean - reach, mean, mean + reach],
    sd: [root(0.025), root(0.5), root(0.975)],
  } as const;
}

function fitNormal({ values, unit, differenceUnit }: FitRequest): Fitted {
  const n = values.length;
  const { mean, sd } = momentsOf(values);
  const law: Distribution = { family: 'normal', mean, sd };
  const spread = normalSpread(mean, sd, n);
  const likeliest = sd * Math.sqrt((n - 1) / n);
  const statistic = andersonDarling(belowOf(values, law));
  return {
    law,
    spread,
    fit: familyFit('normal', n, {
      parameters: [parameter('mean', unit, mean, spread.mean), parameter('sd', differenceUnit, likeliest, spread.sd)],
      ...judgedAsNormal(statistic, likeliest, n, 0),
    }),
  };
}

/**
 * How a normal law fits, or a log-normal law by the logarithms: ln L = -n (ln sigma + ln(2 pi)/2 + 1/2) less the sum of the
 * logarithms, with sigma the likeliest standard deviation; the sum is 0 for a normal law.
 */
function judgedAsNormal(
  statistic: number,
  likeliest: number,
  n: number,
  sumOfLogs: number,
): Omit<Judged, 'parameters'> {
  return {
    logLikelihood: -n * (Math.log(likeliest) + 0.5 * Math.log(2 * Math.PI) + 0.5) - sumOfLogs,
    statistic,
    modified: modifiedForNormal(statistic, n),
    points: NORMAL_POINTS,
    pValue: null,
  };
}

function fitLogNormal({ values, unit }: FitRequest): Fitted {
  const n = values.length;
  const logs = values.map(Math.log);
  const { mean, sd } = momentsOf(logs);
  const law: Distribution = { family: 'log-normal', median: Math.exp(mean), spread: sd };
  const ofLogs = normalSpread(mean, sd, n);
  const median = ofLogs.mean.map(Math.exp) as unknown as readonly [number, number, number];
  const likeliest = sd * Math.sqrt((n - 1) / n);
  const statistic = andersonDarling(belowOf(values, law));
  const sumOfLogs = logs.reduce((sum, log) => sum + log, 0);
  return {
    law,
    spread: { median, spread: ofLogs.sd },
    fit: familyFit('log-normal', n, {
      parameters: [parameter('median', unit, Math.exp(mean), median), parameter('spread', '', likeliest, ofLogs.sd)],
      ...judgedAsNormal(statistic, likeliest, n, sumOfLogs),
    }),
  };
}

function fitWeibullFamily({ values, unit }: FitRequest): Fitted {
  const n = values.length;
  const { shape, scale } = fitWeibull(values);
  const law: Distribution = { family: 'weibull', shape, scale };
  const open = weibullSpread({ shape, scale }, n);
  const scales = open.logScale.map(Math.exp) as unknown as readonly [number, number, number];
  const statistic = andersonDarling(belowOf(values, law));
  const logLikelihood = values.reduce(
    (sum, x) => sum + Math.log(shape / scale) + (shape - 1) * Math.log(x / scale) - (x / scale) ** shape,
    0,
  );
  return {
    law,
    spread: { shape: open.shape, scale: scales },
    fit: familyFit('weibull', n, {
      parameters: [parameter('shape', '', shape, open.shape), parameter('scale', unit, scale, scales)],
      logLikelihood,
      statistic,
      modified: modifiedForWeibull(statistic, n),
      points: WEIBULL_POINTS,
      pValue: null,
    }),
  };
}

function fitTriangularFamily({ values: all, unit }: FitRequest): Fitted {
  const values = thinned(all, MOST_FOR_TRIANGULAR);
  const n = values.length;
  const { logLikelihood, ...corners } = fitTriangular(values);
  const law: Distribution = { family: 'triangular', ...corners };
  const statistic = triangularDistance(values, corners);
  const { pValue, points, ...open } = triangularSpread({ ...corners, logLikelihood }, n, statistic);
  const [least, most] = [values[0], values[n - 1]];
  const held = (three: readonly [number, number, number], low: number, high: number) =>
    three.map((one) => Math.min(Math.max(one, low), high)) as unknown as readonly [number, number, number];
  const spread = {
    from: held(open.from, Number.NEGATIVE_INFINITY, least),
    mode: held(open.mode, least, most),
    to: held(open.to, most, Number.POSITIVE_INFINITY),
  };
  return {
    law,
    spread,
    fit: familyFit('triangular', n, {
      parameters: (['from', 'mode', 'to'] as const).map((name) => parameter(name, unit, corners[name], spread[name])),
      logLikelihood: (logLikelihood * all.length) / n,
      statistic,
      modified: null,
      points,
      pValue,
    }),
  };
}

function fitThemselves({ values }: FitRequest): Fitted {
  return {
    law: { family: 'samples', values: [...thinned(values, 200)] },
    spread: {},
    fit: {
      family: 'samples',
      parameters: [],
      logLikelihood: null,
      akaike: null,
      fit: null,
      verdict: 'the values themselves: nothing outside the measured range is ever drawn',
    },
  };
}

interface Judged {
  readonly parameters: readonly FittedParameter[];
  readonly logLikelihood: number;
  readonly statistic: number;
  readonly modified: number | null;
  readonly points: readonly CriticalPoint[];
  readonly pValue: number | null;
}

const LEVELS = [0.01, 0.025, 0.05, 0.1];

function familyFit(family: FitFamily, n: number, judged: Judged): FamilyFit {
  const { parameters, logLikelihood, statistic, modified, points, pValue } = judged;
  const refused =
    modified === null ? (LEVELS.find((level) => (pValue ?? 1) <= level) ?? null) : refusedAt(modified, points);
  return {
    family,
    parameters,
    logLikelihood,
    akaike: 2 * parameters.length - 2 * logLikelihood,
    fit: { statistic, modified, points, pValue, refusedAt: refused },
    verdict: verdictOf(refused, n),
  };
}

/** The verdict in words; a refusal counts from the 5 % level on. */
function verdictOf(refused: number | null, n: number): string {
  const level = refused === null ? null : `${Number((100 * refused).toPrecision(3))} %`;
  if (refused !== null && refused <= 0.05) return `does not fit: refused at the ${level} level`;
  if (n < FEW) return `nothing speaks against it, but no test can confirm a shape with ${n} values`;
  return refused === null ? 'nothing speaks against it' : `not refused at 5 %, though at ${level}`;
}

function parameter(
  name: string,
  unit: string,
  estimate: number,
  [low, , high]: readonly [number, number, number],
): FittedParameter {
  return { name, unit, estimate, low, high };
}

/** P(X < x) at each value. */
function belowOf(values: Float64Array, law: Distribution): Float64Array {
  const { family, parameters } = createLaw({
    form: 'uncertain',
    distribution: law,
    kind: 'varies from flight to flight',
    atLeast: null,
    atMost: null,
  });
  return values.map((x) => family.below(x, parameters));
}

/** Evenly spread order statistics, with the least and the greatest value among them. */
export function thinned(values: Float64Array, most: number): Float64Array {
  if (values.length <= most) return values;
  return Float64Array.from({ length: most }, (_, i) => values[Math.round((i * (values.length - 1)) / (most - 1))]);
}
