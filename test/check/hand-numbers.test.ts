import { describe, expect, it } from 'vitest';
import { guessesWithoutSpread, heightMoved, rankGuesses, withInput } from '../../sim/check/hand-guesses.js';
import { handNumbers, poweredStop } from '../../sim/check/hand-numbers.js';
import { nominalDraw } from '../../sim/draws/drawer.js';
import { burdock } from '../ensemble/burdock.js';

const inputsOf = (...overrides: readonly string[]) => nominalDraw(burdock(...overrides)).inputs;

describe('the powered stop', () => {
  // Closed form h = (w^2/2g) ln(1 + v^2/((n-1) w^2)); values recomputed from it with SciPy.
  it('takes 56.545 m and 3.2035 s from 40 m/s at 2 weights with a terminal speed of 40 m/s', () => {
    const stop = poweredStop(40, 40, 2);
    expect(stop?.height).toBeCloseTo(56.545, 3);
    expect(stop?.time).toBeCloseTo(3.2035, 4);
  });

  it('takes 33.0767 m and 3.5503 s from 20 m/s at 1.5 weights', () => {
    const stop = poweredStop(20, 40, 1.5);
    expect(stop?.height).toBeCloseTo(33.0767, 4);
    expect(stop?.time).toBeCloseTo(3.5503, 4);
  });

  it('never ends at or under one weight', () => {
    expect(poweredStop(20, 40, 1)).toBeNull();
    expect(poweredStop(20, 40, 0.5)).toBeNull();
  });

  it('tends to v^2 / (2 (n-1) g) without drag', () => {
    expect(poweredStop(20, 1e6, 2)?.height).toBeCloseTo(400 / (2 * 9.80665), 6);
  });
});

describe('the hand calculation', () => {
  // Momentum theory: 0.5 kg on four 3 in rotors at 1.225 kg/m3 takes 51.36 W, recomputed with SciPy.
  it('gives the ideal hover power of momentum theory', () => {
    const inputs = inputsOf(
      'can.mass=0.5 kg',
      'rotors.diameter=3 in',
      'site.elevation=0 m',
      'site.temperature=15 degC',
    );
    expect(handNumbers(inputs).idealHoverPower).toBeCloseTo(51.36, 1);
  });

  it('gives the density of the standard atmosphere at a standard site', () => {
    // US Standard Atmosphere 1976, Table I: 1.1117 kg/m3 at 1000 m, 281.651 K.
    const inputs = inputsOf('site.elevation=1000 m', 'site.temperature=281.651 K');
    expect(handNumbers(inputs).density).toBeCloseTo(1.1117, 4);
  });

  it('finds no stop and no height for a craft that cannot lift itself', () => {
    const heavy = handNumbers(inputsOf('can.mass=2 kg'));
    expect(heavy.thrustToWeight).toBeLessThan(1);
    expect([heavy.stoppingHeight, heavy.stoppingTime, heavy.lowestHeight]).toEqual([null, null, null]);
  });

  it.each([
    ['a heavier can', 'can.mass=640 g'],
    ['a slower pilot', 'pilot.reaction=2.5 s'],
    ['a longer wait', 'pad.wait=60 min'],
    ['a thrust stand in denser air', 'rotors.bench_density=1.25 kg/m^3'],
    ['a flow error that reads high', 'pilot.call_out.flow_error=0.3'],
  ])('asks for more height for %s', (_what, override) => {
    expect(handNumbers(inputsOf(override)).lowestHeight).toBeGreaterThan(handNumbers(inputsOf()).lowestHeight ?? 0);
  });

  it('draws no longest wait where nothing draws power', () => {
    expect(handNumbers(inputsOf('battery.standby_power=0 W')).longestWait).toBeNull();
  });
});

describe('the ranking of guesses', () => {
  it('ranks by the height that each moves, the strongest first', () => {
    const moved = rankGuesses(burdock(), inputsOf()).map(heightMoved);
    expect(moved.length).toBeGreaterThan(3);
    expect(moved).toEqual(moved.toSorted((a, b) => b - a));
  });

  it('leaves out what moves nothing, and what is measured', () => {
    const paths = rankGuesses(burdock(), inputsOf()).map(({ path }) => path);
    expect(paths).not.toContain('wind.from');
    expect(paths).not.toContain('can.mass');
  });

  it('names guesses that are one number apart', () => {
    expect(guessesWithoutSpread(burdock('pilot.lapse={ value: 2 %, source: guess }'))).toContain('pilot.lapse');
  });

  it('changes one input and leaves the nominal ones as they are', () => {
    const inputs = inputsOf();
    const { mass } = inputs.can;
    const changed = withInput(inputs, 'can.mass', 1);
    expect(changed.can.mass).toBe(1);
    expect(inputs.can.mass).toBe(mass);
    expect(withInput(inputs, 'ejection.horizontal_speed', 3).ejection.horizontal_speed).toEqual([3, 3]);
  });
});
