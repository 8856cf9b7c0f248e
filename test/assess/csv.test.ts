import { describe, expect, it } from 'vitest';
import { flightsCsv } from '../../sim/assess/csv.js';
import { decodeNumbers } from '../../sim/ensemble/raw-columns.js';
import { COLUMN_NAMES } from '../../sim/flight/record.js';
import { traceCsv } from '../../sim/trace/trace-columns.js';
import { fakeResult } from './fake-result.js';

const result = await fakeResult(5);
const lines = [...flightsCsv(result)].join('').trimEnd().split('\n');

describe('the flights as CSV', () => {
  it('have a header with units and a row for each flight', () => {
    expect(lines).toHaveLength(1 + result.flights);
    expect(lines[0]).toMatch(/^set,flight,planned height \(m\),outcome,cause,touchdown_speed \(m\/s\)/);
    expect(lines[0]).toContain('peak_rate (rad/s)');
    expect(lines[0]).toMatch(/,energy_left,/);
    const width = 5 + COLUMN_NAMES.length;
    expect(lines.every((line) => line.split(',').length === width)).toBe(true);
  });

  it('say the same as the columns of the result, to seven digits', () => {
    const speeds = decodeNumbers(result.raw.planned.columns.touchdown_speed);
    lines.slice(1).forEach((line, flight) => {
      const [set, number, height, , , speed] = line.split(',');
      expect([set, number, height]).toEqual(['explore', String(flight), '250']);
      expect(Number(speed)).toBeCloseTo(speeds[flight], 5);
    });
  });

  it('leave a cell empty where the event never came, and never write NaN', () => {
    const arrest = lines[0].split(',').findIndex((name) => name.startsWith('arrest_time'));
    const crashed = lines.filter((line) => line.includes(',crash,'));
    expect(crashed.length).toBeGreaterThan(0);
    expect(crashed.every((line) => line.split(',')[arrest] === '')).toBe(true);
    expect(lines.join()).not.toContain('NaN');
  });
});

describe('a time history as CSV', () => {
  it('leaves what is not a number empty', () => {
    const record = { outcome: 0, cause: 0, values: new Float64Array() };
    const trace = {
      record,
      events: [],
      phases: [],
      columns: ['time_s', 'height_m'],
      rows: [
        [0, Number.NaN],
        [0.5, 12.25],
      ],
    };
    expect([...traceCsv(trace)].join('')).toBe('time_s,height_m\n0,\n0.5,12.25\n');
  });
});
