import { describe, expect, it } from 'vitest';
import { nominalDraw } from '../../sim/draws/drawer.js';
import { proportion } from '../../sim/statistics/proportion.js';
import { type Findings, warningsOf } from '../../sim/study/warnings.js';
import { burdock } from './burdock.js';

function findings(changes: Partial<Findings> = {}, ...overrides: readonly string[]): Findings {
  const scenario = burdock('invented=no', 'wind.speed=3 m/s', ...overrides);
  return {
    scenario,
    inputs: nominalDraw(scenario).inputs,
    flights: 8000,
    partial: false,
    risk: proportion(240, 8000),
    verdict: 'within',
    flightsToSettle: null,
    numerical: 0,
    curve: [],
    criteria: [],
    keepOut: [],
    ...changes,
  };
}

const codes = (...found: Parameters<typeof findings>) => warningsOf(findings(...found)).map(({ code }) => code);
const point = (height: number) => ({ height }) as never;

describe('the warnings about a result', () => {
  it('always come with advice', () => {
    const all = findings({ partial: true, flights: 10, numerical: 1 }, 'wind.speed=12 m/s');
    for (const { text, advice } of warningsOf(all))
      expect([text, advice].every((one) => /^\S.*\.$/s.test(one))).toBe(true);
  });

  // 59 flights are the fewest that can show 5 %: 1 - 0.05^(1/59) = 0.0495.
  it('tell that too few flights were flown for the risk, and stop telling at the number they name', () => {
    expect(codes({ flights: 58 })).toContain('too few flights');
    expect(codes({ flights: 59 })).not.toContain('too few flights');
  });

  it('tell when the interval is wider than the margin, with the flights that would settle it', () => {
    const found = warningsOf(findings({ verdict: 'not shown', flightsToSettle: 12345 }));
    expect(found.find(({ code }) => code === 'wide interval')?.advice).toContain('--flights 13000');
    expect(codes()).not.toContain('wide interval');
  });

  it('tell of a bound that clips the distribution', () => {
    const clipped =
      'can.mass={ normal: { mean: 610 g, sd: 5 g }, at_least: 610 g, kind: varies from flight to flight }';
    expect(codes({}, clipped)).toContain('clipped');
    expect(codes()).not.toContain('clipped');
  });

  it('tell of numerical failures', () => {
    expect(codes({ numerical: 1 })).toContain('numerical');
    expect(codes()).not.toContain('numerical');
  });

  it('tell when the planned height is at the edge of the grid, not inside it and not alone', () => {
    expect(codes({ curve: [point(100), point(250)] })).toContain('edge of the grid');
    expect(codes({ curve: [point(100), point(250), point(300)] })).not.toContain('edge of the grid');
    expect(codes({ curve: [point(250)] })).not.toContain('edge of the grid');
  });

  it('tell of wind over the launch code', () => {
    expect(codes({}, 'wind.speed=9 m/s')).toContain('wind over the launch code');
    expect(codes()).not.toContain('wind over the launch code');
  });

  it('tell of a footprint that crosses the recovery circle or a keep-out circle', () => {
    const circle = { name: 'outside the recovery circle', limit: 0.05, risk: proportion(90, 1000), verdict: 'above' };
    expect(codes({ criteria: [circle as never] })).toContain('outside the circle');
    expect(codes({ keepOut: [{ name: 'road', inside: proportion(1, 1000) }] })).toContain('keep-out');
    expect(codes({ keepOut: [{ name: 'road', inside: proportion(0, 1000) }] })).not.toContain('keep-out');
  });

  it('tell of invented numbers and of an interrupted study', () => {
    expect(codes({ partial: true })).toContain('partial');
    expect(warningsOf({ ...findings(), scenario: burdock() }).map(({ code }) => code)).toContain('invented');
    expect(codes()).not.toContain('invented');
  });

  it('tell of a craft without an arming guard', () => {
    expect(codes()).toContain('no arming guard');
    const guard = 'stabiliser.arming_guard={ rate: 500 deg/s, tilt: 60 deg }';
    expect(codes({}, guard)).not.toContain('no arming guard');
  });
});
