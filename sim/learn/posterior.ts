/** What the weighted worlds say: inputs, risk, and a fragment of a scenario that carries most of it. */
import seedrandom from 'seedrandom';
import { extent } from 'simple-statistics';
import type { Parameter, UncertainValue } from '../distributions/distribution.js';
import { createLaw, quantile, unmeasuredParameters, withinReach } from '../distributions/law.js';
import type { DrawnInput } from '../draws/inputs.js';
import { leafPaths } from '../scenario/definition/leaves.js';
import { figure, type Piece } from '../scenario/file/fragment.js';
import { UNMEASURED } from '../scenario/file/kind.js';
import { rangeOf } from '../scenario/file/range.js';
import type { Learnt, ResolvedInput } from '../scenario/scenario.js';
import { betweenWorlds } from '../statistics/between-worlds.js';
import { asList, quantileOf, sortedValues } from '../statistics/quantile.js';
import { weightedMoments, weightedQuantile } from '../statistics/weighted.js';
import type { LearnedInput, WorldsRisk } from './result.js';

/** An unmeasured number with its value in every world, SI. */
export interface WorldInput {
  readonly drawn: DrawnInput;
  readonly input: ResolvedInput;
  readonly law: UncertainValue;
  readonly values: Float64Array;
  /** Scale and offset of its unit. */
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
}

/** The law behind a drawn number: the law of the input, or of the parameter that the rest of the name tells. */
export function lawOf(input: ResolvedInput, name: string): UncertainValue | null {
  if (input.value.form === 'fixed') return null;
  const bare = name.replace(/\[[^\]]*\]$/, '');
  const rest = bare
    .slice(input.path.length + 1)
    .split('.')
    .filter((part) => part !== '');
  let value: UncertainValue = input.value;
  for (const part of rest) {
    const found = unmeasuredParameters(value.distribution).find((one) => one.name === part);
    if (found === undefined) return null;
    value = found.value;
  }
  return value;
}

export function worldInput(drawn: DrawnInput, input: ResolvedInput, uniforms: Float64Array): WorldInput | null {
  const law = lawOf(input, drawn.name);
  if (law === null) return null;
  const ready = createLaw(law);
  const values = uniforms.map((u) => quantile(ready, withinReach(u)));
  const parameter = drawn.part === 'parameter' ? drawn.name.slice(drawn.name.lastIndexOf('.') + 1) : '';
  if (['spread', 'shape', 'a', 'b'].includes(parameter))
    return { drawn, input, law, values, unit: '', perSi: 1, offset: 0 };
  const { unit, perSi } = input;
  const offset = parameter === 'sd' ? 0 : input.offset;
  return { drawn, input, law, values, unit: parameter === 'sd' && input.offset !== 0 ? 'K' : unit, perSi, offset };
}

/**
 * The input before and after. The first `plausible` worlds are drawn as the input was held plausible: they say what was
 * known before.
 */
export function learned(world: WorldInput, weights: Float64Array, plausible: number): LearnedInput {
  const { drawn, values, unit, perSi, offset } = world;
  const first = values.subarray(0, plausible);
  const even = new Float64Array(plausible).fill(1 / plausible);
  const three = (of: Float64Array, by: Float64Array) =>
    [0.05, 0.5, 0.95].map((p) => weightedQuantile(of, by, p) * perSi + offset) as [number, number, number];
  const [before, after] = [weightedMoments(first, even).sd, weightedMoments(values, weights).sd];
  return {
    name: drawn.name,
    path: drawn.path,
    unit,
    before: three(first, even),
    after: three(values, weights),
    narrowed: before > 0 ? after / before : 1,
  };
}

const RESAMPLES = 400;

/**
 * The chance of a failure over weighted worlds; its range comes from drawing the worlds again with replacement
 * (bootstrap).
 */
export function worldsRisk(failures: ArrayLike<number>, each: number, weights: Float64Array): WorldsRisk {
  const share = (pick: (i: number) => number) => {
    let [top, bottom] = [0, 0];
    for (let i = 0; i < weights.length; i++) {
      const world = pick(i);
      top += (weights[world] * failures[world]) / each;
      bottom += weights[world];
    }
    return bottom > 0 ? top / bottom : 0;
  };
  const random = seedrandom.alea('worlds of the risk');
  const again = sortedValues(
    Array.from({ length: RESAMPLES }, () => share(() => Math.floor(random.double() * weights.length))),
  );
  return {
    estimate: share((i) => i),
    lower: quantileOf(again, 0.05),
    upper: quantileOf(again, 0.95),
    between: spreadBetween(failures, each, weights),
  };
}

/** Spread of the probability between worlds, free of the scatter of the flights inside each world. */
function spreadBetween(failures: ArrayLike<number>, each: number, weights: Float64Array): number | null {
  const even = weights.every((one) => Math.abs(one * weights.length - 1) < 1e-9);
  if (even) {
    const { variance } = betweenWorlds(Array.from(failures), each);
    return variance > 0 ? Math.sqrt(variance) : null;
  }
  const shares = Float64Array.from(failures, (one) => one / each);
  const { sd, mean } = weightedMoments(shares, weights);
  const squares = weights.reduce((sum, one) => sum + one ** 2, 0);
  const scatter = shares.reduce((sum, one, i) => sum + (weights[i] * one * (1 - one)) / (each - 1), 0);
  const variance = squares < 1 && mean > 0 ? sd ** 2 / (1 - squares) - scatter : 0;
  return variance > 0 ? Math.sqrt(variance) : null;
}

/** A number is worth writing down when its spread is less than this share of what it was, */
const NARROWED = 0.9;
/** and less by more than this many standard errors of a spread that so few effective worlds tell. */
const STANDARD_ERRORS = 2;

/**
 * The share of its spread under which a number counts as narrowed. A standard deviation estimated from n equal worlds has the
 * relative standard error 1/sqrt(2 n) (normal law).
 */
export function narrowedUnder(effectiveWorlds: number): number {
  return Math.min(NARROWED, 1 - STANDARD_ERRORS / Math.sqrt(2 * effectiveWorlds));
}

/**
 * The input with the laws of its narrowed numbers taken from the weighted worlds. Moments decide within the family; a
 * uniform, triangular or beta law becomes a beta law between the same ends.
 */
export function posteriorPiece(
  input: ResolvedInput,
  worlds: readonly WorldInput[],
  weights: Float64Array,
  note: string,
  from: Learnt = { logs: 1, spreadLeft: 1 },
): Piece | null {
  if (input.value.form === 'fixed' || worlds.every(isOfOneComponent)) return null;
  const own = worlds.find(({ drawn }) => drawn.name === input.path && drawn.part === 'value');
  const { kind } = input.value;
  const law =
    own === undefined ? rewritten(input, input.value, input.path, worlds, weights) : narrowedLaw(own, weights);
  if (law === null) return null;
  const before = input.learnt ?? { logs: 0, spreadLeft: 1 };
  return {
    ...law,
    kind,
    source: 'learnt',
    logs: before.logs + from.logs,
    spread_left: figure(before.spreadLeft * from.spreadLeft, 0, 2),
    note,
  };
}

/** A number of one axis or one rotor: a scenario has one law for all of them, which no knowledge of one may narrow. */
function isOfOneComponent({ drawn }: WorldInput): boolean {
  return drawn.name.endsWith(']');
}

/** An outer law as it is, with its narrowed parameters replaced. */
function rewritten(
  input: ResolvedInput,
  value: UncertainValue,
  name: string,
  worlds: readonly WorldInput[],
  weights: Float64Array,
): Piece | null {
  const { family, ...parameters } = value.distribution as unknown as { readonly family: string } & Readonly<
    Record<string, Parameter>
  >;
  if (family === 'samples' || family === 'trials') return null;
  const written = Object.entries(parameters).map(([key, parameter]) => {
    const world = worlds.find(({ drawn }) => drawn.name === `${name}.${key}`);
    if (world !== undefined) return [key, { ...narrowedLaw(world, weights), kind: UNMEASURED }] as const;
    const bare = ['spread', 'shape', 'a', 'b'].includes(key);
    const shown = (si: number) =>
      inUnit(si, bare ? { unit: '', perSi: 1, offset: 0 } : key === 'sd' ? deviationUnit(input) : input);
    if (typeof parameter === 'number') return [key, shown(parameter)] as const;
    const inner = plainLaw(
      parameter,
      bare ? { unit: '', perSi: 1, offset: 0 } : key === 'sd' ? deviationUnit(input) : input,
    );
    return [key, inner === null ? shown(0) : { ...inner, kind: UNMEASURED }] as const;
  });
  return { [family]: Object.fromEntries(written) };
}

interface Shown {
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
}

function deviationUnit({ unit, perSi, offset }: Shown): Shown {
  return { unit: offset === 0 ? unit : 'K', perSi: offset === 0 ? perSi : 1, offset: 0 };
}

function inUnit(si: number, { unit, perSi, offset }: Shown, spread = 0): string | number {
  const value = figure(si * perSi + offset, spread * Math.abs(perSi), 5);
  return unit === '' ? value : `${value} ${unit}`;
}

/** A law of plain numbers as written in a file. */
function plainLaw({ distribution }: UncertainValue, shown: Shown): Piece | null {
  const { family, ...parameters } = distribution as unknown as { readonly family: string } & Readonly<
    Record<string, Parameter>
  >;
  if (family === 'samples' || family === 'trials') return null;
  const entries = Object.entries(parameters).map(([key, value]) => {
    const si = typeof value === 'number' ? value : 0;
    if (['spread', 'shape', 'a', 'b'].includes(key)) return [key, figure(si, 0, 5)] as const;
    return [key, inUnit(si, key === 'sd' ? deviationUnit(shown) : shown)] as const;
  });
  return { [family]: Object.fromEntries(entries) };
}

function narrowedLaw(world: WorldInput, weights: Float64Array): Piece {
  const { law, values } = world;
  const { distribution } = law;
  switch (distribution.family) {
    case 'normal': {
      const { mean, sd } = weightedMoments(values, weights);
      return { normal: { mean: inUnit(mean, world, sd), sd: inUnit(sd, deviationUnit(world)) }, ...boundsOf(world) };
    }
    case 'log-normal':
    case 'weibull': {
      const { mean, sd } = weightedMoments(
        values.map((one) => Math.log(Math.max(one, 1e-300))),
        weights,
      );
      return { 'log-normal': { median: inUnit(Math.exp(mean), world), spread: figure(sd) }, ...boundsOf(world) };
    }
    case 'samples':
      return {
        samples: Array.from({ length: 41 }, (_, i) =>
          inUnit(weightedQuantile(values, weights, (i + 0.5) / 41), world),
        ) as never,
      };
    default: {
      const ends = endsOf(law, values);
      return { beta: betaBetween(ends, values, weights, world) };
    }
  }
}

/** Bounds of the input's own; those that the definition sets come back by themselves. */
function boundsOf({ drawn, input, law, unit, perSi, offset }: WorldInput): Piece {
  const entry = leafPaths().find(({ path }) => path === input.path)?.entry;
  if (drawn.part !== 'value' || (entry?.shape !== 'quantity' && entry?.shape !== 'chance')) return {};
  const { least, most } = rangeOf(entry);
  const shown = { unit, perSi, offset };
  return {
    ...(law.atLeast !== null && law.atLeast > least ? { at_least: inUnit(law.atLeast, shown) } : {}),
    ...(law.atMost !== null && law.atMost < most ? { at_most: inUnit(law.atMost, shown) } : {}),
  };
}

function endsOf(law: UncertainValue, values: Float64Array): readonly [number, number] {
  const { distribution } = law;
  if (distribution.family === 'trials') return [0, 1];
  const ends = distribution as unknown as Readonly<Record<'from' | 'to', Parameter>>;
  const number = (parameter: Parameter, fallback: number) => (typeof parameter === 'number' ? parameter : fallback);
  const [least, most] = extent(asList(values));
  const from = Math.max(number(ends.from, least), law.atLeast ?? Number.NEGATIVE_INFINITY);
  const to = Math.min(number(ends.to, most), law.atMost ?? Number.POSITIVE_INFINITY);
  return [from, to];
}

/** The beta law between two ends, with the weighted mean and variance. */
function betaBetween(
  [from, to]: readonly [number, number],
  values: Float64Array,
  weights: Float64Array,
  world: WorldInput,
): Piece {
  const { mean, sd } = weightedMoments(
    values.map((one) => (one - from) / (to - from)),
    weights,
  );
  const sum = Math.max((mean * (1 - mean)) / Math.max(sd ** 2, 1e-9) - 1, 0.05);
  const shape = (one: number) => figure(Math.max(0.02, one * sum));
  return { a: shape(mean), b: shape(1 - mean), from: inUnit(from, world), to: inUnit(to, world) };
}
