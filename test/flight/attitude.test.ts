/** What the attitude does of itself: nothing here is ruled anywhere, all of it comes out of the equations. */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { flyOn } from '../../sim/flight/course.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectWithin } from '../model/near.js';
import { courseFrom, flyAt, named, scenarioNamed, toInertial } from './bench.js';
import { quietDraw, withoutBrakingEffects } from './nominal-inputs.js';

const DEGREE = Math.PI / 180;
const scenario = scenarioNamed('burdock');
const model = createFlightModel(scenario);

/** Attitude leaning by an angle about the east axis. */
const leaning = (angle: number) => [Math.cos(angle / 2), Math.sin(angle / 2), 0, 0] as const;

/** Angle between the can's axis and its path, 0 to 90 deg. */
function incidence(y: Float64Array): number {
  const axis = toInertial(y, [0, 0, 1]);
  const v = [y[State.EastSpeed] as number, y[State.NorthSpeed] as number, y[State.UpSpeed] as number];
  const along = axis.reduce((sum, part, i) => sum + part * (v[i] as number), 0);
  return Math.acos(Math.min(1, Math.abs(along) / Math.hypot(...v))) / DEGREE;
}

describe('a bare can', () => {
  test.each([
    [0.3, 3],
    [0.65, 3],
    [1, 20],
  ])('turns broadside from nearly end on, with a slender-body factor of %d from %d deg', (factor, from) => {
    const draw = quietDraw((inputs) => {
      inputs.wind.speed = 0;
      inputs.can.tumble_floor = 0;
      inputs.can.slender_body_factor = factor;
      inputs.arms.release_delay = 1e9;
    });
    const course = courseFrom(draw, { height: 3000, velocity: [0, 0, -25], attitude: leaning(from * DEGREE) });
    flyOn(course, 30);
    expect(incidence(course.s.y)).toBeGreaterThan(80);
  });

  test('stays end on without that force: drag at the middle alone is not unstable', () => {
    const draw = quietDraw((inputs) => {
      inputs.wind.speed = 0;
      inputs.can.tumble_floor = 0;
      inputs.can.slender_body_factor = 0;
      inputs.arms.release_delay = 1e9;
    });
    const course = courseFrom(draw, { height: 3000, velocity: [0, 0, -25], attitude: leaning(3 * DEGREE) });
    flyOn(course, 30);
    expect(incidence(course.s.y)).toBeLessThan(15);
  });
});

describe('the open can', () => {
  /** Incidence after 60 s of fall in still air with the arms open. */
  function settled(height: number, factor: number): number {
    const draw = quietDraw((inputs) => {
      withoutBrakingEffects(inputs);
      inputs.wind.speed = 0;
      inputs.can.slender_body_factor = factor;
      inputs.rotors.height_above_centre_of_mass = height;
      inputs.arms.release_delay = -1;
    });
    const course = courseFrom(draw, { height: 4000, velocity: [0, 0, -25], attitude: leaning(10 * DEGREE) });
    flyOn(course, 60);
    return incidence(course.s.y);
  }
  /**
   * Statics: arms of drag area S in all, h above the centre of mass, restore with rho S h V u_n/2; the slender-body force
   * turns with rho k A V cos(a) cos(a/2) u_n L/2. They balance where cos(a) cos(a/2) = S h/(k A L); over 1 only at 0.
   */
  function balance(height: number, factor: number): number {
    const ratio = (4 * 23e-4 * height) / (factor * Math.PI * 0.04 ** 2 * 0.21);
    if (ratio >= 1) return 0;
    let [low, high] = [0, Math.PI / 2];
    for (let k = 0; k < 60; k += 1) {
      const a = (low + high) / 2;
      if (Math.cos(a) * Math.cos(a / 2) > ratio) low = a;
      else high = a;
    }
    return low / DEGREE;
  }

  test('hangs in the stream with the rotors 100 mm up and a factor of 0.65', () => {
    expect(balance(0.1, 0.65)).toBe(0);
    expect(settled(0.1, 0.65)).toBeLessThan(0.5);
  });

  test.each([
    [0.085, 38.3],
    [0.1, 26.5],
  ])('with the full term and the rotors %d m up leans where the statics say: %d deg', (height, angle) => {
    expectWithin(balance(height, 1), angle, 0.1);
    expectWithin(settled(height, 1), balance(height, 1), 0.1);
  });
});

describe('with three working arms', () => {
  test.each([0, 1, 2, 3])('it cannot hold attitude: arm %d shut', (shut) => {
    const flown = flyAt(
      model,
      quietDraw((inputs) => {
        inputs.arms.stuck = [0, 1, 2, 3].map((arm) => arm === shut);
      }),
      250,
    );
    expect(flown.outcome).toBe('crash');
    expect(flown.cause).toBe('arm shut');
    expect(flown.upright_time).toBeNaN();
    expect(flown.arrest_time).toBeNaN();
    expect(flown.vertical_speed).toBeGreaterThan(15);
  });

  test('nor with a dead rotor: it is spun up by the twist that its opposite no longer balances', () => {
    const flown = flyAt(
      model,
      quietDraw((inputs) => {
        inputs.rotors.dead = [true, false, false, false];
      }),
      250,
    );
    expect(flown.outcome).toBe('crash');
    expect(flown.cause).toBe('rotor dead');
    expect(flown.peak_rate).toBeGreaterThan(360 * DEGREE);
  });
});

describe('a gyro that is beyond its range, or off in scale', () => {
  /** Ejected 80 m above the cue, fast tumble, ordered after 4 s; seconds from rotors running to upright. */
  function settling(release: FlightInputs['arms']['release'], drop: number, range: number, scaleError: number): number {
    const draw = quietDraw((inputs) => {
      inputs.arms.release = release;
      inputs.arms.release_delay = release === 'on the order' ? 0.1 : 0.5;
      inputs.ejection.height = 400 + drop;
      inputs.ejection.tumble_rate = 2500 * DEGREE;
      inputs.stabiliser.gyro_range = range * DEGREE;
      inputs.stabiliser.gyro_scale_error = scaleError;
      inputs.plan.cue = 'automatic';
    });
    const flown = flyAt(model, draw, 390);
    return flown.upright_time - flown.running_time;
  }

  test('delays stabilising by seconds when the arms open on the order', () => {
    expect(settling('on the order', 80, 20_000, 0)).toBeLessThan(1);
    expect(settling('on the order', 80, 2000, 0)).toBeGreaterThan(3);
    expect(settling('on the order', 80, 20_000, 0.02)).toBeGreaterThan(3);
  });

  test('hardly matters when they opened early: the estimate is drawn right while it hangs in the stream', () => {
    for (const [range, scaleError] of [
      [20_000, 0],
      [2000, 0],
      [20_000, 0.02],
    ] as const)
      expect(settling('after ejection', 150, range, scaleError)).toBeLessThan(0.3);
  });

  test('lengthens many stops at 4000 deg/s with late arms, and none with early ones (same draws, range 2000 against 20000)', () => {
    const stops = (name: string, range: string) => {
      const changes = [
        'ejection.tumble_rate=4000 deg/s',
        'stabiliser.gyro_scale_error=0',
        `stabiliser.gyro_range=${range}`,
      ];
      const tumbling = scenarioNamed(name, ...changes);
      const many = createFlightModel(tumbling);
      const drawer = createDrawer(tumbling, 'gyro');
      return Array.from({ length: 40 }, (_, id) => {
        const flown = flyAt(many, drawer.draw('explore', id), 400);
        return flown.order_height - flown.arrest_height || 400; // never arrested: all the way down
      });
    };
    const more = (name: string) => {
      const wide = stops(name, '20000 deg/s');
      return stops(name, '2000 deg/s').map((stop, id) => stop - (wide[id] as number));
    };
    const late = more('burdock-late-arms');
    const longer = late.filter((metres) => metres > 10).length;
    expect(longer).toBeGreaterThanOrEqual(5);
    expect(longer).toBeGreaterThan(late.filter((metres) => metres < -10).length);
    expect(more('burdock').filter((metres) => Math.abs(metres) > 10)).toEqual([]);
  });
});

describe('the estimate', () => {
  const column = (name: string) => model.trace(quietDraw(), 250).columns.indexOf(name);
  const error = column('estimate_error_deg');

  test.each([0.1, 0.6, 0.9])('starts wrong by the starting error, whichever way: direction %d', (direction) => {
    const draw = quietDraw((inputs) => {
      inputs.stabiliser.starting_error = 10 * DEGREE;
      inputs.stabiliser.starting_error_axis = [direction];
    });
    const { rows } = model.trace(draw, 250);
    expectWithin(rows[0]?.[error] as number, 10, 1e-6);
  });

  test('keeps its error in free fall, is drawn right while it hangs at a weight of drag', () => {
    const draw = quietDraw((inputs) => {
      inputs.stabiliser.starting_error = 10 * DEGREE;
    });
    const { rows } = model.trace(draw, 250);
    const at = (time: number) => rows.find((row) => (row[0] as number) >= time)?.[error] as number;
    expectWithin(at(1.5), 10, 0.01);
    expect(at(15)).toBeLessThan(0.1);
  });

  test('is drawn right by the horizon within seconds once upright', () => {
    const draw = quietDraw((inputs) => {
      withoutBrakingEffects(inputs);
      inputs.stabiliser.gyro_bias = [20 * DEGREE, 0, 0]; // pulls it away all the time
      inputs.stabiliser.reference_time = 100;
    });
    const { rows, record } = model.trace(draw, 250);
    const flown = named(record);
    const at = (time: number) => rows.find((row) => (row[0] as number) >= time)?.[error] as number;
    expect(at(flown.upright_time)).toBeGreaterThan(30);
    // Bias against a pull with a time constant of 1 s: 20 deg off in the end.
    expectWithin(at(flown.upright_time + 8), 20, 3);
  });
});

test('upside down at throttle-up it first drives itself down: 10 to 25 m more to stop', () => {
  const stopFrom = (angle: number) => {
    const draw = quietDraw((inputs) => {
      inputs.wind.speed = 0;
      inputs.arms.release_delay = -1;
    });
    const course = courseFrom(draw, {
      height: 500,
      velocity: [0, 0, -30],
      attitude: leaning(angle),
      thrust: [0, 0, 0, 0],
    });
    let fastest = 0;
    course.observer = () => {
      fastest = Math.max(fastest, -(course.s.y[State.UpSpeed] as number));
    };
    flyOn(course, 10);
    return { height: 500 - course.journal.arrestHeight, fastest };
  };
  const [upright, inverted] = [stopFrom(0), stopFrom(Math.PI)];
  expect(inverted.fastest).toBeGreaterThan(upright.fastest + 0.5);
  expect(inverted.height - upright.height).toBeGreaterThan(10);
  expect(inverted.height - upright.height).toBeLessThan(25);
});
