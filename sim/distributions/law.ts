/** Distributions as the draws need them: from a quantile to a value. */
import { jeffreysLaw } from '../statistics/beta-law.js';
import type { Distribution, FixedValue, Parameter, UncertainValue } from './distribution.js';
import { BETA, TRIANGULAR, UNIFORM } from './families/bounded.js';
import type { Family } from './families/family.js';
import { LOG_NORMAL, NORMAL } from './families/normal.js';
import { SAMPLES } from './families/samples.js';
import { WEIBULL } from './families/weibull.js';

const FAMILIES: Readonly<Record<Distribution['family'], Family>> = {
  normal: NORMAL,
  'log-normal': LOG_NORMAL,
  uniform: UNIFORM,
  triangular: TRIANGULAR,
  beta: BETA,
  weibull: WEIBULL,
  samples: SAMPLES,
  trials: BETA,
};

/**
 * The smallest and the largest number that a stream gives. Every quantile is held between them, so that no value is
 * infinite.
 */
export const LEAST_UNIFORM = 2 ** -54;
export const MOST_UNIFORM = 1 - 2 ** -53;

/** A family with its parameters and bounds. Change `parameters`, then `settle`; everything else is derived. */
export interface Law {
  readonly family: Family;
  readonly parameters: Float64Array;
  readonly atLeast: number;
  readonly atMost: number;
  /** What the bounds cut off and leave: P(X < atLeast), P(X <= atMost), P(X > atMost), P(X >= atLeast). */
  belowLeast: number;
  belowMost: number;
  aboveMost: number;
  aboveLeast: number;
}

/** A distribution ready to draw from. A parameter that is itself unmeasured stands at its median until it is set. */
export function createLaw(value: UncertainValue): Law {
  const law: Law = {
    family: FAMILIES[value.distribution.family],
    parameters: Float64Array.from(parametersOf(value.distribution), atMedian),
    atLeast: value.atLeast ?? Number.NEGATIVE_INFINITY,
    atMost: value.atMost ?? Number.POSITIVE_INFINITY,
    belowLeast: 0,
    belowMost: 1,
    aboveMost: 0,
    aboveLeast: 1,
  };
  measureBounds(law);
  return law;
}

/** Derives everything else anew after `law.parameters` were changed. */
export function settle(law: Law): void {
  law.family.settle?.(law.parameters);
  measureBounds(law);
}

/**
 * The value at quantile u (0 < u < 1). Bounds cut the distribution and the rest is stretched: P(X < x) = P(X < atLeast) +
 * u P(atLeast <= X <= atMost), reckoned from the nearer tail. Where the bounds leave no probability that a number can
 * hold, the value is the bound next to the distribution.
 */
export function quantile(law: Law, u: number): number {
  const { family, parameters, atLeast, atMost, belowLeast, belowMost, aboveMost, aboveLeast } = law;
  if (belowLeast === 0 && aboveMost === 0) return family.quantile(u, 1 - u, parameters);
  if (belowMost <= belowLeast && aboveLeast <= aboveMost) return aboveLeast < belowMost ? atLeast : atMost;
  const below = belowLeast + u * (belowMost - belowLeast);
  const above = aboveMost + (1 - u) * (aboveLeast - aboveMost);
  return Math.min(Math.max(family.quantile(below, above, parameters), atLeast), atMost);
}

/** The value of an input at quantile u; any unmeasured parameters of its distribution stand at their medians. */
export function quantileOf(value: FixedValue | UncertainValue, u: number): number {
  return value.form === 'fixed' ? value.value : quantile(createLaw(value), withinReach(u));
}

/** The probability that the distribution has inside its bounds before it is cut to them; 1 without bounds. */
export function shareWithinBounds(value: UncertainValue): number {
  const { belowLeast, belowMost, aboveMost, aboveLeast } = createLaw(value);
  return Math.max(0, belowLeast < 0.5 ? belowMost - belowLeast : aboveLeast - aboveMost);
}

/** A quantile from 0 to 1, kept off both ends so that no distribution answers with infinity. */
export function withinReach(u: number): number {
  return Math.min(Math.max(u, LEAST_UNIFORM), MOST_UNIFORM);
}

/** A parameter of a distribution that nobody has measured, and its place among the parameters. */
export interface UnmeasuredParameter {
  readonly index: number;
  readonly name: string;
  readonly value: UncertainValue;
}

export function unmeasuredParameters(distribution: Distribution): readonly UnmeasuredParameter[] {
  const { names } = FAMILIES[distribution.family];
  return parametersOf(distribution).flatMap((value, index) =>
    typeof value === 'number' ? [] : [{ index, name: names[index], value }],
  );
}

function parametersOf(distribution: Distribution): readonly Parameter[] {
  if (distribution.family === 'samples') return distribution.values;
  if (distribution.family === 'trials') {
    const { a, b } = jeffreysLaw(distribution.failures, distribution.trials);
    return [a, b, 0, 1];
  }
  const given: Readonly<Record<string, unknown>> = { ...distribution };
  return FAMILIES[distribution.family].names.map((name) => given[name] as Parameter);
}

function atMedian(parameter: Parameter): number {
  return typeof parameter === 'number' ? parameter : quantileOf(parameter, 0.5);
}

/**
 * Measures what the bounds of a law cut off and leave. Samples may hold equal values, which stand on both sides of a
 * bound; they have no thin tails in which digits could be lost.
 */
function measureBounds(law: Law): void {
  const { family, parameters, atLeast, atMost } = law;
  law.belowLeast = atLeast === Number.NEGATIVE_INFINITY ? 0 : family.below(atLeast, parameters);
  law.aboveMost = atMost === Number.POSITIVE_INFINITY ? 0 : family.above(atMost, parameters);
  const steps = family === SAMPLES;
  law.belowMost = steps || law.aboveMost === 0 ? 1 - law.aboveMost : family.below(atMost, parameters);
  law.aboveLeast = steps || law.belowLeast === 0 ? 1 - law.belowLeast : family.above(atLeast, parameters);
}
