/** That the numbers do not hang on how they are worked out: order of the integrator, long steps, sharing of the fall. */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { beginStep, step } from '../../sim/flight/integrator.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { fallRates } from '../../sim/flight/motion.js';
import { COLUMN_NAMES } from '../../sim/flight/record.js';
import type { Rates } from '../../sim/flight/situation.js';
import { Slot } from '../../sim/model/scratch.js';
import { FALL_STATES, STATES, State } from '../../sim/model/state.js';
import { expectWithin } from '../model/near.js';
import { courseFrom, flyAt, named, scenarioNamed } from './bench.js';
import { quietDraw } from './nominal-inputs.js';

const scenario = scenarioNamed('burdock');

describe('the integrator', () => {
  /**
   * State after a second of a can that spins in an oblique stream. Nothing in the equations has a kink there: the
   * slender-body force, whose point of attack changes ends as the can passes broadside, is left out.
   */
  const smoothSecond = (steps: number): Float64Array => {
    const draw = quietDraw((inputs) => {
      inputs.wind.speed = 0;
      inputs.arms.release_delay = 1e9;
      inputs.can.slender_body_factor = 0;
    });
    const begin = { height: 500, velocity: [20, 5, -25], turning: [0.3, 0.2, 8], density: 1.1 } as const;
    const { craft, s } = courseFrom(draw, begin);
    for (let k = 0; k < steps; k += 1) {
      s.time = k / steps;
      beginStep(fallRates, craft, s, FALL_STATES);
      step(fallRates, craft, s, FALL_STATES, 1 / steps);
    }
    return s.y.slice(0, FALL_STATES);
  };

  test('is of order four: halving the step divides the error by 16', () => {
    const exact = smoothSecond(1600);
    const error = (steps: number) => Math.hypot(...smoothSecond(steps).map((value, i) => value - (exact[i] as number)));
    const errors = [25, 50, 100].map(error) as [number, number, number];
    for (const order of [Math.log2(errors[0] / errors[1]), Math.log2(errors[1] / errors[2])]) {
      expect(order).toBeGreaterThan(3.85);
      expect(order).toBeLessThan(4.15);
    }
  });
});

describe('a long step of the midpoint rule', () => {
  const lag = 0.045;
  const lagging = quietDraw((inputs) => {
    inputs.rotors.motor_lag = lag;
  });

  /** Thrust fractions after one step of h from 0.3, behind a command of 0.5 + slope t. */
  const thrustAfter = (h: number, slope: number): number => {
    const { craft, s } = courseFrom(lagging, { height: 100, density: 1.1 });
    const rates: Rates = (_, { scratch }, y, dy) => {
      dy.fill(0);
      for (let i = State.Thrust1; i < State.Charge; i += 1)
        dy[i] = (0.5 + slope * (scratch[Slot.Time] as number) - (y[i] as number)) / lag;
    };
    s.time = 0;
    s.method = 'midpoint';
    s.y.fill(0.3, State.Thrust1, State.Charge);
    beginStep(rates, craft, s, STATES);
    step(rates, craft, s, STATES, h);
    return s.y[State.Thrust4] as number;
  };

  // Of c' = (a + b t - c)/tau: c = a + b (t - tau) + (c0 - a + b tau) exp(-t/tau).
  test.each([0, 2, -3])('solves the motor lag exactly for a command that changes by %d a second', (slope) => {
    for (const h of [0.07, 0.1, 0.2]) {
      const exact = 0.5 + slope * (h - lag) + (0.3 - 0.5 + slope * lag) * Math.exp(-h / lag);
      expectWithin(thrustAfter(h, slope), exact, 1e-12);
    }
    // A step under 1.5 lags goes by the plain rule.
    const h = 0.06;
    const [first, half] = [0.2 / lag, 0.5 * h];
    const middle = (0.5 + slope * half - (0.3 + half * first)) / lag;
    expectWithin(thrustAfter(h, slope), 0.3 + h * middle, 1e-12);
  });

  /**
   * With lag t, rate gain G, attitude gain k and integral gain Ki the loop itself has t s^4 + s^3 + G s^2 + G (Ki + k) s + G Ki k
   * = 0: with the last row's t, G and k it is at the brink for Ki = 2 (Routh: 3 - 0.2 x 10.5 = 0.9, 0.9 x 10.5 = 9.45 against 9).
   */
  test.each([
    [0.005, 100, 4, 2],
    [0.01, 40, 6, 2],
    [0.02, 15, 10, 2],
    [0.045, 10, 8, 2],
    [0.1, 6, 3, 2],
    [0.2, 3, 1.5, 0.5],
  ])(
    'stays steady for a lag of %d s and loop gains of %d, %d and %d /s',
    (motorLag, rateGain, attitudeGain, integral) => {
      const draw = quietDraw((inputs) => {
        inputs.rotors.motor_lag = motorLag;
        inputs.stabiliser.rate_gain = rateGain;
        inputs.stabiliser.attitude_gain = attitudeGain;
        inputs.stabiliser.integral_gain = integral;
      });
      const [coarse, fine] = [1, 0.125].map((stepScale) =>
        flyAt(createFlightModel(scenario, { stepScale }), draw, 250),
      );
      if (coarse === undefined || fine === undefined) return;
      expect([coarse.outcome, fine.outcome]).toEqual(['soft', 'soft']);
      expectWithin(coarse.touchdown_speed, fine.touchdown_speed, 0.01);
      expectWithin(coarse.tilt, fine.tilt, 0.002);
      expectWithin(coarse.arrest_height, fine.arrest_height, 0.1);
    },
  );
});

describe('a flight', () => {
  const model = createFlightModel(scenario);
  const drawer = createDrawer(scenario, 'sharing');

  test('is the same alone, among other heights, after other flights, and traced: byte for byte', () => {
    for (let id = 0; id < 6; id += 1) {
      const among: Float64Array[] = [];
      model.fly(drawer.draw('explore', id), [80, 160, 250, 400], (_, { values }) => among.push(values.slice()));
      const alone = flyAt(createFlightModel(scenario), drawer.draw('explore', id), 160);
      const traced = named(model.trace(drawer.draw('explore', id), 160).record);
      COLUMN_NAMES.forEach((name, k) => {
        expect(alone[name], name).toBe((among[1] as Float64Array)[k]);
        expect(traced[name], name).toBe((among[1] as Float64Array)[k]);
      });
    }
  });

  test('comes down no later than the time limit, as a crash', () => {
    const hovering = quietDraw((inputs) => {
      inputs.time_limit = 30;
    });
    const flown = flyAt(model, hovering, 250);
    expect(flown.outcome).toBe('crash');
    expect(flown.time).toBeNaN();
  });

  test('that diverges is numerical, not lost', () => {
    const absurd = quietDraw((inputs) => {
      inputs.can.mass = 1e-9;
    });
    expect(flyAt(model, absurd, 250).outcome).toBe('numerical');
  });
});
