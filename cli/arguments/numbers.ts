/** Reads the numbers that options carry. Options arrive as text, so that "abc" never becomes NaN on the way. */
import { ok, type Parsed, refused } from '../parsed.js';

const WHOLE = /^\d+(e\d{1,2})?$/i;
const DECIMAL = /^\d+(\.\d+)?$/;

export function parseWhole(option: string, text: string, least: number, most: number, example: string): Parsed<number> {
  const value = WHOLE.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= most) return ok(value);
  const range = Number.isFinite(most)
    ? `a whole number from ${least} to ${most}`
    : `a whole number of at least ${least}`;
  return refused(`${option} is "${text}", but must be ${range}, such as ${option} ${example}.`);
}

export function parseFlights(text: string): Parsed<number> {
  return parseWhole('--flights', text, 1, Number.POSITIVE_INFINITY, '8000');
}

export function parseThreads(text: string): Parsed<number> {
  return parseWhole('--threads', text, 1, 512, '2');
}

/** A height above ground in metres, with or without the letter m. */
export function parseHeight(text: string): number | null {
  const digits = text.trim().replace(/\s*m$/, '');
  const height = DECIMAL.test(digits) ? Number(digits) : 0;
  return height > 0 ? height : null;
}

/** The acceptable risk, as "5 %", "5%" or 0.05. */
export function parseRisk(text: string): Parsed<number> {
  const [, digits, percent] = /^\s*(\d+(?:\.\d+)?)\s*(%?)\s*$/.exec(text) ?? [];
  const value = digits === undefined ? Number.NaN : percent ? Number(digits) / 100 : Number(digits);
  if (value >= 0.0001 && value <= 0.99) return ok(value);
  const hint = value > 0.99 && !percent ? ` For ${text.trim()} in 100 write "${text.trim()} %".` : '';
  return refused(`--acceptable-risk is "${text}", but must be between 0.01 % and 99 %, such as "5 %" or 0.05.${hint}`);
}

/** The least difference of two risks that matters, as "0.5 %" or 0.005; 0 where every difference does. */
export function parseMatters(text: string): Parsed<number> {
  const [, digits, percent] = /^\s*(\d+(?:\.\d+)?)\s*(%?)\s*$/.exec(text) ?? [];
  const value = digits === undefined ? Number.NaN : percent ? Number(digits) / 100 : Number(digits);
  if (value >= 0 && value <= 0.2) return ok(value);
  const hint = value > 0.2 && !percent ? ` For ${text.trim()} flights in 100 write "${text.trim()} %".` : '';
  return refused(`--matters is "${text}", but must be from 0 to 20 %, such as "0.5 %" or 0.005.${hint}`);
}

/** Any text is a seed: 0 is one, and so is "launch day". */
export function parseSeed(text: string): Parsed<string> {
  if (text.trim() === '') return refused('--seed is empty, but must be some text, such as --seed 1.');
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is refused
  if (/[\u0000-\u001f\u007f]/.test(text)) return refused('--seed holds a control character; write plain text.');
  return text.length <= 200 ? ok(text) : refused('--seed is longer than 200 characters; write a shorter text.');
}
