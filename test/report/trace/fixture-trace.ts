/** A made-up flight in full, with the shape of a real one: it falls, stops and lands; nothing here is flown. */
import type { ReportedTrace } from '../../../report/trace/trace.js';
import { CAUSES, COLUMN_NAMES, OUTCOMES, type Outcome } from '../../../sim/flight/record.js';
import { SCENARIO } from '../assess/fixture.js';

const COLUMNS = [
  'time_s',
  'height_m',
  'fall_speed_m_per_s',
  'ground_speed_m_per_s',
  'tilt_deg',
  'pack_voltage_V',
  'pack_current_A',
];
const ORDER = 20;
const ROWS = 1200;

export function makeTrace(outcome: Outcome, motors = true): ReportedTrace {
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const time = (30 * i) / (ROWS - 1);
    const running = motors && time >= ORDER;
    const speed = running ? 1 + 25 * Math.exp(ORDER - time) : 26 * (1 - Math.exp(-time));
    const height = running ? Math.max(0, 200 - 20 * (time - ORDER)) : 720 - 26 * time;
    return [time, height, speed, 4, 90 * Math.exp(-time), running ? 14.8 - 0.01 * time : 0, running ? 20 : 0];
  });
  const values: Readonly<Record<string, number>> = {
    touchdown_speed: 4.1,
    vertical_speed: 1,
    horizontal_speed: 4,
    east: 30,
    north: 40,
    time: 30,
  };
  return {
    id: 'explore:17@250',
    scenario: SCENARIO,
    seed: '1',
    program: '0.1.0',
    trace: {
      record: {
        outcome: OUTCOMES.indexOf(outcome),
        cause: CAUSES.indexOf(outcome === 'soft' ? 'none' : 'arm shut'),
        values: Float64Array.from(COLUMN_NAMES, (name) => values[name] ?? Number.NaN),
      },
      events: [
        { name: 'ejected', time: 0, height: 720 },
        { name: 'order received', time: ORDER, height: 200 },
        { name: 'rotors running', time: ORDER, height: 200 },
        { name: 'touchdown', time: 30, height: 0 },
      ],
      columns: COLUMNS,
      rows,
    },
  };
}
