/** Height and fall speed over time are kept of the listed flights in full and of many flights as an envelope. */

import type { FlightTrace } from '../flight/flight.js';
import { OUTCOMES } from '../flight/record.js';
import { quantileOf } from '../statistics/quantile.js';
import type { EnvelopePoint, ListedFlight, TimeHistory } from './result.js';
import { finitePart, traceSeries } from './trace-columns.js';

/** Samples kept of a flight: enough for a line across a page. */
const HISTORY_SAMPLES = 150;
/** Points of the envelope. */
const ENVELOPE_POINTS = 120;

type Series = Parameters<typeof traceSeries>[1];

export function historyOf(whole: FlightTrace, listed: Pick<ListedFlight, 'id' | 'why'>): TimeHistory {
  const trace = finitePart(whole);
  const kept = thinned(trace.rows.length);
  const pick = (name: Series) => {
    const series = traceSeries(trace, name);
    return kept.map((row) => rounded(series[row]));
  };
  return {
    id: listed.id,
    why: listed.why,
    outcome: OUTCOMES[trace.record.outcome],
    time: pick('time_s'),
    height: pick('height_m'),
    speed: pick('fall_speed_m_per_s'),
    events: trace.events.map(({ name, time, height }) => ({ name, time: rounded(time), height: rounded(height) })),
  };
}

/** Row numbers, evenly spread, with the first and the last. */
function thinned(rows: number): readonly number[] {
  const count = Math.min(rows, HISTORY_SAMPLES);
  const numbers = Array.from({ length: count }, (_, i) => Math.round((i * (rows - 1)) / Math.max(1, count - 1)));
  return [...new Set(numbers)];
}

/** A centimetre or a hundredth of a second is finer than any line. */
function rounded(value: number): number {
  return Number(value.toFixed(2));
}

/** What the envelope needs of one flight: its series, without the rest of the trace. */
export interface Path {
  readonly time: Float64Array;
  readonly height: Float64Array;
  readonly speed: Float64Array;
}

export function pathOf(whole: FlightTrace): Path {
  const trace = finitePart(whole);
  return {
    time: Float64Array.from(traceSeries(trace, 'time_s')),
    height: Float64Array.from(traceSeries(trace, 'height_m')),
    speed: Float64Array.from(traceSeries(trace, 'fall_speed_m_per_s')),
  };
}

/** 5, 50 and 95 % of height and fall speed over the flights still in the air, at even times until 99 in 100 are down. */
export function envelopeOf(all: readonly Path[]): readonly EnvelopePoint[] {
  const paths = all.filter(({ time }) => time.length > 0);
  if (paths.length === 0) return [];
  const ends = Float64Array.from(paths, ({ time }) => time[time.length - 1]).sort();
  const last = quantileOf(ends, 0.99);
  const cursors = new Uint32Array(paths.length);
  return Array.from({ length: ENVELOPE_POINTS }, (_, point) => (point * last) / (ENVELOPE_POINTS - 1)).flatMap(
    (time) => {
      const heights: number[] = [];
      const speeds: number[] = [];
      paths.forEach((path, index) => {
        const { time: times } = path;
        if (time > times[times.length - 1]) return;
        while (cursors[index] < times.length - 2 && times[cursors[index] + 1] < time) cursors[index] += 1;
        heights.push(between(times, path.height, cursors[index], time));
        speeds.push(between(times, path.speed, cursors[index], time));
      });
      if (heights.length === 0) return [];
      return [
        {
          time: rounded(time),
          height: threeQuantiles(heights),
          speed: threeQuantiles(speeds),
          flying: heights.length / paths.length,
        },
      ];
    },
  );
}

function between(times: Float64Array, values: Float64Array, row: number, time: number): number {
  if (times.length === 1) return values[0];
  const share = (time - times[row]) / (times[row + 1] - times[row]);
  return times[row + 1] > times[row] ? values[row] + share * (values[row + 1] - values[row]) : values[row];
}

function threeQuantiles(values: readonly number[]): readonly [number, number, number] {
  const sorted = Float64Array.from(values).sort();
  return [0.05, 0.5, 0.95].map((p) => rounded(quantileOf(sorted, p))) as [number, number, number];
}
