/** Flights that are worth looking at again are listed: the worst, the most typical of each cause, the closest call, an ordinary flight. */

import { columnOf, flightsWhere } from '../ensemble/columns.js';
import { flightId } from '../ensemble/flight-id.js';
import { type FlightColumns, isSoft, OUTCOMES } from '../flight/record.js';
import { quantileOf, sortedValues } from '../statistics/quantile.js';
import type { ListedFlight } from '../trace/result.js';
import { causeName, causeRows } from './causes.js';

const WORST = 3;

export function listedFlights(flown: FlightColumns): readonly ListedFlight[] {
  const speed = columnOf(flown, 'touchdown_speed');
  const arrestHeight = columnOf(flown, 'arrest_height');
  const landsSoftly = (flight: number) => isSoft(flown.outcome[flight]);
  const soft = flightsWhere(flown, (flight) => landsSoftly(flight) && !Number.isNaN(speed[flight]));
  const failed = flightsWhere(flown, (flight) => !landsSoftly(flight) && !Number.isNaN(speed[flight]));

  const hardest = Array.from(failed.toSorted((a, b) => speed[b] - speed[a] || a - b).subarray(0, WORST));
  const typical = causeRows(flown).map(({ cause }) => {
    const taken = failed.filter((flight) => causeName(flown.outcome[flight], flown.cause[flight]) === cause);
    return { flight: nearestToMedian(taken, speed), why: `typical of "${cause}"` };
  });
  const closest = lowest(soft, arrestHeight);

  const chosen = [
    ...hardest.map((flight, index) => ({ flight, why: index === 0 ? 'hits hardest' : 'among the hardest hits' })),
    ...typical,
    { flight: closest, why: 'soft, but arrested lowest' },
    { flight: nearestToMedian(soft, speed), why: 'an ordinary soft landing' },
  ];
  const reasons = new Map<number, string[]>();
  for (const { flight, why } of chosen) {
    if (flight !== undefined) reasons.set(flight, [...(reasons.get(flight) ?? []), why]);
  }
  return [...reasons].map(([flight, why]) => ({
    id: flightId({ set: 'explore', flight, height: flown.height }),
    why: why.join('; '),
    outcome: OUTCOMES[flown.outcome[flight]],
    cause: isSoft(flown.outcome[flight]) ? 'none' : causeName(flown.outcome[flight], flown.cause[flight]),
    touchdownSpeed: speed[flight],
  }));
}

/** The flight of the lowest value, the earlier of two equals; none where no value is known. */
function lowest(flights: Uint32Array, values: Float32Array): number | undefined {
  let best: number | undefined;
  for (const flight of flights) {
    if (!Number.isNaN(values[flight]) && (best === undefined || values[flight] < values[best])) best = flight;
  }
  return best;
}

/** The flight whose value is nearest to the median of these flights; the earlier of two equals. */
function nearestToMedian(flights: Uint32Array, values: Float32Array): number | undefined {
  if (flights.length === 0) return undefined;
  const median = quantileOf(sortedValues(Float32Array.from(flights, (flight) => values[flight])), 0.5);
  return flights.reduce((best, flight) =>
    Math.abs(values[flight] - median) < Math.abs(values[best] - median) ? flight : best,
  );
}
