import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { MOST_UNIFORM } from '../../sim/draws/quantile.js';
import { createStream, streamKey } from '../../sim/draws/streams.js';

function first(count: number, ...key: Parameters<typeof createStream>): number[] {
  const stream = createStream(...key);
  return Array.from({ length: count }, (_, index) => stream.value(index));
}

/** Largest distance between the empirical distribution of numbers and the uniform one, times sqrt(n). */
function kolmogorov(numbers: readonly number[]): number {
  const sorted = Float64Array.from(numbers).sort();
  const n = sorted.length;
  return sorted.reduce((most, u, i) => Math.max(most, u - i / n, (i + 1) / n - u), 0) * Math.sqrt(n);
}

/** Of the limiting Kolmogorov law: exceeded once in a million, 2 exp(-2 x^2) = 1e-6. */
const ONCE_IN_A_MILLION = 2.69;

describe('a stream', () => {
  test('gives the same number at an index in whatever order it is read', () => {
    const inOrder = first(5000, 's', 'explore', 'can.mass');
    const stream = createStream('s', 'explore', 'can.mass');
    for (const index of [4999, 0, 1, 1, 1023, 1024, 1025, 2048, 37, 4999, 4998, 2, 3000, 0])
      expect(stream.value(index)).toBe(inOrder[index]);
  });

  test('keeps off 0 and 1', () => {
    expect(first(100_000, 's', 'explore', 'x').filter((u) => !(u > 0 && u <= MOST_UNIFORM))).toEqual([]);
  });

  test('is uniform', () => {
    expect(kolmogorov(first(100_000, 's', 'confirm', 'wind.speed'))).toBeLessThan(ONCE_IN_A_MILLION);
  });

  test('has 53 bits, not 32', () => {
    const fine = first(1000, 's', 'explore', 'x').filter((u) => !Number.isInteger(u * 2 ** 32));
    expect(fine.length).toBeGreaterThan(990);
  });

  test('keeps its values from release to release (a snapshot of this program, from no outside source)', () => {
    expect(first(2, 'burdock', 'explore', 'can.mass')).toMatchInlineSnapshot(`
      [
        0.33192090741751634,
        0.13727986549843207,
      ]
    `);
  });
});

describe('streams of different names', () => {
  const n = 20_000;
  /** Correlation of independent numbers is normal with standard deviation 1/sqrt(n): 5 of them. */
  const limit = 5 / Math.sqrt(n);
  const base = first(n, '1', 'explore', 'can.mass');
  const others: readonly (readonly [string, Parameters<typeof createStream>])[] = [
    ['the next seed', ['2', 'explore', 'can.mass']],
    ['a seed with a space', ['1 ', 'explore', 'can.mass']],
    ['another set', ['1', 'confirm', 'can.mass']],
    ['a third set', ['1', 'worlds', 'can.mass']],
    ['another input', ['1', 'explore', 'can.masS']],
    ['a parameter of the input', ['1', 'explore', 'can.mass.mean']],
  ];
  for (const [what, key] of others)
    test(`are uncorrelated: ${what}`, () => {
      const other = first(n, ...key);
      expect(Math.abs(sampleCorrelation(base, other))).toBeLessThan(limit);
      expect(Math.abs(sampleCorrelation(base.slice(1), other.slice(0, -1)))).toBeLessThan(limit);
      expect(Math.abs(sampleCorrelation(base.slice(0, -1), other.slice(1)))).toBeLessThan(limit);
    });

  test('of neighbouring seeds begin with unrelated uniform numbers', () => {
    const beginnings = Array.from({ length: n }, (_, seed) => createStream(String(seed), 'explore', 'x').value(0));
    expect(kolmogorov(beginnings)).toBeLessThan(ONCE_IN_A_MILLION);
    expect(Math.abs(sampleCorrelation(beginnings.slice(1), beginnings.slice(0, -1)))).toBeLessThan(limit);
  });

  test('never share a key, whatever the seed text holds', () => {
    const keys = [
      streamKey('a', 'explore', 'b'),
      streamKey('a","explore', 'explore', 'b'),
      streamKey('', 'explore', 'b'),
      streamKey('["a"', 'explore', 'b'),
      streamKey('a\\', 'explore', 'b'),
      streamKey('a', 'confirm', 'b'),
      streamKey('a', 'explore', 'b', 1),
      streamKey('a', 'explore', 'b",1'),
      streamKey('a', 'explore', 'b', 11),
    ];
    expect(new Set(keys).size).toBe(keys.length);
  });
});
