/** Tipping values: how far each guess may be off before the verdict on one height turns. */

import { standardNormalBelow } from '../../distributions/families/normal.js';
import type { FlightColumns } from '../../flight/record.js';
import { failureFlags, isSoft } from '../../flight/record.js';
import { proportion } from '../../statistics/proportion.js';
import { riskAlong } from '../../statistics/risk-along.js';
import type { TippingPlace, TippingResult, TippingRow } from '../decisions.js';
import type { AskedInput } from './held-input.js';
import { flyTipping } from './tipping-flown.js';
import { END, type FoundTipping, readTipping, type Side } from './tipping-read.js';
import type { PlainSet, TippingRequest } from './tipping-request.js';

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
