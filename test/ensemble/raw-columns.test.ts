import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeBytes, decodeNumbers, encodeColumn } from '../../sim/ensemble/raw-columns.js';

describe('raw columns', () => {
  it('read back to the same numbers, NaN and infinities too', () => {
    fc.assert(
      fc.property(fc.float32Array(), (column) => {
        expect(decodeNumbers(encodeColumn(column))).toEqual(column);
      }),
    );
    fc.assert(
      fc.property(fc.uint8Array(), (column) => {
        expect(decodeBytes(encodeColumn(column))).toEqual(column);
      }),
    );
  });

  // IEEE 754: 1 is 0x3f800000, here with its lowest byte first.
  it('are little-endian', () => {
    expect(Buffer.from(encodeColumn(Float32Array.of(1)), 'base64').toString('hex')).toBe('0000803f');
  });

  it('hold a part of a larger buffer without the rest', () => {
    const column = Float32Array.of(1, 2, 3).subarray(1, 2);
    expect(decodeNumbers(encodeColumn(column))).toEqual(Float32Array.of(2));
  });
});
