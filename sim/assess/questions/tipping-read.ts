/** Where a risk curve over one guess crosses the limit, and how surely. */

import type { RiskAlong, RiskBand } from '../../statistics/risk-along.js';
import type { TippingRow } from '../decisions.js';

export type Side = TippingRow['side'];

/** What is found on one side of a guess; places are distances from its median as normal scores, 0 to END. */
export interface FoundTipping {
  readonly status: TippingRow['status'];
  /** First place at which the estimate is on the other side of the limit. */
  readonly crossing: number | null;
  /** Last place, without a gap from the median, at which the risk is clearly on the verdict's side. */
  readonly keeps: number | null;
  /** First place from the crossing on at which it is clearly on the other. */
  readonly turned: number | null;
  readonly riskAtEnd: RiskBand;
}

/** Normal score of the end of the plausible range: the 1 % and 99 % quantiles. */
export const END = 2.3263478740408408;
/** Places looked at between median and end. */
const PLACES = 240;

/**
 * Looks outwards from the median. "Clearly" is by one end of the band, one-sided 95 %; the risk may bend back further
 * out, which is not looked for.
 *
 * @param within whether the verdict's side is under the limit
 */
export function readTipping(along: RiskAlong, side: Side, limit: number, within: boolean): FoundTipping {
  const places = Array.from({ length: PLACES + 1 }, (_, place) => (place * END) / PLACES);
  const bands = places.map((score) => along(side === 'low' ? -score : score));
  const scoreAt = (place: number) => (place === -1 ? null : places[place]);
  const beyond = bands.findIndex(({ estimate }) => estimate <= limit !== within);
  const notKept = bands.findIndex((band) => !clearly(band, limit, within));
  const turned = beyond === -1 ? -1 : bands.findIndex((band, i) => i >= beyond && clearly(band, limit, !within));
  return {
    status: beyond === -1 ? 'holds' : beyond === 0 ? 'not on this side' : 'turns',
    crossing: beyond === 0 ? null : scoreAt(beyond),
    keeps: notKept === -1 ? END : scoreAt(notKept - 1),
    turned: scoreAt(turned),
    riskAtEnd: bands[PLACES],
  };
}

/** Whether the risk is clearly at or under the limit, or clearly over it. */
export function clearly({ lower, upper }: RiskBand, limit: number, under: boolean): boolean {
  return under ? upper <= limit : lower > limit;
}
