import { describe, expect, it } from 'vitest';
import type { FlightTrace } from '../../sim/flight/flight.js';
import { TRACE_COLUMNS } from '../../sim/flight/trace.js';
import { envelopeOf, historyOf, pathOf } from '../../sim/trace/histories.js';

/** A flight from `start` m at a steady speed, with rows at uneven times. */
function steady(start: number, speed: number, steps = 7): FlightTrace {
  const end = start / speed;
  const rows = Array.from({ length: steps + 1 }, (_, step) => {
    const time = end * (step / steps) ** 2;
    return TRACE_COLUMNS.map((name) =>
      name === 'time_s' ? time : name === 'height_m' ? start - speed * time : name === 'fall_speed_m_per_s' ? speed : 0,
    );
  });
  return {
    record: { outcome: 0, cause: 0, values: new Float64Array() },
    events: [],
    phases: [],
    columns: TRACE_COLUMNS,
    rows,
  };
}

describe('the envelope over time', () => {
  it('follows one flight exactly, between its rows too', () => {
    const envelope = envelopeOf([pathOf(steady(100, 10))]);
    expect(envelope[0]).toMatchObject({ time: 0, height: [100, 100, 100], speed: [10, 10, 10], flying: 1 });
    // Times and heights are rounded to 0.01, so a height is off by up to 10 * 0.005 + 0.005.
    for (const { time, height } of envelope) expect(Math.abs(height[1] - (100 - 10 * time))).toBeLessThan(0.0551);
  });

  it('orders its three quantiles and counts only flights still in the air', () => {
    const envelope = envelopeOf([5, 8, 10, 20].map((speed) => pathOf(steady(100, speed))));
    for (const { height, flying } of envelope) {
      expect(height[0]).toBeLessThanOrEqual(height[1]);
      expect(height[1]).toBeLessThanOrEqual(height[2]);
      expect(flying).toBeGreaterThan(0);
    }
    expect(envelope[envelope.length - 1].flying).toBe(0.25);
  });

  it('is empty without flights', () => {
    expect(envelopeOf([])).toEqual([]);
  });
});

describe('the history of one flight', () => {
  it('keeps its first and last row and few between', () => {
    const history = historyOf(steady(100, 10, 5000), { id: 'explore:1@50', why: 'a test' });
    expect(history.time[0]).toBe(0);
    expect(history.time[history.time.length - 1]).toBe(10);
    expect(history.height[history.height.length - 1]).toBeCloseTo(0, 9);
    expect(history.time.length).toBeLessThanOrEqual(150);
  });
});
