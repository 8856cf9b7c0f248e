import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flightId, parseFlightId } from '../../sim/ensemble/flight-id.js';

describe('the name of a flight', () => {
  it('reads set, number and height', () => {
    expect(parseFlightId('worlds:17@250', 100)).toEqual({ set: 'worlds', flight: 17, height: 250 });
  });

  it('means the set explore and the planned height where they are left out', () => {
    expect(parseFlightId('17', 100)).toEqual({ set: 'explore', flight: 17, height: 100 });
    expect(parseFlightId('17@80.5', 100)).toEqual({ set: 'explore', flight: 17, height: 80.5 });
  });

  it.each([
    '',
    'explore:',
    '-1',
    '1.5',
    'explore:17@',
    '17@0',
    '17@-5',
    'nowhere:17',
    '99999999999',
    '10000000',
    '17@1e9',
    'NaN',
  ])('refuses %j', (text) => {
    expect(parseFlightId(text, 100)).toBeNull();
  });

  it('reads back what it writes', () => {
    const names = fc.record({
      set: fc.constantFrom('explore' as const, 'confirm' as const, 'worlds' as const),
      flight: fc.nat(9_999_999),
      height: fc.integer({ min: 1, max: 9000 }).map((tenths) => tenths / 10),
    });
    fc.assert(
      fc.property(names, (name) => {
        expect(parseFlightId(flightId(name), 1)).toEqual(name);
      }),
    );
  });
});
