/** With `--until`, a height is flown until the interval of its risk is narrow enough. */
import type { Criterion } from '../decision/criteria.js';
import { broken } from '../decision/judge.js';
import type { SetName } from '../draws/draw.js';
import { idsBetween } from '../ensemble/columns.js';
import type { Detail, Flyer } from '../ensemble/flyer.js';
import { keeping } from '../ensemble/keep-flights.js';
import type { FlightColumns } from '../flight/record.js';
import { clopperPearson } from '../statistics/proportion.js';
import type { StoppingNote } from './decisions.js';

export const FIRST_LOOK = 2000;
export const BLOCK = 1000;
export const MOST_FLIGHTS = 1_000_000;

export interface UntilRequest {
  readonly flyer: Flyer;
  readonly set: SetName;
  readonly height: number;
  readonly detail: Detail;
  /** Whose interval it is. */
  readonly criterion: Criterion;
  /** Half-width of the 90 % interval asked for, as a probability. */
  readonly halfWidth: number;
  readonly mostFlights?: number;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

/** Half the width of the 90 % interval. */
export function halfWidthOf(failures: number, flights: number): number {
  const { lower, upper } = clopperPearson(failures, flights);
  return (upper - lower) / 2;
}

/** Standard normal deviate of the upper end of a two-sided 90 % interval. */
const Z = 1.6448536269514722;

/** Flights after which the interval of that risk is likely to be so narrow: z^2 p (1 - p) / width^2 in whole blocks. */
export function flightsForHalfWidth(risk: number, halfWidth: number): number {
  const flights = (Z ** 2 * risk * (1 - risk)) / halfWidth ** 2;
  return Math.min(MOST_FLIGHTS, Math.max(FIRST_LOOK, BLOCK * Math.ceil(flights / BLOCK)));
}

/**
 * Blocks of 1000 flights, first look at 2000, until the half-width of the interval is at or under the one asked for,
 * or a million flights. It stops on the width alone, never on the verdict, which looking again and again would turn
 * sooner or later: flying on until the exit code is 0 is not evidence. The note is null when stopped from outside.
 */
export async function flyUntil(
  request: UntilRequest,
): Promise<{ readonly columns: FlightColumns; readonly note: StoppingNote | null }> {
  const { flyer, set, height, detail, criterion, halfWidth, onFlown, stop } = request;
  const most = request.mostFlights ?? MOST_FLIGHTS;
  const flying = keeping(flyer);
  const whole = async (to: number) => (await flying.fly({ set, ids: idsBetween(0, to), heights: [height], detail }))[0];
  let [flights, failures] = [0, 0];
  for (;;) {
    const to = Math.min(most, flights === 0 ? FIRST_LOOK : flights + BLOCK);
    const ids = idsBetween(flights, to);
    const [part] = await flying.fly({ set, ids, heights: [height], detail }, onFlown, stop);
    if (part.outcome.length < to - flights) return { columns: await whole(flights + part.outcome.length), note: null };
    flights = to;
    failures += broken(part, criterion);
    const reached = halfWidthOf(failures, flights);
    const isNarrow = reached <= halfWidth;
    if (!isNarrow && flights < most) continue;
    const reason = isNarrow ? 'narrow enough' : 'most flights reached';
    return { columns: await whole(flights), note: { asked: halfWidth, reached, flights, reason } };
  }
}
