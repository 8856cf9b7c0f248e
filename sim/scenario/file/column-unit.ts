/** The unit of a column of numbers. */

import { type Answer, ok, refused } from '../../basics/answer.js';
import { nearestName } from '../../basics/nearest-name.js';
import { DIMENSIONS } from '../definition/dimensions.js';
import type { Dimension } from '../definition/shapes.js';
import { type DisplayUnit, displayUnit, parseQuantity } from '../units.js';
import { quoted } from './problem.js';

export interface DataUnit extends DisplayUnit {
  readonly dimension: Dimension;
  /** "K" where the unit is "degC"; else the unit itself. */
  readonly difference: string;
  /** True where a zero of the unit means nothing of the quantity, as with degC. */
  readonly interval: boolean;
}

/** Reads a unit; `wanted` is the dimension that it must have, null where any will do. */
export function readUnit(unit: string, wanted: Dimension | null, option: string): Answer<DataUnit> {
  const text = unit.trim() === '1' ? '' : unit.trim();
  const dimensions = wanted === null ? (Object.keys(DIMENSIONS) as Dimension[]) : [wanted];
  const dimension = dimensions.find((one) => parseQuantity(`1 ${text}`, one).status === 'ok');
  if (dimension === undefined) return refused(wrongUnit(text, wanted, option));
  const thermometer = dimension === 'temperature';
  return ok({
    ...displayUnit(text, dimension),
    dimension,
    difference: thermometer ? (/F/.test(text) ? 'degF' : 'K') : text,
    interval: thermometer && text !== 'K',
  });
}

function wrongUnit(text: string, wanted: Dimension | null, option: string): string {
  if (wanted === null) {
    const nearest = nearestName(
      text,
      Object.values(DIMENSIONS).flatMap(({ units }) => units),
    );
    const meant = nearest === null ? '' : ` Did you mean "${nearest}"?`;
    return `${option} is ${quoted(text)}, which is no unit known here; write one such as s, g, gf or m/s.${meant}`;
  }
  const parsed = parseQuantity(`1 ${text}`, wanted);
  const { units, named } = DIMENSIONS[wanted];
  const why = parsed.status === 'ok' ? '' : text === '' ? 'nothing' : `${quoted(text)}, ${parsed.why}`;
  return `${option} is ${why}; expected the unit of ${named}: ${units.join(', ')}.`;
}

/** From the unit to SI. */
export function toSi(value: number, unit: DisplayUnit): number {
  return (value - unit.offset) / unit.perSi;
}

export function fromSi(value: number, unit: DisplayUnit): number {
  return value * unit.perSi + unit.offset;
}
