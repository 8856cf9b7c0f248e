/** What the pilot goes by: the height at which each cue comes, from its equation. */
import { describe, expect, test } from 'vitest';
import type { FlightNoise } from '../../sim/draws/draw.js';
import { createFlightModel } from '../../sim/flight/model.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { flyAt, scenarioNamed } from './bench.js';
import { HARDER, QUIET, quietDraw } from './nominal-inputs.js';

const model = createFlightModel(scenarioNamed('burdock', ...HARDER));
const HEIGHT = 250;
/** With vents that the stream leaves alone, unless told. */
const inputsWith = (change: (inputs: FlightInputs) => void) =>
  quietDraw((inputs) => {
    inputs.pilot.call_out.flow_error = 0;
    change(inputs);
  });
const fly = (change: (inputs: FlightInputs) => void = () => {}) => flyAt(model, inputsWith(change), HEIGHT);

/** Geopotential metres for each metre up there: (r0/(r0 + z))^2, z from 1180 to 1450 m. */
const SHARE = (6_356_766 / (6_356_766 + 1315)) ** 2;
/** Metres shown for each metre: the standard temperature at 1180 m, 288.15 - 0.0065 x 1179.781 K, over 303.15 K. */
const SHOWN = (SHARE * (288.15 - 0.0065 * 1179.781)) / 303.15;

describe('the call-out', () => {
  test('comes where the pressure altitude less that of the ground is the planned height: in warm air above it', () => {
    expectWithin(fly().cue_height, HEIGHT / SHOWN, 0.005);
    expectWithin(fly().cue_height, 270.3, 0.05);
    const standard = fly((inputs) => {
      inputs.site.temperature = 288.15 - 0.0065 * 1179.781;
    });
    expectWithin(standard.cue_height, HEIGHT / SHARE, 0.005);
  });

  test.each([
    // 44330 x .0065 x (.1903 x 5.255876) metres over 303.15 K for each geopotential metre; and 1.
    ['fixed sea level', (44_330 * 0.0065 * 0.1903 * 5.255876) / 303.15],
    ['temperature corrected', 1],
  ] as const)('of an altimeter with the formula "%s" comes where that shows the planned height', (formula, shown) => {
    const flown = fly((inputs) => {
      inputs.pilot.call_out.formula = formula;
    });
    expectWithin(flown.cue_height, HEIGHT / (SHARE * shown), 0.005);
  });

  test('comes lower by a positive bias', () => {
    const biased = fly((inputs) => {
      inputs.pilot.call_out.bias = 7;
    });
    expectWithin(biased.cue_height, (HEIGHT - 7) / SHOWN, 0.005);
  });

  test.each([-0.8, 0.2, 0.4])('comes lower by k V^2/(2g) for a flow error k of %d', (k) => {
    const flown = fly((inputs) => {
      inputs.pilot.call_out.flow_error = k;
    });
    // V: the fall speed at the order; it hardly changes at terminal speed.
    const head = (k * flown.speed_at_order ** 2) / (2 * 9.80665);
    expectWithin(flown.cue_height, (HEIGHT - head) / SHOWN, 1.5 * Math.abs(k));
    expectWithin(flown.order_height, fly().order_height - head / SHOWN, 4 * Math.abs(k));
  });

  test('follows the noise of the reading', () => {
    const noise: FlightNoise = { ...QUIET, callOut: { at: () => 2 } };
    const flown = flyAt(model, { inputs: inputsWith(() => {}).inputs, noise }, HEIGHT);
    expectWithin(flown.cue_height, (HEIGHT - 2) / SHOWN, 0.005);
  });
});

describe('the other cues', () => {
  test('the picture comes at the planned height times the judgement, without latency', () => {
    const flown = fly((inputs) => {
      inputs.plan.cue = 'picture';
    });
    expectWithin(flown.cue_height, 0.85 * HEIGHT, 0.005);
    expectWithin(flown.cue_height - flown.order_height, (1.18 + 0.1) * flown.speed_at_order, 0.2);
  });

  test('the timer fires when the nominal flight passes the height, by itself without a person', () => {
    const timed = fly((inputs) => {
      inputs.plan.cue = 'timer';
    });
    expectWithin(timed.order_height, HEIGHT, 0.3);
    const pressed = fly((inputs) => {
      inputs.plan.cue = 'timer';
      inputs.plan.timer_start = 'a person';
    });
    expectRelative(pressed.order_time - timed.order_time, 1.18 + 0.1, 1e-9);
  });

  test.each([
    ['call-out', 270.3],
    ['nothing', Number.NaN],
  ] as const)('a pilot whose picture is lost goes by: %s', (fallback, height) => {
    const flown = fly((inputs) => {
      inputs.plan.cue = 'picture';
      // 2 W x 18 K/W over 26.8 min at 12 min: 30 + 32 degC, over a limit of 60.
      inputs.video = {
        power: 2,
        thermal_resistance: 18,
        time_constant: 720,
        limit: 333.15,
        without_picture: fallback,
      };
    });
    if (fallback === 'call-out') expectWithin(flown.cue_height, height, 0.05);
    else {
      expect(flown.cue_height).toBeNaN();
      expect([flown.outcome, flown.cause]).toEqual(['crash', 'no picture']);
    }
  });
});
