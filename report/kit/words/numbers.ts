/** Numbers and units stand in the text with no more digits than they bear, and with the signs of print. */
import type { Spread } from '../../../sim/statistics/quantile.js';
import { decimalsBorne } from '../../../sim/statistics/words.js';

const NARROW_NO_BREAK_SPACE = '\u202f';
const NO_BREAK_SPACE = '\u00a0';
const MINUS = '\u2212';

/** More than three significant digits would claim more than a model of this kind can bear. */
const MOST_SIGNIFICANT = 3;

/** A count in groups of three digits from ten thousand on. */
export function countText(count: number): string {
  const digits = String(Math.round(count));
  return digits.length < 5 ? digits : digits.replace(/\B(?=(\d{3})+$)/g, NARROW_NO_BREAK_SPACE);
}

/** "1 flight", "8000 flights". */
export function flightsText(count: number): string {
  return `${countText(count)}${NO_BREAK_SPACE}${count === 1 ? 'flight' : 'flights'}`;
}

/** Decimals with which a value shows `digits` significant digits. */
export function decimalsFor(value: number, digits: number = MOST_SIGNIFICANT): number {
  if (value === 0 || !Number.isFinite(value)) return 0;
  return Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value)))));
}

/** The text of a number with a true minus sign. */
export function withMinus(text: string): string {
  return text.replace('-', MINUS);
}

/** A value with a fixed number of decimals and a true minus sign; never "-0". */
export function fixedText(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : withMinus(text);
}

/** A value to `digits` significant digits at most, whole from there on: 1.52, 71.4, 412. */
export function numberText(value: number, digits: number = MOST_SIGNIFICANT): string {
  return fixedText(value, decimalsFor(value, digits));
}

/** As given, without trailing zeros: a limit, a height. */
export function plainText(value: number): string {
  return withMinus(String(Number(value.toPrecision(6))));
}

const UNITS = '%|N m|m|m/s|mm|cm²|min|s|ms|V|A|W|J|g|kg|gf|mAh|mΩ|°C|K|flights?';
const BEFORE_UNIT = new RegExp(`(\\d) (?=(?:${UNITS})(?![A-Za-z0-9/²]))`, 'g');

/** Keeps figures and their units on one line, and "9 of 10" together. */
export function unbroken(text: string): string {
  return text
    .replace(BEFORE_UNIT, `$1${NO_BREAK_SPACE}`)
    .replace(/flights? of (?=\d)/g, (words) => words.replaceAll(' ', NO_BREAK_SPACE));
}

/** Units as print has them, from the plain letters of a scenario file: cm², °, Ω. Order matters: degC before deg. */
const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/\bdegC\b/g, '°C'],
  [/ ?\bdeg\b/g, '°'],
  [/\b(m)?ohm\b/g, '$1Ω'],
  [/\^2(?![.\d])/g, '²'],
  [/\^3(?![.\d])/g, '³'],
  [/\bkg\/m3\b/g, 'kg/m³'],
];

/** "13 cm^2" as "13 cm²", "400 deg/s" as "400°/s", "5 mohm" as "5 mΩ". */
export function printedUnits(text: string): string {
  return SIGNS.reduce((shown, [plain, sign]) => shown.replace(plain, sign), text);
}

/** The same, and the signs of a formula: "sqrt(2 m g / (density x drag area))" with a root and a true cross. */
export function printedFormula(text: string): string {
  return printedUnits(text)
    .replace(/\bsqrt(?=\()/g, '√')
    .replace(/ x /g, ' × ')
    .replace(/ - /g, ' − ');
}

/** Words of the result as print sets them: quotation marks and units in place of what a plain-text terminal shows. */
export function prose(text: string): string {
  return unbroken(printedUnits(text.replace(/[`"]([^`"]+)[`"]/g, '\u201c$1\u201d')));
}

/** A number and its unit, kept together on one line; the sign of degrees follows without a space. */
export function withUnit(text: string, unit: string): string {
  const shown = printedUnits(unit);
  return /^(?:$|\u00b0(?!C))/.test(shown) ? `${text}${shown}` : `${text}${NO_BREAK_SPACE}${shown}`;
}

/** A height as flown, such as "250 m". */
export function metres(height: number): string {
  return withUnit(plainText(height), 'm');
}

/** A limit given as a probability, such as "5 %". */
export function percentLimit(limit: number): string {
  return withUnit(plainText(100 * limit), '%');
}

/** A count rounded upwards to two leading digits, for a number of flights that would about do. */
export function twoDigitsUp(value: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / unit) * unit;
}

export interface SpreadTexts {
  readonly unit: string;
  readonly median: string;
  readonly low: string;
  readonly high: string;
}

/** The value at one of the spread's own quantiles; null where it has none. */
export function quantileAt(spread: Spread, p: number): number | null {
  return spread.quantiles.find((quantile) => quantile.p === p)?.value ?? null;
}

/** With fewer flights than this the outer quantiles of a spread are only its extremes. */
export const FEW = 20;

/** Decimals that a spread's figures bear: by the interval of its median, and at most three significant digits. */
function decimalsOf(spread: Spread, scale: number): number {
  const median = spread.quantiles.find((quantile) => quantile.p === 0.5);
  if (median === undefined) return 0;
  const most = decimalsFor(scale * Math.max(...spread.quantiles.map((quantile) => Math.abs(quantile.value))));
  if (median.lower === null || median.upper === null || median.upper === median.lower) return most;
  return Math.min(most, decimalsBorne((Math.abs(scale) * (median.upper - median.lower)) / 2));
}

/** Median, 5 % and 95 % of a spread as text, times `scale`; null when no flight has the quantity. */
export function spreadTexts(spread: Spread, unit: string, scale = 1): SpreadTexts | null {
  const decimals = decimalsOf(spread, scale);
  const text = (p: number) => {
    const value = quantileAt(spread, p);
    return value === null ? null : fixedText(scale * value, decimals);
  };
  const [low, median, high] = [text(0.05), text(0.5), text(0.95)];
  return low === null || median === null || high === null ? null : { unit, low, median, high };
}

/** "20.1 s (9 flights of 10: 17 to 23 s)". */
export function spreadText(spread: Spread, unit: string, scale = 1): string {
  const texts = spreadTexts(spread, unit, scale);
  if (texts === null) return 'no flight';
  if (spread.flights < FEW)
    return unbroken(`${withUnit(texts.median, unit)} (the median of only ${flightsText(spread.flights)})`);
  const range = `${texts.low} to ${withUnit(texts.high, unit)}`;
  return unbroken(`${withUnit(texts.median, unit)} (9 flights of 10: ${range})`);
}
