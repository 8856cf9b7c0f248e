/**
 * Flies a curve of heights on common draws. A small pilot comes first; a height whose risk is then surely over the
 * limit is not flown further, except the planned one. What is flown is a pure function of scenario, seed and number.
 */
import { PILOT_FLIGHTS } from '../decision/height-plan.js';
import { groundImpact, hopelessBy, tally } from '../decision/requirement.js';
import type { FlightColumns } from '../flight/record.js';
import { joinColumns } from './columns.js';
import type { Flyer } from './flyer.js';

export interface CurveRequest {
  readonly flights: number;
  readonly heights: readonly number[];
  /** Flown in full and with its causes. */
  readonly plannedHeight: number;
  readonly acceptableRisk: number;
}

/** True where the risk is surely over the limit: more flights would change nothing. */
function isHopeless(flown: FlightColumns, acceptableRisk: number): boolean {
  const requirements = [groundImpact(acceptableRisk)];
  return hopelessBy(tally(flown, requirements), requirements) !== null;
}

/** One FlightColumns for each height: all flights asked for, or those of the pilot, or fewer where it was stopped. */
export async function flyCurve(
  request: CurveRequest,
  flyer: Flyer,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<readonly FlightColumns[]> {
  const { flights, heights, plannedHeight, acceptableRisk } = request;
  const fly = (from: number, to: number, at: readonly number[]) =>
    flyer.fly(
      {
        set: 'explore',
        ids: Uint32Array.from({ length: to - from }, (_, index) => from + index),
        heights: at,
        detail: at.map((height) => (height === plannedHeight ? 'causes' : 'outcomes')),
      },
      onFlown,
      stop,
    );

  const pilotEnd = heights.length > 1 ? Math.min(PILOT_FLIGHTS, flights) : flights;
  const pilot = await fly(0, pilotEnd, heights);
  if (pilotEnd === flights || stop?.aborted) return pilot;
  const goesOn = (flown: FlightColumns) => flown.height === plannedHeight || !isHopeless(flown, acceptableRisk);
  const rest = [
    ...(await fly(
      pilotEnd,
      flights,
      pilot.filter(goesOn).map(({ height }) => height),
    )),
  ];
  // Each piece is let go as soon as it is joined, so that a large study is not held twice.
  return pilot.map((flown) => {
    const more = goesOn(flown) ? rest.shift() : undefined;
    return more ? joinColumns(flown, more) : flown;
  });
}
