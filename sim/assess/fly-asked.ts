/** Flies the planned height and any heights that were given, with a number of flights or until the interval is narrow enough. */

import { type Criterion, groundImpactIn } from '../decision/criteria.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import type { StoppingNote } from './decisions.js';
import { flyCurve } from './fly-curve.js';
import type { AssessOptions, AssessPlan } from './plan.js';
import { flyUntil } from './until.js';

export interface FlownHeights {
  /** One for each height, ascending; the planned one in full and with causes. */
  readonly curve: readonly FlightColumns[];
  readonly planned: FlightColumns;
  /** How `until` stopped; null when stopped from outside, undefined where it was not asked for. */
  readonly stopping: StoppingNote | null | undefined;
}

export async function flyAsked(
  { heights, plannedHeight, mostFlights }: AssessPlan,
  { flights, until }: AssessOptions,
  criteria: readonly Criterion[],
  flyer: Flyer,
  stop?: AbortSignal,
): Promise<FlownHeights> {
  const fly = (at: readonly number[], number: number) =>
    flyCurve({ flights: number, heights: at, plannedHeight, criteria }, flyer, undefined, stop);
  if (until === undefined) {
    const curve = await fly(heights, flights);
    return { curve, planned: plannedOf(curve, plannedHeight), stopping: undefined };
  }
  const { columns, note } = await flyUntil({
    flyer,
    set: 'explore',
    height: plannedHeight,
    detail: 'causes',
    criterion: groundImpactIn(criteria),
    halfWidth: until,
    mostFlights,
    ...(stop ? { stop } : {}),
  });
  const others = heights.filter((height) => height !== plannedHeight);
  const rest = note === null || others.length === 0 ? [] : await fly(others, note.flights);
  const curve = [...rest, columns].sort((one, other) => one.height - other.height);
  return { curve, planned: columns, stopping: note };
}

function plannedOf(curve: readonly FlightColumns[], plannedHeight: number): FlightColumns {
  const planned = curve.find(({ height }) => height === plannedHeight);
  if (planned === undefined) throw new Error('The planned height was not flown.');
  return planned;
}
