/** What is wrong with flights and counts of flights that were read back. */
import { CAUSES, OUTCOMES } from '../flight/record.js';
import type { Histogram } from '../statistics/histogram.js';
import { decodeBytes } from './raw-columns.js';

/** Columns of as many flights each: outcome and cause a byte a flight, every other one four. */
export type RawFlights = Readonly<Record<string, string>> & { readonly outcome: string; readonly cause?: string };

/** The columns must hold that many flights, with outcomes and causes that exist; `place` is where they stand in the result. */
export function wrongFlights(place: string, raw: RawFlights, flights: number): string | null {
  for (const [name, text] of Object.entries(raw)) {
    const isWord = name === 'outcome' || name === 'cause';
    if (decodeBytes(text).length !== (isWord ? 1 : 4) * flights)
      return `"${place}.${name}" does not hold ${flights} flights`;
  }
  if (decodeBytes(raw.outcome).some((outcome) => outcome >= OUTCOMES.length))
    return `in "${place}" an outcome is unknown`;
  const causes = raw.cause === undefined ? [] : decodeBytes(raw.cause);
  return causes.some((cause) => cause >= CAUSES.length) ? `in "${place}" a cause is unknown` : null;
}

/** A histogram has as many bins for each outcome, and some. */
export function wrongHistogram(place: string, { soft, hard, crash }: Histogram): string | null {
  const alike = soft.length > 0 && hard.length === soft.length && crash.length === soft.length;
  return alike ? null : `"${place}" has not as many bins for each outcome`;
}
