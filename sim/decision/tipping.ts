/** Tipping values: how far each guess may be off before the verdict on one height turns. */
import type { SetName } from '../draws/draw.js';
import { standardNormalBelow } from '../draws/families/normal.js';
import { type FlightColumns, failureFlags, isSoft } from '../flight/record.js';
import type { TippingPlace, TippingResult, TippingRow } from '../result/decisions.js';
import { proportion } from '../statistics/proportion.js';
import { riskAlong } from '../statistics/risk-along.js';
import type { Flyer } from '../study/flying/flyer.js';
import type { AskedInput } from './guesses.js';
import { flyTipping } from './tipping-flown.js';
import { END, type FoundTipping, readTipping, type Side } from './tipping-read.js';

/** Sets in which every flight draws its guesses anew. */
export type PlainSet = Exclude<SetName, 'worlds'>;

/** A guess: one fixed value that nobody has measured, or a parameter of a distribution. */
export interface TippingInput extends AskedInput {
  /** Its quantile in each plain flight of a set. */
  readonly uniforms: (set: SetName, flights: number) => ArrayLike<number>;
  /**
   * Whether it must be held in flights of its own: it is drawn together with other inputs, so that where it is high they
   * are too, or it takes a few values, over which the risk jumps.
   */
  readonly mustBeHeld?: boolean;
}

export interface TippingRequest {
  readonly flyer: Flyer;
  /** Plain flights 0 to n - 1 of the set at the height; in each, every guess was drawn anew. */
  readonly plain: FlightColumns;
  readonly set: PlainSet;
  /** Plain flights of another set at the same height, if there are any. */
  readonly further?: { readonly plain: FlightColumns; readonly set: PlainSet };
  readonly limit: number;
  readonly inputs: readonly TippingInput[];
  /** The value of an input at a quantile of its own law, SI. */
  readonly valueAt: (path: string, quantile: number) => number;
  /** Flights flown at the end of the range of a guess that must be held. */
  readonly sample?: number;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

/**
 * For each guess the value, held in every flight with all else as drawn, at which the estimated risk crosses the
 * limit. Sought from the median outwards: on the worse side while the plain risk is at or under the limit, on the
 * better side when it is over; on both sides where the better one is not known.
 *
 * No flights for a guess that is drawn apart from all others: its risk curve is read off the plain flights
 * (`riskAlong`). A guess that must be held is flown (`flyTipping`). When stopped, the rows found until then.
 */
export async function tippingValues(request: TippingRequest): Promise<TippingResult> {
  const { plain, set, further, limit, valueAt } = request;
  const risk = proportion(
    plain.outcome.reduce((count, one) => count + (isSoft(one) ? 0 : 1), 0),
    plain.outcome.length,
  );
  const within = risk.estimate <= limit;
  const flights = plain.outcome.length + (further?.plain.outcome.length ?? 0);
  const found = (rows: readonly TippingRow[]): TippingResult => ({
    height: plain.height,
    limit,
    plain: risk,
    flights,
    rows,
  });
  const rows: TippingRow[] = [];
  for (const input of request.inputs) {
    const drawn = (one: FlightColumns, of: PlainSet) => ({
      uniforms: input.uniforms(of, one.outcome.length),
      failed: failureFlags(one.outcome),
    });
    const along = input.mustBeHeld ? null : riskAlong(drawn(plain, set), further && drawn(further.plain, further.set));
    for (const side of sidesToTry(input, within)) {
      const tip = along
        ? { ...readTipping(along, side, limit, within), flights: 0 }
        : await flyTipping(request, input.path, side, risk.estimate);
      if (tip === null) return found(rows);
      rows.push(rowOf(input.path, side, tip, valueAt));
    }
  }
  return found(rows);
}

function sidesToTry({ better }: AskedInput, within: boolean): readonly Side[] {
  if (better === 'low') return [within ? 'high' : 'low'];
  if (better === 'high') return [within ? 'low' : 'high'];
  return ['low', 'high'];
}

function rowOf(
  path: string,
  side: Side,
  { status, crossing, keeps, turned, riskAtEnd, flights }: FoundTipping & { readonly flights: number },
  valueAt: TippingRequest['valueAt'],
): TippingRow {
  const place = (score: number | null): TippingPlace | null => {
    if (score === null) return null;
    const quantile = standardNormalBelow(side === 'low' ? -score : score);
    return { quantile, value: valueAt(path, quantile) };
  };
  return {
    path,
    side,
    status,
    crossing: place(crossing),
    keeps: place(keeps),
    keepsToEnd: keeps === END,
    turned: place(turned),
    riskAtEnd,
    flights,
  };
}
