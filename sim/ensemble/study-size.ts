/** The size of a study is known before it is flown; a study whose result could not be kept or read again is refused. */
import { type Answer, ok, refused } from '../basics/answer.js';
import { COLUMN_NAMES } from '../flight/record.js';

/** Outcome and cause, and four bytes for each column. */
const BYTES_IN_FULL = 2 + 4 * COLUMN_NAMES.length;
const BYTES_OUTCOMES = 2 + 4;
/** A result file holds four characters for three bytes and must fit one text of the JavaScript engine, 2^29 characters. */
const MOST_BYTES = 0.7 * 2 ** 29;
/** Rough cost of a flight at a height on a single thread, seconds. */
const SECONDS_A_FLIGHT = 0.001;

/** Bytes that a flight leaves, flown in full at one height and for its outcome at the others. */
export function bytesPerFlight(heights: number): number {
  return BYTES_IN_FULL + BYTES_OUTCOMES * (heights - 1);
}

/** Flights at each height whose result can still be kept and read again, in whole hundred thousands. */
export function flightsHeld(heights: number): number {
  return Math.floor(MOST_BYTES / bytesPerFlight(heights) / 1e5) * 1e5;
}

/** Bytes of the result. */
export function studySize(flights: number, heights: number): Answer<number> {
  const bytes = flights * bytesPerFlight(heights);
  if (bytes <= MOST_BYTES) return ok(bytes);
  return refused(
    `--flights ${flights} at ${heights} ${heights === 1 ? 'height' : 'heights'} would need about ${inWords(bytes)} of memory` +
      ` and about ${days(flights * heights * SECONDS_A_FLIGHT)} on one thread; the result must stay readable in one piece,` +
      ` so ask for at most ${flightsHeld(heights)} flights. A million flights already show a risk of 1 % to within 0.02 %.`,
  );
}

/** Two digits, whole from ten on. */
function inWords(bytes: number): string {
  const [value, unit] = bytes >= 1e12 ? [bytes / 1e12, 'TB'] : [bytes / 1e9, 'GB'];
  return `${Number(value.toPrecision(2))} ${unit}`;
}

function days(seconds: number): string {
  const hours = seconds / 3600;
  return hours >= 48
    ? `${Math.round(hours / 24)} days`
    : hours >= 2
      ? `${Math.round(hours)} hours`
      : `${Math.round(seconds / 60)} minutes`;
}
