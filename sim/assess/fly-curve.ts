/**
 * Flies a curve of heights on common draws. A small screening comes first; a height that then surely breaks a limit is not
 * flown further, except the planned height. What is flown is a pure function of scenario, seed and number.
 */
import { type Criterion, detailFor } from '../decision/criteria.js';
import { SCREENING_FLIGHTS } from '../decision/height-plan.js';
import { hopelessBy, tally } from '../decision/judge.js';
import { idsBetween } from '../ensemble/columns.js';
import type { Detail, Flyer } from '../ensemble/flyer.js';
import { keeping } from '../ensemble/keep-flights.js';
import type { FlightColumns } from '../flight/record.js';

export interface CurveRequest {
  readonly flights: number;
  readonly heights: readonly number[];
  /** Flown in full and with its causes. */
  readonly plannedHeight: number;
  readonly criteria: readonly Criterion[];
}

export interface ScreenedCurve {
  /** One for each height. */
  readonly flown: readonly FlightColumns[];
  /** Heights that are flown on. */
  readonly goOn: readonly number[];
}

/** The columns of each height: all flights asked for, or the flights of the screening, or fewer where it was stopped. */
export async function flyCurve(
  request: CurveRequest,
  flyer: Flyer,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<readonly FlightColumns[]> {
  const flying = keeping(flyer);
  const { flown, goOn } = await screenCurve(request, flying, onFlown, stop);
  const ids = idsBetween(0, request.flights);
  const batch = { set: 'explore', ids, heights: goOn, detail: curveDetails(request, goOn) } as const;
  const rest = stop?.aborted ? [] : await flying.fly(batch, onFlown, stop);
  return flown.map((screening) => rest.find(({ height }) => height === screening.height) ?? screening);
}

/** The first flights at every height, which say where to go on. One height alone needs no screening. */
export async function screenCurve(
  request: CurveRequest,
  flyer: Flyer,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<ScreenedCurve> {
  const { flights, heights, plannedHeight, criteria } = request;
  const ids = idsBetween(0, heights.length > 1 ? Math.min(SCREENING_FLIGHTS, flights) : 0);
  const batch = { set: 'explore', ids, heights, detail: curveDetails(request, heights) } as const;
  const flown = await flyer.fly(batch, onFlown, stop);
  const goesOn = (screening: FlightColumns) =>
    screening.height === plannedHeight || hopelessBy(tally(screening, criteria), criteria) === null;
  return { flown, goOn: stop?.aborted ? [] : flown.filter(goesOn).map(({ height }) => height) };
}

export function curveDetails({ plannedHeight, criteria }: CurveRequest, heights: readonly number[]): readonly Detail[] {
  return heights.map((height) => (height === plannedHeight ? 'causes' : detailFor(criteria)));
}
