import { describe, test } from 'vitest';
import { createNoise } from '../../sim/draws/noise.js';
import { nextInSeries, type RingSeries, setRingSeries } from '../../sim/model/ring-noise.js';
import { expectRelative, expectWithin } from './near.js';

const INTERVAL = 0.1;

/** The series whose interval is q time constants: St v_h/D = q/(2 pi interval). */
function seriesOf(q: number): RingSeries {
  const series = { deviation: 0, correlation: 0 };
  setRingSeries(series, INTERVAL, 0.15, (0.0762 * q) / (2 * Math.PI * INTERVAL * 0.15), 0.0762);
  return series;
}

describe('the fluctuation of thrust on the intervals of the clock', () => {
  // sqrt(2 (q - 1 + exp(-q)))/q, worked out apart.
  test.each([
    [0.25, 0.96001],
    [1, 0.85776],
    [4, 0.61424],
    [20, 0.30822],
  ])('has the spread of the means of a first-order noise over %d time constants: %d', (q, deviation) => {
    expectWithin(seriesOf(q).deviation, deviation, 5e-6);
  });

  test('keeps its content at low frequency: s^2 (1 + correlation)/(1 - correlation) = 2/q', () => {
    for (const q of [0.05, 0.25, 1, 4, 20]) {
      const { deviation, correlation } = seriesOf(q);
      expectRelative((deviation ** 2 * (1 + correlation)) / (1 - correlation), 2 / q, 1e-9);
    }
  });

  test('is a first-order corner at St v_h/D: at 20 Hz and 0.1 s the spread is 0.383', () => {
    const series = { deviation: 0, correlation: 0 };
    setRingSeries(series, INTERVAL, 0.1, 15.24, 0.0762);
    expectWithin(series.deviation, 0.383, 5e-4);
  });

  test('measured over 100 000 intervals: spread, and spread of the means over 200 of them', () => {
    const { noise, start } = createNoise('ring');
    start('explore', 0, new Set());
    const [n, block] = [100_000, 200];
    for (const [column, q] of [1, 4, 12].entries()) {
      const series = seriesOf(q);
      let one = series.deviation * noise.ring.at(0, column);
      let squares = 0;
      let blocks = 0;
      let sum = 0;
      for (let k = 0; k < n; k += 1) {
        squares += one * one;
        sum += one;
        if ((k + 1) % block === 0) {
          blocks += sum * sum;
          sum = 0;
        }
        one = nextInSeries(series, one, noise.ring.at(k + 1, column));
      }
      // Four standard errors: of a variance from n/(time constants apart) and from n/block numbers.
      expectRelative(squares / n, series.deviation ** 2, 4 * Math.sqrt((2 * (1 + 2 / q)) / n));
      const slow = blocks / n; // variance of a block's sum, per interval
      expectRelative(slow, 2 / q, 4 * Math.sqrt((2 * block) / n) + 2 / block);
    }
  });
});
