/**
 * Converts values with units, as people write them, to SI numbers and back. The library js-quantities knows the units and
 * checks the dimensions. Where it reads otherwise than a person means, the reading is set right here: "35 degC" where a
 * temperature stands is 308.15 K and not a difference of 35 K, "300 K", "°C", "gf" and "m²" are understood, and a text
 * without a number or a number without a unit is refused.
 */
import Qty from 'js-quantities';
import { type Ok, ok } from '../basics/answer.js';
import { nearestName } from '../basics/nearest-name.js';
import { DIMENSIONS } from './definition/dimensions.js';
import type { Dimension } from './definition/shapes.js';

/** A value in SI, or the parts of a sentence that says what is wrong. */
export type ParsedQuantity =
  | Ok<number>
  | {
      readonly status: 'no quantity';
      readonly reason: 'empty' | 'no number' | 'no unit' | 'unknown unit' | 'wrong dimension' | 'not finite';
      /** What is wrong with it, as "a number without a unit". */
      readonly why: string;
      /** What to write instead, as "a mass with its unit, such as \"420 g\"". */
      readonly expected: string;
      /** The unit probably meant. */
      readonly nearest: string | null;
    };

/** How a value in SI is shown: shown = si * perSi + offset. */
export interface DisplayUnit {
  readonly unit: string;
  readonly perSi: number;
  readonly offset: number;
}

interface Scale {
  /** si = number * factor + zero. */
  readonly factor: number;
  readonly zero: number;
}

const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/;
/** The library drops or multiplies some marks in silence ("m%" is a hundredth of a metre): only plain units pass. */
const PLAIN_UNIT = /^(?:[%'"]|percent|(?:1?\/)?[A-Za-z][A-Za-z0-9*/^ -]{0,40})$/;

/** Other spellings of units, each with the spelling that the library knows. Their order matters: °C before °. */
const SPELLINGS: readonly (readonly [RegExp, string])[] = [
  [/²/g, '^2'],
  [/³/g, '^3'],
  [/[·⋅×]/g, '*'],
  [/[\u00b5\u03bc]/g, 'u'],
  [/[\u03a9\u2126]/g, 'ohm'],
  [/(?:°|deg\b)\s*C(?![A-Za-z])/g, 'degC'],
  [/(?:°|deg\b)\s*F(?![A-Za-z])/g, 'degF'],
  [/°/g, 'deg'],
  [/(?<![A-Za-z])K(?![A-Za-z])/g, 'degK'],
  [/(?<![A-Za-z])kgf(?![A-Za-z])/g, 'kg*gee'],
  [/(?<![A-Za-z])gf(?![A-Za-z])/g, 'g*gee'],
];

/** Units that are right in themselves but not what is meant where the dimension stands. */
const MIX_UPS: Readonly<Partial<Record<Dimension, Readonly<Record<string, readonly [string, string]>>>>> = {
  acceleration: {
    g: ['"g" is grams', 'gee'],
    G: ['"G" is gauss', 'gee'],
    gs: ['"gs" is not a unit', 'gee'],
    Gs: ['"Gs" is not a unit', 'gee'],
  },
  force: { g: ['"g" is grams, a mass', 'gf'], kg: ['"kg" is a mass', 'kgf'], lb: ['"lb" is a mass', 'lbf'] },
  time: { m: ['"m" is metres', 'min'], M: ['"M" is moles per litre', 'min'] },
  temperature: { C: ['"C" is coulombs', 'degC'], F: ['"F" is farads', 'degF'], k: ['"k" is not a unit', 'K'] },
  'temperature difference': { C: ['"C" is coulombs', 'K'], F: ['"F" is farads', 'degF'] },
  charge: { mA: ['"mA" is a current', 'mAh'], A: ['"A" is a current', 'Ah'], mah: ['"mah" is not a unit', 'mAh'] },
  'angular rate': {
    '1/s': ['"1/s" says nothing of the angle', 'deg/s'],
    Hz: ['"Hz" says nothing of the angle', 'rpm'],
  },
};

function inLibrarySpelling(unit: string): string {
  return SPELLINGS.reduce((text, [pattern, spelling]) => text.replace(pattern, spelling), unit.trim());
}

/** One of the unit as a quantity of the library, or null where the library does not know it. */
function oneOf(unit: string): Qty | null {
  const spelled = inLibrarySpelling(unit);
  if (!PLAIN_UNIT.test(spelled)) return null;
  try {
    const one = Qty(`1 ${spelled.startsWith('1/') ? spelled.slice(1) : spelled}`);
    return Number.isFinite(one.baseScalar) && one.baseScalar > 0 ? one : null;
  } catch {
    return null; // the library throws on what it does not know
  }
}

const THERMOMETERS: Readonly<Record<string, string>> = { degC: 'tempC', degF: 'tempF', degK: 'tempK' };

function scaleOf(unit: string, dimension: Dimension): Scale | null {
  if (dimension === 'ratio' && unit === '') return { factor: 1, zero: 0 };
  const one = oneOf(unit);
  if (one === null || !measures(one, dimension)) return null;
  if (dimension !== 'temperature') return { factor: one.baseScalar, zero: 0 };
  const thermometer = THERMOMETERS[inLibrarySpelling(unit)];
  return thermometer === undefined ? null : { factor: one.baseScalar, zero: Qty(0, thermometer).baseScalar };
}

function measures(one: Qty, dimension: Dimension): boolean {
  return dimension === 'ratio' ? one.toBase().units() === '' : one.isCompatible(DIMENSIONS[dimension].si);
}

/** What a unit measures, in words; for the message about a wrong dimension. */
function dimensionOf(one: Qty): string | null {
  const known = (Object.keys(DIMENSIONS) as Dimension[]).find((dimension) => measures(one, dimension));
  return known === undefined ? null : DIMENSIONS[known].named;
}

function expectedOf(dimension: Dimension): string {
  const { named, example } = DIMENSIONS[dimension];
  return dimension === 'ratio' ? `${named}, such as "0.15" or "15 %"` : `${named} with its unit, such as "${example}"`;
}

/** Rounds what binary fractions leave over, so that "3 in" and "76.2 mm" are the same number. */
function toFifteenDigits(value: number): number {
  return Number(value.toPrecision(15));
}

/** Reads "420 g" as a mass to 0.42; a bare number is a ratio and nothing else. Never throws. */
export function parseQuantity(written: string | number, dimension: Dimension): ParsedQuantity {
  const text = String(written)
    .replace(/[\s\u2009\u202f]+/g, ' ')
    .replace(/^\s*\u2212/, '-')
    .trim();
  const expected = expectedOf(dimension);
  if (text === '') return { status: 'no quantity', reason: 'empty', why: 'nothing', expected, nearest: null };
  const digits = NUMBER.exec(text)?.[0];
  if (digits === undefined) {
    const infinite = /^[-+]?\.?(inf|infinity|nan)\b/i.test(text);
    return infinite
      ? { status: 'no quantity', reason: 'not finite', why: 'not a finite number', expected, nearest: null }
      : { status: 'no quantity', reason: 'no number', why: 'without a number in front', expected, nearest: null };
  }
  const unit = text.slice(digits.length).trim();
  if (unit === '' && dimension !== 'ratio')
    return { status: 'no quantity', reason: 'no unit', why: 'a number without a unit', expected, nearest: null };
  const scale = scaleOf(unit, dimension);
  if (scale === null) return wrongUnit(unit, dimension, expected);
  const si = toFifteenDigits(Number(digits) * scale.factor + scale.zero);
  return Number.isFinite(si)
    ? ok(si)
    : {
        status: 'no quantity',
        reason: 'not finite',
        why: 'a number too large to compute with',
        expected,
        nearest: null,
      };
}

function wrongUnit(unit: string, dimension: Dimension, expected: string): ParsedQuantity {
  const mixUps = MIX_UPS[dimension] ?? {};
  const mixUp = Object.hasOwn(mixUps, unit) ? mixUps[unit] : undefined;
  const one = oneOf(unit);
  const reason = one === null ? 'unknown unit' : 'wrong dimension';
  if (mixUp !== undefined)
    return { status: 'no quantity', reason, why: `and ${mixUp[0]}`, expected, nearest: mixUp[1] };
  if (one === null) {
    const why = /^,\d/.test(unit)
      ? 'with a decimal comma instead of a point'
      : `and "${unit}" is not a unit known here`;
    return { status: 'no quantity', reason, why, expected, nearest: nearestName(unit, DIMENSIONS[dimension].units) };
  }
  const known = dimensionOf(one);
  return {
    status: 'no quantity',
    reason,
    why: known === null ? `which is not ${DIMENSIONS[dimension].named}` : known,
    expected,
    nearest: null,
  };
}

/** How values of a dimension are shown in a unit; throws on a unit of another dimension, which is a bug in the definition. */
export function displayUnit(unit: string, dimension: Dimension): DisplayUnit {
  const scale = scaleOf(unit, dimension);
  if (scale === null) throw new Error(`"${unit}" is not a unit of ${DIMENSIONS[dimension].named}`);
  return { unit, perSi: 1 / scale.factor, offset: scale.zero === 0 ? 0 : -scale.zero / scale.factor };
}

/** An SI value in words, as "610 g"; four significant digits unless said otherwise. */
export function showQuantity(si: number, display: DisplayUnit, digits = 4): string {
  const shown = Number((si * display.perSi + display.offset).toPrecision(digits));
  return display.unit === '' ? String(shown) : `${shown} ${display.unit}`;
}
