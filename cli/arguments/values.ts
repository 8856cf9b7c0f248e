/** Reads the values of options. Options arrive as text, so that "abc" never becomes NaN on the way. */

import type { PartNumber } from '../../sim/assess/parts/part.js';
import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import type { HeightsRequest } from '../../sim/decision/height-grid.js';

/** Said where a number has a decimal comma. */
function commaHint(text: string): string {
  return /^\s*\d+,\d+\s*(%|m)?\s*$/.test(text) ? ' Write a decimal point instead of the comma.' : '';
}

const WHOLE = /^\d+(e\d{1,2})?$/i;
const DECIMAL = /^\d+(\.\d+)?$/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is refused
const CONTROL = /[\u0000-\u001f\u007f]/;
/** A date with a word or two beside it; more does not fit the head of a printed page. */
const LONGEST_DATE = 60;

export function parseWhole(option: string, text: string, least: number, most: number, example: string): Answer<number> {
  const value = WHOLE.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return ok(value);
  const range = Number.isFinite(most)
    ? `a whole number from ${least} to ${most}`
    : `a whole number of at least ${least}`;
  return refused(`${option} is "${text}", but must be ${range}, such as ${option} ${example}.`);
}

export function parseFlights(text: string): Answer<number> {
  return parseWhole('--flights', text, 1, Number.POSITIVE_INFINITY, '8000');
}

export function parseThreads(text: string): Answer<number> {
  return parseWhole('--threads', text, 1, 512, '2');
}

/** A height above ground in metres, with or without the letter m. */
export function parseHeight(text: string): number | null {
  const digits = text.trim().replace(/\s*m$/, '');
  const height = DECIMAL.test(digits) ? Number(digits) : 0;
  return height > 0 ? height : null;
}

/** The planned height of a new scenario. */
export function parsePlannedHeight(text: string): Answer<number> {
  const height = parseHeight(text);
  return height === null
    ? refused(`--height is "${text}", but must be metres above ground, such as 230m.${commaHint(text)}`)
    : ok(height);
}

const HOW_TO_WRITE_HEIGHTS =
  'write a list (80,120,200), a range with its step (80:300:20), or "planned"; heights in metres above ground';
/** What stands for the grid that the program chooses. */
export const STANDARD_HEIGHTS = 'standard';
/** More heights than this make no clearer curve. */
const MOST_HEIGHTS = 100;

/** Reads --heights: which throttle-up heights to fly besides the planned one. */
export function parseHeights(text: string): Answer<HeightsRequest> {
  if (text === STANDARD_HEIGHTS) return ok({ kind: 'standard' });
  if (text.trim() === 'planned') return ok({ kind: 'planned' });
  const heights = text.includes(':') ? fromRange(text) : text.split(',').map(parseHeight);
  if (typeof heights === 'string') return refused(`--heights is "${text}": ${heights}; ${HOW_TO_WRITE_HEIGHTS}.`);
  if (heights.includes(null)) {
    const wrong = text.split(/[,:]/).find((part) => parseHeight(part) === null) ?? text;
    return refused(`--heights is "${text}", where "${wrong}" is not a height above 0; ${HOW_TO_WRITE_HEIGHTS}.`);
  }
  if (heights.length > MOST_HEIGHTS)
    return refused(
      `--heights asks for ${heights.length} heights, but at most ${MOST_HEIGHTS} are flown; widen the step.`,
    );
  return ok({ kind: 'list', heights: heights as number[] });
}

function fromRange(text: string): (number | null)[] | string {
  const parts = text.split(':').map(parseHeight);
  if (parts.length !== 3) return 'a range has three parts, lowest:highest:step';
  const [lowest, highest, step] = parts;
  if (lowest === null || highest === null || step === null) return parts;
  if (lowest > highest) return `the lowest height comes first, as in ${highest}:${lowest}:${step}`;
  const count = Math.floor((highest - lowest) / step + 1e-9) + 1;
  return count > 10 * MOST_HEIGHTS
    ? `that makes ${count} heights, but at most ${MOST_HEIGHTS} are flown; widen the step`
    : Array.from({ length: count }, (_, index) => Number((lowest + index * step).toFixed(6)));
}

/** A share as "5 %", "5%" or 0.05, within its range. */
function parseShare(
  option: string,
  text: string,
  [least, most]: readonly [number, number],
  example: string,
): Answer<number> {
  const [, digits, percent] = /^\s*(\d+(?:\.\d+)?)\s*(%?)\s*$/.exec(text) ?? [];
  const value = Number(((digits === undefined ? Number.NaN : Number(digits)) / (percent ? 100 : 1)).toPrecision(12));
  if (value >= least && value <= most) return ok(value);
  const hint =
    value > most && value / 100 <= most && !percent ? ` For ${text.trim()} in 100 write "${text.trim()} %".` : '';
  const range = least === 0 ? `from 0 to ${inPercent(most)}` : `between ${inPercent(least)} and ${inPercent(most)}`;
  return refused(
    `${option} is "${text}", but must be ${range}, such as "${example} %" or ${Number(example) / 100}.${hint}${commaHint(text)}`,
  );
}

function inPercent(share: number): string {
  return `${Number((100 * share).toPrecision(6))} %`;
}

/** The acceptable risk. */
export function parseRisk(text: string): Answer<number> {
  return parseShare('--acceptable-risk', text, [0.0001, 0.99], '5');
}

/** The least difference of two risks that matters; 0 where every difference does. */
export function parseMatters(text: string): Answer<number> {
  return parseShare('--matters', text, [0, 0.2], '0.5');
}

/** Half the width that the interval of the risk may have. */
export function parseHalfWidth(text: string): Answer<number> {
  return parseShare('--until', text, [0.0001, 0.1], '0.5');
}

/** Share of the plausible worlds in which the height must be within the limit. */
export function parseAssurance(text: string): Answer<number> {
  return parseShare('--assurance', text, [0.01, 0.99], '90');
}

const MOST_PARTS = 100_000;

/** One part of a divided study: "3/64" is the third of 64. */
export function parsePart(text: string): Answer<PartNumber> {
  const [, number, of] = /^\s*(\d{1,6})\s*\/\s*(\d{1,6})\s*$/.exec(text)?.map(Number) ?? [];
  if (number >= 1 && number <= of && of <= MOST_PARTS) return ok({ number, of });
  return refused(
    `--part is "${text}", but must be the number of the part and of how many, from 1/1 to ${MOST_PARTS}/${MOST_PARTS}, such as --part 3/64.`,
  );
}

/** Any text is a seed, 0 and "launch day" alike. */
export function parseSeed(text: string): Answer<string> {
  if (text.trim() === '') return refused('--seed is empty, but must be some text, such as --seed 1.');
  if (CONTROL.test(text)) return refused('--seed holds a control character; write plain text.');
  return text.length <= 200 ? ok(text) : refused('--seed is longer than 200 characters; write a shorter text.');
}

/** When a study is made, in its maker's own words. */
export function parseDate(text: string): Answer<string> {
  const date = text.trim();
  if (date === '') return refused('--date is empty, but must be some text, such as --date "1 May, before the flight".');
  if (CONTROL.test(date)) return refused('--date holds a control character; write plain text.');
  return date.length <= LONGEST_DATE ? ok(date) : refused(`--date is longer than ${LONGEST_DATE} characters.`);
}
