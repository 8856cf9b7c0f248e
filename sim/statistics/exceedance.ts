import type { Histogram } from './histogram.js';

export interface ExceedancePoint {
  /** Touchdown speed, m/s. */
  readonly speed: number;
  /** Flights in 100 that touch down at this speed or faster. */
  readonly share: number;
}

/**
 * Exceedance (one less the empirical distribution function) of the touchdown speed, exact at each edge of the bins and at
 * the end of the last one: share(v) = 100 x flights with a speed of v or more / `flights`. Flights without a touchdown
 * speed count as flown, so that the curve may begin under 100. At least one flight.
 */
export function exceedance(speeds: Histogram, flights: number): readonly ExceedancePoint[] {
  const totals = speeds.soft.map((count, bin) => count + speeds.hard[bin] + speeds.crash[bin]);
  let left = totals.reduce((sum, count) => sum + count, 0) + speeds.beyond.reduce((sum, count) => sum + count, 0);
  const points: ExceedancePoint[] = [];
  totals.forEach((count, bin) => {
    points.push({ speed: speeds.from + speeds.width * bin, share: (100 * left) / flights });
    left -= count;
  });
  points.push({ speed: speeds.from + speeds.width * totals.length, share: (100 * left) / flights });
  return points;
}
