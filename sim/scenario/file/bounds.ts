/** Cuts a distribution to its bounds, and judges whether the bounds leave anything of it. */

import type { Distribution, Parameter, Uncertainty, UncertainValue } from '../../distributions/distribution.js';
import { quantileOf, shareWithinBounds } from '../../distributions/law.js';
import { type Asked, inside, readValue } from './range.js';
import { entryOf, sourceOf, type WrittenMap } from './written.js';

export const BOUND_KEYS = ['at_least', 'at_most'] as const;

/** Bounds that leave less of the distribution than this contradict it. */
const LEAST_SHARE = 1e-6;

/**
 * Cuts a distribution to the bounds in the file and to what is possible at all, so that a normal mass is never
 * negative. Null after a report: bounds the wrong way round, or bounds that leave nothing of the distribution.
 */
export function bounded(
  map: WrittenMap,
  distribution: Distribution,
  kind: Uncertainty,
  asked: Asked,
): UncertainValue | null {
  const { path, report, range } = asked;
  const bound = (key: string) => {
    const entry = entryOf(map, key);
    const asBound = inside(asked, key, { ...range, aboveLeast: false, whole: false });
    return entry === undefined ? undefined : readValue(entry.value, asBound);
  };
  const [atLeast, atMost] = BOUND_KEYS.map(bound);
  if (atLeast === null || atMost === null) return null;
  const place = (entryOf(map, 'at_most') ?? entryOf(map, 'at_least'))?.value.place ?? map.place;
  if (atLeast !== undefined && atMost !== undefined && atLeast >= atMost) {
    const [low, high] = BOUND_KEYS.map((key) => sourceOf(map, key));
    report(place, path, `"at_least" ${low}, which is not below "at_most" ${high}`, '"at_least" below "at_most"');
    return null;
  }
  const [smallest, largest] = support(distribution);
  const from = Math.max(atLeast ?? Number.NEGATIVE_INFINITY, range.least);
  const to = Math.min(atMost ?? Number.POSITIVE_INFINITY, range.most);
  const value: UncertainValue = {
    form: 'uncertain',
    distribution,
    kind,
    atLeast: from > smallest ? from : null,
    atMost: to < largest ? to : null,
  };
  if (leastShare(value) >= LEAST_SHARE) return value;
  const bounds = atLeast === undefined && atMost === undefined ? `the limits here (${range.words})` : 'bounds';
  report(
    place,
    path,
    `${bounds} that exclude the distribution: less than a millionth of it lies inside`,
    'bounds around the distribution, or a distribution inside the bounds',
  );
  return null;
}

/** Share of the distribution inside its bounds, at the unluckiest of its unmeasured parameters' 0.1, 50 and 99.9 % points. */
function leastShare(value: UncertainValue): number {
  let variants: readonly Readonly<Record<string, unknown>>[] = [{ ...value.distribution }];
  for (const [name, parameter] of Object.entries<unknown>({ ...value.distribution })) {
    if (!isUncertain(parameter)) continue;
    const points = [0.001, 0.5, 0.999].map((p) => quantileOf(parameter, p));
    variants = variants.flatMap((variant) => points.map((point) => ({ ...variant, [name]: point })));
  }
  const shares = variants.map((variant) =>
    shareWithinBounds({ ...value, distribution: variant as unknown as Distribution }),
  );
  return Math.min(...shares);
}

function isUncertain(parameter: unknown): parameter is UncertainValue {
  return typeof parameter === 'object' && parameter !== null && 'form' in parameter;
}

/** Smallest and largest value that a distribution can give before it is cut; infinite where it has a tail. */
function support(distribution: Distribution): readonly [number, number] {
  switch (distribution.family) {
    case 'normal':
      return [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    case 'log-normal':
    case 'weibull':
      return [0, Number.POSITIVE_INFINITY];
    case 'samples':
      return [distribution.values[0], distribution.values[distribution.values.length - 1]];
    case 'trials':
      return [0, 1];
    default:
      return [endsOf(distribution.from)[0], endsOf(distribution.to)[1]];
  }
}

/** Smallest and largest value that a parameter can take. */
export function endsOf(parameter: Parameter): readonly [number, number] {
  if (typeof parameter === 'number') return [parameter, parameter];
  const [low, high] = support(parameter.distribution);
  return [parameter.atLeast ?? low, parameter.atMost ?? high];
}
