/** The footprint tells where flights come down: counts on a grid by outcome, distances, chances of the circles. */

import { isInside } from '../decision/criteria.js';
import { columnOf, eachFlight, whereOutcome } from '../ensemble/columns.js';
import type { FlightColumns } from '../flight/record.js';
import { isSoft } from '../flight/record.js';
import type { KeepOutCircle } from '../scenario/lookup.js';
import { type Proportion, proportion } from '../statistics/proportion.js';
import { quantileOf, quantileWithInterval, sortedValues, spread } from '../statistics/quantile.js';
import type { Footprint } from './result.js';

/** Cells from the centre to each side. */
const HALF_CELLS = 24;
/** The grid reaches as far as this share of the flights, or as the recovery circle. */
const REACH = 0.99;
/** Sides of a cell that people read easily, m. */
const NICE_CELLS = [0.5, 1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000, 2000, 5000];

/** @param circle the recovery circle, with the chance of coming down outside it; null where none is demanded */
export function footprintOf(
  flown: FlightColumns,
  circle: { readonly radius: number; readonly outside: Proportion } | null,
  keepOut: readonly KeepOutCircle[],
): Footprint {
  const east = columnOf(flown, 'east');
  const north = columnOf(flown, 'north');
  const distance = eachFlight(flown, (flight) => Math.sqrt(east[flight] ** 2 + north[flight] ** 2));
  const notSoft = whereOutcome(flown, distance, (outcome) => !isSoft(outcome));
  const away = sortedValues(notSoft);
  return {
    ...gridOf(flown, cellFor(distance, notSoft, circle?.radius ?? 0)),
    distance: spread(distance),
    distanceNotSoft: spread(notSoft),
    outsideCircle: circle?.outside ?? null,
    keepOut: keepOut.map((circle) => {
      const within = (flight: number) => isInside(circle, east[flight], north[flight]);
      const inside = shareWhere(flown, within);
      const soft = shareWhere(flown, (flight) => isSoft(flown.outcome[flight]) && within(flight));
      return { name: circle.name, inside, soft: soft.count, notSoft: inside.count - soft.count };
    }),
    keepAway: away.length === 0 ? null : keepAwayOf(away),
  };
}

function keepAwayOf(away: Float64Array) {
  const { value, upper } = quantileWithInterval(away, REACH);
  return { distance: value, upper };
}

function shareWhere({ outcome }: FlightColumns, holds: (flight: number) => boolean) {
  let count = 0;
  for (let flight = 0; flight < outcome.length; flight++) if (holds(flight)) count += 1;
  return proportion(count, outcome.length);
}

function cellFor(distance: Float64Array, notSoft: Float64Array, radius: number): number {
  const reach = [distance, notSoft]
    .map(sortedValues)
    .filter((values) => values.length > 0)
    .map((values) => quantileOf(values, REACH));
  const needed = Math.max(...reach, radius, 1) / HALF_CELLS;
  return NICE_CELLS.find((cell) => cell >= needed) ?? NICE_CELLS[NICE_CELLS.length - 1];
}

function gridOf(flown: FlightColumns, cell: number) {
  const east = columnOf(flown, 'east');
  const north = columnOf(flown, 'north');
  const side = 2 * HALF_CELLS;
  const counts = { soft: new Array<number>(side * side).fill(0), notSoft: new Array<number>(side * side).fill(0) };
  const beyond = { soft: 0, notSoft: 0 };
  flown.outcome.forEach((outcome, flight) => {
    const kind = isSoft(outcome) ? 'soft' : 'notSoft';
    const column = Math.floor(east[flight] / cell) + HALF_CELLS;
    const row = Math.floor(north[flight] / cell) + HALF_CELLS;
    if (column >= 0 && column < side && row >= 0 && row < side) counts[kind][row * side + column] += 1;
    else beyond[kind] += 1;
  });
  return { cell, halfCells: HALF_CELLS, ...counts, beyond };
}
