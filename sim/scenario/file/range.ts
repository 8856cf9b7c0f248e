/** The range of values that can make sense for an entry, and the reading of a value within it. */

import { DIMENSIONS, differenceOf } from '../definition/dimensions.js';
import type { Chance, Column, Dimension, Quantity } from '../definition/shapes.js';
import { parseQuantity } from '../units.js';
import type { Files } from './files.js';
import { quoted, type Report } from './problem.js';
import { describeWritten, type Written } from './written.js';

export interface Range {
  readonly dimension: Dimension;
  /** SI, inclusive; infinite where there is no bound. */
  readonly least: number;
  readonly most: number;
  /** True where `least` itself is impossible. */
  readonly aboveLeast: boolean;
  readonly whole: boolean;
  /** What may stand here, as "a mass above 0 g, at most 25 kg". */
  readonly words: string;
}

const UNBOUNDED = { least: Number.NEGATIVE_INFINITY, most: Number.POSITIVE_INFINITY, aboveLeast: false, whole: false };

/** SI value of a text in the definition; throws where the definition is wrong, which a test finds. */
export function siOf(text: string, dimension: Dimension): number {
  const parsed = parseQuantity(text, dimension);
  if (parsed.status !== 'ok') throw new Error(`the definition says "${text}": ${parsed.why}, not ${parsed.expected}`);
  return parsed.value;
}

/** The range of a quantity, a chance or a column of a table. */
export function rangeOf(leaf: Quantity | Chance | Column): Range {
  if (!('dimension' in leaf)) {
    return { ...UNBOUNDED, dimension: 'ratio', least: 0, most: 1, words: 'a chance from 0 to 1, or from 0 % to 100 %' };
  }
  const { dimension, least, most } = leaf;
  const aboveLeast = 'aboveLeast' in leaf && leaf.aboveLeast === true;
  const whole = 'whole' in leaf && leaf.whole === true;
  const bounds = [
    ...(least === undefined ? [] : [`${aboveLeast ? 'above' : 'of at least'} ${least}`]),
    ...(most === undefined ? [] : [`at most ${most}`]),
  ];
  return {
    dimension,
    least: least === undefined ? Number.NEGATIVE_INFINITY : siOf(least, dimension),
    most: most === undefined ? Number.POSITIVE_INFINITY : siOf(most, dimension),
    aboveLeast,
    whole,
    words: [whole ? 'a whole number' : DIMENSIONS[dimension].named, bounds.join(', ')].join(' ').trim(),
  };
}

/** The same range with 0 and less shut out, as for the median of a log-normal. */
export function positive(range: Range): Range {
  if (range.least > 0 || (range.least === 0 && range.aboveLeast)) return range;
  return { ...range, least: 0, aboveLeast: true, words: `${range.words}, and above 0` };
}

/** The range of a standard deviation of values in `range`. */
export function deviationOf(range: Range): Range {
  const dimension = differenceOf(range.dimension);
  const unit = DIMENSIONS[dimension].example.replace(/^[\d.e-]+/, '');
  return {
    ...UNBOUNDED,
    dimension,
    least: 0,
    aboveLeast: true,
    words: `a standard deviation above 0${unit} (a value that does not vary is written bare)`,
  };
}

/** A pure number between bounds, both inclusive. */
export function numberRange(least: number, most: number, words: string): Range {
  return { ...UNBOUNDED, dimension: 'ratio', least, most, words };
}

/** Why a value lies outside a range, or null where it lies within. */
function outside(si: number, range: Range): string | null {
  if (range.whole && !Number.isInteger(si)) return 'not a whole number';
  if (range.aboveLeast && si === range.least) return si === 0 ? 'not above 0' : 'too small';
  if (si < range.least) return si < 0 && range.least === 0 ? 'below 0' : 'too small';
  return si > range.most ? 'too large' : null;
}

/** What the reader asks of an entry: its path in the scenario, its range, and where problems are reported. */
export interface Asked {
  readonly path: string;
  readonly range: Range;
  readonly report: Report;
}

/** The question for a part of the entry. */
export function inside(asked: Asked, key: string, range: Range = asked.range): Asked {
  return { ...asked, path: `${asked.path}.${key}`, range };
}

/** Reads a value with its unit within a range; null after a report. */
export function readValue(written: Written, { path, range, report }: Asked): number | null {
  if (written.form !== 'scalar' || typeof written.value === 'boolean' || written.value === null) {
    report(written.place, path, describeWritten(written), range.words);
    return null;
  }
  const parsed = parseQuantity(written.source, range.dimension);
  if (parsed.status !== 'ok') {
    report(written.place, path, `${quoted(written.source)}, ${parsed.why}`, parsed.expected, parsed.nearest);
    return null;
  }
  const why = outside(parsed.value, range);
  if (why === null) return parsed.value;
  report(written.place, path, `${quoted(written.source)}, ${why}`, range.words);
  return null;
}

/** What else the reading of an input needs: whence measured values are read. */
export interface InputAsked extends Asked {
  readonly files: Files;
  /** Folder of the scenario file. */
  readonly folder: string;
}
