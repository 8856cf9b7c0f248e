import { describe, expect, it } from 'vitest';
import { footprintOf } from '../../sim/assess/footprint.js';
import { COLUMN_NAMES, type ColumnName, type FlightColumns, OUTCOMES } from '../../sim/flight/record.js';
import { proportion } from '../../sim/statistics/proportion.js';

/** Flights at these places; the named ones crash. */
function flights(places: readonly (readonly [number, number])[], crashed: readonly number[]): FlightColumns {
  const column = (name: ColumnName) =>
    Float32Array.from(places, ([east, north]) => (name === 'east' ? east : name === 'north' ? north : 1));
  return {
    height: 250,
    outcome: Uint8Array.from(places, (_, flight) => OUTCOMES.indexOf(crashed.includes(flight) ? 'crash' : 'soft')),
    cause: new Uint8Array(places.length),
    columns: Object.fromEntries(COLUMN_NAMES.map((name) => [name, column(name)])),
  };
}

const circle = (radius: number) => ({ radius, outside: proportion(2, 4) });

describe('the footprint', () => {
  it('counts every flight once: on the grid or beyond it', () => {
    const places = Array.from({ length: 500 }, (_, i) => [i * 3 - 700, (i % 20) * 5] as const);
    const { soft, notSoft, beyond } = footprintOf(flights(places, [0, 7, 499]), circle(100), []);
    const sum = (cells: readonly number[]) => cells.reduce((total, count) => total + count, 0);
    expect(sum(soft) + beyond.soft).toBe(497);
    expect(sum(notSoft) + beyond.notSoft).toBe(3);
  });

  it('puts the south-west corner first and counts rows northwards', () => {
    const { soft, halfCells, cell } = footprintOf(
      flights(
        [
          [0.1, 0.1],
          [cell0(0), cell0(1)],
        ],
        [],
      ),
      circle(20),
      [],
    );
    const side = 2 * halfCells;
    expect(cell).toBe(1);
    expect(soft[halfCells * side + halfCells]).toBe(1);
    expect(soft[(halfCells + 1) * side + halfCells]).toBe(1);
  });

  it('shows the chance of coming down outside the recovery circle as the criterion found it', () => {
    expect(footprintOf(flights([[0, 0]], []), circle(5), []).outsideCircle).toEqual(proportion(2, 4));
  });

  it('says nothing of a circle that is not there, nor of failures where there are none', () => {
    const found = footprintOf(flights([[0, 0]], []), null, []);
    expect([found.outsideCircle, found.keepAway]).toEqual([null, null]);
    expect(found.distanceNotSoft.flights).toBe(0);
  });

  it('counts flights inside each keep-out circle', () => {
    const keepOut = [{ name: 'road', east: 100, north: 0, radius: 10, chanceInside: null }];
    const { keepOut: rows } = footprintOf(
      flights(
        [
          [100, 9],
          [100, 11],
          [0, 0],
          [91, 0],
        ],
        [3],
      ),
      circle(5),
      keepOut,
    );
    expect(rows).toMatchObject([{ name: 'road', inside: { count: 2 }, soft: 1, notSoft: 1 }]);
  });

  it('keeps people away by the failed flights, not by those that land softly', () => {
    const places = [...Array.from({ length: 99 }, () => [0, 0] as const), [300, 400] as const];
    expect(footprintOf(flights(places, [99]), circle(5), []).keepAway?.distance).toBe(500);
  });
});

/** The middle of a cell of 1 m. */
function cell0(index: number): number {
  return index + 0.5;
}
