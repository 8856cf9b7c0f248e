/** How a landing is judged: each limit on its own, from flights that end on the far side of it. */
import { describe, expect, test } from 'vitest';
import { createFlightModel } from '../../sim/flight/model.js';
import { failureFlags, isSoft, OUTCOMES } from '../../sim/flight/record.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative } from '../model/near.js';
import { flyAt, scenarioNamed } from './bench.js';
import { quietDraw } from './nominal-inputs.js';

const model = createFlightModel(scenarioNamed('burdock'));
const judged = (change: (inputs: FlightInputs) => void) => flyAt(model, quietDraw(change), 250);
const usual = judged(() => {});

describe('a landing', () => {
  test('is soft at exactly its vertical limit and hard just over it', () => {
    const at = (limit: number) =>
      judged((inputs) => {
        inputs.criteria.vertical_speed = limit;
      }).outcome;
    expect(at(usual.vertical_speed)).toBe('soft');
    expect(at(usual.vertical_speed * 0.999)).toBe('hard');
    expect(at(usual.vertical_speed * 0.5001)).toBe('hard');
    expect(at(usual.vertical_speed * 0.499)).toBe('crash');
  });

  test('is not soft when it drifts or leans beyond the limits, however gently it comes down', () => {
    const drifting = judged((inputs) => {
      inputs.criteria.horizontal_speed = usual.horizontal_speed * 0.99;
    });
    const leaning = judged((inputs) => {
      inputs.criteria.tilt = usual.tilt * 0.99;
    });
    expect([drifting.outcome, leaning.outcome]).toEqual(['hard', 'hard']);
  });

  test('has the total speed of its parts, and the kinetic energy of that', () => {
    expectRelative(usual.touchdown_speed, Math.hypot(usual.vertical_speed, usual.horizontal_speed), 1e-12);
    expectRelative(usual.energy, 0.305 * usual.touchdown_speed ** 2, 1e-12);
  });

  test('under a canopy has its own vertical limit and none on tilt', () => {
    const hanging = (canopySpeed: number) =>
      flyAt(
        model,
        quietDraw((inputs) => {
          inputs.parachute = {
            diameter: 0.9,
            drag_coefficient: 0.75,
            deployment_time: 0.4,
            fill_constant: 8,
            added_mass: 0.5,
            fire_below: 120,
            fire_faster_than: 12,
            failure: false,
          };
          inputs.criteria.canopy_speed = canopySpeed;
          inputs.criteria.vertical_speed = 0.1;
          inputs.criteria.tilt = 1e-9;
        }),
        20,
      ).outcome;
    expect(hanging(6)).toBe('soft');
    expect(hanging(4)).toBe('hard');
  });
});

test('a flight that is not soft and shows no broken part leaves its cause to be sought', () => {
  const late = flyAt(model, quietDraw(), 60);
  expect([late.outcome, late.cause]).toEqual(['crash', 'not sought']);
  expect(usual.cause).toBe('none');
});

test('every outcome but a soft landing is a failure', () => {
  const indices = OUTCOMES.map((_, index) => index);
  expect(indices.filter(isSoft).map((index) => OUTCOMES[index])).toEqual(['soft']);
  expect([...failureFlags(indices)]).toEqual(OUTCOMES.map((name) => (name === 'soft' ? 0 : 1)));
});
