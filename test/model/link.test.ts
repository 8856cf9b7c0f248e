import { describe, expect, test } from 'vitest';
import type { NoiseSeries } from '../../sim/draws/draw.js';
import { createStream } from '../../sim/draws/streams.js';
import { createOutages, outageAt, resetOutages, rewindOutages, throughAt } from '../../sim/model/link.js';
import { expectWithin } from './near.js';

/** Outages at given gaps and lengths, for a rate and a mean length of one. */
function fixed(rows: readonly (readonly [number, number])[]): NoiseSeries {
  return { at: (node, column) => rows[node]?.[column] ?? 1e9 };
}

describe('radio outages', () => {
  test('come at the rate, after exponential gaps, with exponential lengths of the mean', () => {
    const [gap, length] = [createStream('link', 'explore', 'gap'), createStream('link', 'explore', 'length')];
    const noise = { at: (node: number, column: number) => -Math.log((column === 0 ? gap : length).value(node)) };
    const outages = createOutages();
    resetOutages(outages, 0.2, 1.5, noise);
    const n = 20_000;
    let lengths = 0;
    let squares = 0;
    let time = 0;
    for (let k = 0; k < n; k += 1) {
      const { begin, end } = outageAt(outages, time);
      lengths += end - begin;
      squares += (end - begin) ** 2;
      time = end;
    }
    // Four standard errors: of an exponential mean 1/sqrt(n), of the gaps' sum likewise, of the squares sqrt(20/4)/sqrt(n).
    expectWithin(lengths / n / 1.5, 1, 4 / Math.sqrt(n));
    expectWithin(((time - lengths) / n) * 0.2, 1, 4 / Math.sqrt(n));
    expectWithin(squares / n / (2 * 1.5 ** 2), 1, (4 * Math.sqrt(5)) / Math.sqrt(n));
  });

  test('scale with rate and mean length', () => {
    const outages = createOutages();
    resetOutages(outages, 0.5, 3, fixed([[1, 2]]));
    expect([outages.begin, outages.end]).toEqual([2, 8]);
  });

  test('never come at a rate of zero', () => {
    const outages = createOutages();
    resetOutages(outages, 0, 1, fixed([[0, 1]]));
    expect(throughAt(outages, 1e6)).toBe(1e6);
  });

  test('hold an order given inside one until its end, and no other', () => {
    const outages = createOutages();
    resetOutages(
      outages,
      1,
      1,
      fixed([
        [5, 2],
        [4, 1],
      ]),
    ); // 5 to 7 s, 11 to 12 s
    expect(throughAt(outages, 4.9)).toBe(4.9);
    expect(throughAt(outages, 5)).toBe(7);
    expect(throughAt(outages, 6.9)).toBe(7);
    expect(throughAt(outages, 7)).toBe(7);
    expect(throughAt(outages, 11.5)).toBe(12);
    rewindOutages(outages);
    expect(throughAt(outages, 6)).toBe(7);
  });
});
