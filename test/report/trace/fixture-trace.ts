/** A made-up flight in full, with the shape of a real one: it falls, stops and lands; nothing here is flown. */
import { presentVersions } from '../../../sim/basics/versions.js';
import { COLUMN_NAMES, COLUMNS, type ColumnName, type Outcome } from '../../../sim/flight/record.js';
import type { DrawnNumber, TraceResult } from '../../../sim/trace/result.js';
import { SCENARIO } from '../assess/fixture.js';

const HISTORY = [
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

/** A number, an unmeasured one far out, a chance, an event that happens and one that does not, and luck. */
const DRAWN: readonly DrawnNumber[] = [
  number('wind.speed', 0.4, 3, 'm/s'),
  { ...number('rotors.thrust_factor', 0.996, 1.08, ''), kind: 'fixed but not measured' },
  { ...number('rotors.dead', 0.5, 0.5, '%'), kind: 'fixed but not measured' },
  event('rotors.dead#event[rotor 2]', true),
  event('rotors.dead#event[rotor 3]', false),
  { ...number('ejection.attitude[u1]', 0.001, 0.001, ''), part: 'luck' },
];

function number(name: string, quantile: number, value: number, unit: string): DrawnNumber {
  const path = name.replace(/[#[].*$/, '');
  const kind = 'varies from flight to flight';
  return { name, path, part: 'value', kind, quantile, value, shown: value, unit, chance: null };
}

function event(name: string, happens: boolean): DrawnNumber {
  return { ...number(name, happens ? 0.9999 : 0.4, 0, ''), part: 'event', value: happens, shown: null, chance: 0.005 };
}

export function makeTrace(outcome: Outcome, motors = true): TraceResult {
  const rows = Array.from({ length: ROWS }, (_, i) => {
    const time = (30 * i) / (ROWS - 1);
    const running = motors && time >= ORDER;
    const speed = running ? 1 + 25 * Math.exp(ORDER - time) : 26 * (1 - Math.exp(-time));
    const height = running ? Math.max(0, 200 - 20 * (time - ORDER)) : 720 - 26 * time;
    return [time, height, speed, 4, 90 * Math.exp(-time), running ? 14.8 - 0.01 * time : 0, running ? 20 : 0];
  });
  const values: Readonly<Partial<Record<ColumnName, number>>> = {
    touchdown_speed: 4.1,
    vertical_speed: 1,
    horizontal_speed: 4,
    east: 30,
    north: 40,
    time: 30,
  };
  const record = COLUMN_NAMES.map((name) => [name, values[name] ?? null]);
  return {
    kind: 'trace',
    versions: presentVersions(),
    scenario: SCENARIO,
    overrides: [],
    warnings: [],
    seed: '1',
    id: 'explore:17@250',
    set: 'explore',
    flight: 17,
    height: 250,
    inputs: [],
    drawn: DRAWN,
    noise: [],
    constants: [],
    outcome,
    cause: outcome === 'soft' ? 'none' : 'arm shut',
    events: [
      { name: 'ejected', time: 0, height: 720 },
      { name: 'order received', time: ORDER, height: 200 },
      { name: 'rotors running', time: ORDER, height: 200 },
      { name: 'touchdown', time: 30, height: 0 },
    ],
    phases: [{ name: 'falling', began: 0 }],
    record: Object.fromEntries(record),
    recordMeaning: COLUMNS,
    history: Object.fromEntries(HISTORY.map((name, column) => [name, rows.map((row) => row[column])])),
  };
}
