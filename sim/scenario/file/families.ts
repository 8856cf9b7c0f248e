/** The families of distributions that a scenario may use, and what each parameter may be. */

import type { Distribution } from '../../distributions/distribution.js';
import { deviationOf, numberRange, positive, type Range } from './range.js';

export type Family = Exclude<Distribution['family'], 'samples' | 'trials'>;

export interface ParameterRule {
  readonly name: string;
  readonly doc: string;
  readonly range: (leaf: Range) => Range;
  /** What holds where it is left out, only for ratios. */
  readonly standard?: number;
}

const value = (leaf: Range): Range => ({ ...leaf, aboveLeast: false });
const within = (leaf: Range): Range => leaf;
const shape = (least: number, most: number) => () => numberRange(least, most, `a number from ${least} to ${most}`);

/** Widest spread: a factor of 150 between the median and the 84 % point. */
const WIDEST_SPREAD = 5;

const from: ParameterRule = { name: 'from', doc: 'Smallest value.', range: value };
const to: ParameterRule = { name: 'to', doc: 'Largest value.', range: value };

export const FAMILIES: Readonly<Record<Family, readonly ParameterRule[]>> = {
  normal: [
    { name: 'mean', doc: 'Mean.', range: within },
    { name: 'sd', doc: 'Standard deviation.', range: deviationOf },
  ],
  'log-normal': [
    { name: 'median', doc: 'Median.', range: positive },
    {
      name: 'spread',
      doc: 'Standard deviation of the natural logarithm; for small values the relative standard deviation.',
      range: () => ({
        ...numberRange(0, WIDEST_SPREAD, `a spread above 0, at most ${WIDEST_SPREAD}`),
        aboveLeast: true,
      }),
    },
  ],
  uniform: [from, to],
  triangular: [from, { name: 'mode', doc: 'Likeliest value.', range: value }, to],
  beta: [
    { name: 'a', doc: 'First shape.', range: shape(0.01, 1e6) },
    { name: 'b', doc: 'Second shape.', range: shape(0.01, 1e6) },
    { ...from, standard: 0 },
    { ...to, standard: 1 },
  ],
  weibull: [
    { name: 'shape', doc: 'Shape; 2 for wind speeds.', range: shape(0.1, 1000) },
    { name: 'scale', doc: 'Scale: 63 % lie below it.', range: positive },
  ],
};

export const FAMILY_NAMES = Object.keys(FAMILIES) as readonly Family[];
