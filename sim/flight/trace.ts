/** The trace shows one flight in full: a row for every accepted step, the phases and the events. */

import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import { STATE_COLUMNS, type StateColumn } from '../model/state-columns.js';
import { chargeDrawn } from './ending.js';
import type { TraceEvent, TracePhase } from './flight.js';
import type { Course } from './in-flight.js';
import { tiltCosine } from './margins.js';
import { motorsRun } from './phase.js';

const DEGREES = 180 / Math.PI;

/** What a row begins with; the states that are not among it follow. */
const FIRST_COLUMNS = [
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

type FirstColumn = (typeof FIRST_COLUMNS)[number];
export type TraceColumn = FirstColumn | StateColumn;

const FURTHER_STATES = Object.entries(STATE_COLUMNS)
  .map(([place, name]) => ({ place: Number(place), name }))
  .filter(({ name }) => !(FIRST_COLUMNS as readonly string[]).includes(name));

export const TRACE_COLUMNS: readonly TraceColumn[] = [...FIRST_COLUMNS, ...FURTHER_STATES.map(({ name }) => name)];

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
    // The equations follow the charge only while the motors run.
    ...FURTHER_STATES.map(({ place }) => (place === State.Charge ? chargeDrawn(course) : y[place])),
  ];
}

/** A row with the phase in which its step was made. */
export interface TraceStep {
  readonly row: readonly number[];
  readonly phase: TracePhase;
}

export function traceStep(course: Course): TraceStep {
  const { phase, phaseBegan } = course.s;
  return { row: traceRow(course), phase: { name: phase, began: phaseBegan } };
}

/** The phases that lasted, in order; a phase that gave way in the moment in which it began left no step. */
export function tracePhases(steps: readonly TraceStep[]): readonly TracePhase[] {
  return steps.flatMap(({ phase }, index) => (steps[index - 1]?.phase.name === phase.name ? [] : [phase]));
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
