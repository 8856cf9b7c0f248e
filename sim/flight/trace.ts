/** The trace shows one flight in full: a row for every accepted step, and the events. */

import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import type { TraceEvent } from './flight.js';
import type { Course } from './in-flight.js';
import { tiltCosine } from './margins.js';
import { motorsRun } from './phase.js';

const DEGREES = 180 / Math.PI;

export const TRACE_COLUMNS = [
  'time_s',
  'height_m',
  'east_m',
  'north_m',
  'fall_speed_m_per_s',
  'ground_speed_m_per_s',
  'tilt_deg',
  'turning_rate_deg_per_s',
  'estimate_error_deg',
  'thrust_1',
  'thrust_2',
  'thrust_3',
  'thrust_4',
  'pack_voltage_V',
  'pack_current_A',
  'wind_east_m_per_s',
  'wind_north_m_per_s',
  'wind_up_m_per_s',
] as const;

/** The row of the state as it is now. */
export function traceRow(course: Course): number[] {
  const { s } = course;
  const y = s.y;
  const on = motorsRun(s.phase);
  return [
    s.time,
    y[State.Height],
    y[State.East],
    y[State.North],
    -y[State.UpSpeed],
    Math.hypot(y[State.EastSpeed], y[State.NorthSpeed]),
    DEGREES * Math.acos(Math.min(1, Math.max(-1, tiltCosine(y)))),
    DEGREES * Math.hypot(y[State.TurnX], y[State.TurnY], y[State.TurnZ]),
    DEGREES * estimateError(y),
    ...[0, 1, 2, 3].map((i) => (on ? y[State.Thrust1 + i] : 0)),
    on ? s.scratch[Slot.Voltage] : 0,
    on ? s.scratch[Slot.Current] : 0,
    s.windTo[0],
    s.windTo[1],
    s.windTo[2],
  ];
}

/** Angle between the estimated and the true "up", rad. */
function estimateError(y: Float64Array): number {
  const [w, a, b, c] = [y[State.AttitudeW], y[State.AttitudeX], y[State.AttitudeY], y[State.AttitudeZ]];
  const up = [2 * (a * c - w * b), 2 * (b * c + w * a), 1 - 2 * (a * a + b * b)];
  const p = [y[State.EstimateX], y[State.EstimateY], y[State.EstimateZ]];
  const dot = p.reduce((sum, value, i) => sum + value * up[i], 0);
  return Math.acos(Math.min(1, Math.max(-1, dot / Math.hypot(...p))));
}

/** Events in the order of time, with the height read off the rows. */
export function traceEvents(
  rows: readonly (readonly number[])[],
  times: readonly (readonly [string, number])[],
): readonly TraceEvent[] {
  return times
    .filter(([, time]) => Number.isFinite(time))
    .map(([name, time]) => ({ name, time, height: heightAt(rows, time) }))
    .sort((a, b) => a.time - b.time);
}

function heightAt(rows: readonly (readonly number[])[], time: number): number {
  let before = rows[0];
  for (const row of rows) {
    const [t, z] = row as [number, number];
    if (t >= time) {
      const [t0, z0] = (before ?? row) as [number, number];
      return t === t0 ? z : z0 + ((z - z0) * (time - t0)) / (t - t0);
    }
    before = row;
  }
  return before?.[1] ?? Number.NaN;
}
