import { describe, expect, it } from 'vitest';
import {
  CHANCE_INSIDE,
  criteriaOf,
  detailFor,
  groundImpact,
  groundImpactIn,
  outsideCircle,
  touchdownEnergy,
} from '../../sim/decision/criteria.js';
import { riskOf } from '../../sim/decision/judge.js';
import { DETAILS } from '../../sim/ensemble/flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { flightsForBound } from '../../sim/statistics/proportion.js';
import { burdock } from '../ensemble/burdock.js';

const limits = (...overrides: readonly string[]) =>
  criteriaOf(burdock(...overrides)).map(({ name, limit }) => [name, limit]);

function flights(outcome: readonly number[], places: readonly (readonly [number, number])[]): FlightColumns {
  return {
    height: 100,
    outcome: Uint8Array.from(outcome),
    cause: new Uint8Array(outcome.length),
    columns: {
      east: Float32Array.from(places, ([east]) => east),
      north: Float32Array.from(places, ([, north]) => north),
    },
  };
}

describe('the criteria of a scenario', () => {
  it('are ground impact and what else the file demands, each with its limit', () => {
    const circle = 'criteria.recovery_circle={ radius: 200 m, chance_outside: 2 % }';
    const energy = 'criteria.touchdown_energy={ most: 40 J, chance_over: 3 % }';
    expect(limits('criteria.ground_impact_risk=3 %', circle, energy, 'site.keep_out=[]')).toEqual([
      ['ground impact', 0.03],
      ['outside the recovery circle', 0.02],
      ['touchdown with more than 40 J', 0.03],
    ]);
    expect(limits('criteria.recovery_circle=none', 'site.keep_out=[]')).toEqual([['ground impact', 0.05]]);
  });

  it('hold each keep-out circle, with the limit of the program, named as such, where the file gives none', () => {
    const [road, crew, other] = [
      '{ name: road, east: 0 m, north: 9 m, radius: 5 m, chance_inside: 1 % }',
      '{ name: crew, east: 0 m, north: 0 m, radius: 5 m }',
      '{ name: crew, east: 50 m, north: 0 m, radius: 5 m }',
    ];
    const circles = criteriaOf(burdock('criteria.recovery_circle=none', `site.keep_out=[${road}, ${crew}, ${other}]`));
    expect(circles.slice(1).map(({ name, limit, assumed }) => [name, limit, assumed ?? false])).toEqual([
      ['inside the keep-out circle "road"', 0.01, false],
      ['inside the keep-out circle "crew" (1)', CHANCE_INSIDE, true],
      ['inside the keep-out circle "crew" (2)', CHANCE_INSIDE, true],
    ]);
    expect(new Set(circles.map(({ id }) => id)).size).toBe(4);
  });

  it('assume a limit that 2000 flights can show, and hardly fewer', () => {
    expect(flightsForBound(0, CHANCE_INSIDE)).toBeGreaterThan(1000);
    expect(flightsForBound(0, CHANCE_INSIDE)).toBeLessThanOrEqual(2000);
  });

  it('have names and ids of their own, and hold ground impact in any order', () => {
    const criteria = criteriaOf(burdock());
    for (const key of ['id', 'name'] as const)
      expect(new Set(criteria.map((one) => one[key])).size).toBe(criteria.length);
    expect(groundImpactIn(criteria.toReversed())).toBe(criteria[0]);
    expect(() => groundImpactIn(criteria.slice(1))).toThrow('Ground impact');
  });
});

describe('a flight', () => {
  it('breaks ground impact unless it lands softly', () => {
    const flown = flights([0, 1, 2, 3], []);
    expect([0, 1, 2, 3].map((flight) => groundImpact(0.05).breaks(flown, flight))).toEqual([false, true, true, true]);
  });

  it('breaks the recovery circle over its edge, and where its place is not known', () => {
    const places = [
      [3, -4],
      [3, 4.001],
      [-5.001, 0],
      [Number.NaN, 0],
      [0, Number.NaN],
    ] as const;
    const circle = outsideCircle(5, 0.1);
    const flown = flights([0, 0, 0, 0, 0], places);
    expect(places.map((_, flight) => circle.breaks(flown, flight))).toEqual([false, true, true, true, true]);
    expect(riskOf(circle, flown)).toMatchObject({ count: 4, flights: 5, estimate: 0.8 });
  });

  it('breaks a keep-out circle up to its edge, softly or not, and where its place is not known', () => {
    const [, circle] = criteriaOf(
      burdock('criteria.recovery_circle=none', 'site.keep_out=[{ name: x, east: 10 m, north: 0 m, radius: 5 m }]'),
    );
    const places = [
      [13, 4],
      [13, 4.001],
      [10, 0],
      [Number.NaN, 0],
    ] as const;
    const flown = flights([0, 0, 2, 3], places);
    expect(places.map((_, flight) => circle.breaks(flown, flight))).toEqual([true, false, true, true]);
  });

  it('breaks the limit of the touchdown energy over it, and where its energy is not known', () => {
    const flown = { ...flights([0, 0, 0], []), columns: { energy: Float32Array.from([40, 40.5, Number.NaN]) } };
    expect([0, 1, 2].map((flight) => touchdownEnergy(40, 0.05).breaks(flown, flight))).toEqual([false, true, true]);
  });

  it('is not judged by a column that was not kept', () => {
    const flown = { ...flights([0], []), columns: {} };
    expect(() => outsideCircle(5, 0.1).breaks(flown, 0)).toThrow('east was not kept');
  });
});

describe('what is kept of each flight', () => {
  const [impact, circle] = [groundImpact(0.05), outsideCircle(100, 0.05)];
  const energy = { ...impact, id: 'energy', needs: ['energy'] } as const;

  it('is the least that tells what the criteria ask', () => {
    expect(detailFor([impact])).toBe('outcomes');
    expect(detailFor([impact, circle])).toBe('places');
    expect(detailFor([impact, circle, energy])).toBe('full');
  });

  it('tells what is asked besides, and seeks causes only where that does', () => {
    for (const atLeast of DETAILS) expect(detailFor([impact], atLeast)).toBe(atLeast);
    expect(detailFor([impact, circle], 'outcomes and causes')).toBe('facts and causes');
    expect(detailFor([impact, energy], 'facts')).toBe('full');
    expect(detailFor([impact, energy], 'facts and causes')).toBe('causes');
  });
});
