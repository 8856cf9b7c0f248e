/** Arms that open about their hinges: closed forms, which way a stream works, what holds an arm, and what the craft makes of it. */
import { describe, expect, test } from 'vitest';
import { flyOn, giveOrder } from '../../sim/flight/course.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { swingTime } from '../../sim/model/hinge.js';
import { State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom, flyAt, named, scenarioNamed } from './bench.js';
import { quietDraw } from './nominal-inputs.js';

/** Spring and friction, N m, the air's density and the area of one arm: those of the closed forms below. */
const [SPRING, FRICTION, DENSITY, AREA] = [0.04, 0.01, 1.01, 13e-4];
/** The can weighs so much that its speed stays, and its arms so little that their weight does nothing. */
const HEAVY = 1e9;

/**
 * Arms of 1.0115e-4 kg m2 that are 85 mm long and free at once, on a can that falls end first at a speed that nothing changes.
 * The opening time is the one by which the bench finds this inertia.
 */
function steady(
  change: (inputs: FlightInputs) => void = () => {},
  torque = SPRING - FRICTION,
  friction = FRICTION / SPRING,
) {
  return quietDraw((inputs) => {
    const { can, arms, rotors, wind } = inputs;
    Object.assign(can, { diameter: 0.05, arm_drag_area: AREA, blade_drag_area: 0, mass: HEAVY });
    Object.assign(can, {
      folded_axial_inertia: 1e6,
      folded_transverse_inertia: 1e6,
      tumble_floor: 0,
      slender_body_factor: 0,
    });
    Object.assign(can, { open_axial_inertia: 2e6, open_transverse_inertia: 2e6 });
    Object.assign(arms, { release_delay: 0, friction, hinge_torque: torque, opening_time: swingTime(INERTIA, torque) });
    rotors.distance_from_axis = 0.11;
    wind.speed = 0;
    change(inputs);
  });
}
const INERTIA = (0.006 * 0.085 ** 2) / 3 + 0.012 * 0.085 ** 2;
const UPRIGHT = [1, 0, 0, 0] as const;
const UPSIDE_DOWN = [0, 1, 0, 0] as const;
/** Its top to the east. */
const ON_ITS_SIDE = [Math.SQRT1_2, 0, Math.SQRT1_2, 0] as const;

type Begin = Partial<Parameters<typeof courseFrom>[1]>;

function falling(speed: number, draw = steady(), begin: Begin = {}): Course {
  const course = courseFrom(draw, { height: 4000, velocity: [0, 0, -speed], density: DENSITY, ...begin });
  // Drag of the can's end that holds the speed; the arms do not weigh.
  if (speed > 0) course.craft.airframe.endDrag = (2 * course.craft.mass * GRAVITY) / (DENSITY * speed * speed);
  course.craft.armMoment = 0;
  return course;
}

/** Flies until the arms are open, and says when; infinite if they are not within `limit`. */
function openTime(course: Course, limit = 3): number {
  flyOn(course, limit);
  return course.s.arms === 'open' ? course.s.openTime : Number.POSITIVE_INFINITY;
}

const angles = ({ s }: Course) => [...s.y.subarray(State.Arm1, State.ArmRate1)];

describe('an arm in still air', () => {
  test('opens in sqrt(pi I/M), .102919 s (computed)', () => {
    // From rest: 1 m/s by then bears on it by some microseconds.
    expectWithin(openTime(falling(0)), 0.102919, 1e-5);
  });

  test('is there when the bench says, whatever the torque: what holds it lets go late', () => {
    for (const torque of [0.01, 0.06, 0.5]) {
      const draw = steady((inputs) => {
        inputs.arms.opening_time = 0.4;
        inputs.can.open_axial_inertia = 1e6 + 0.04;
      }, torque);
      // Falls from rest: at .4 s with 4 m/s, which bears on the weakest by some ms.
      expectWithin(openTime(falling(0, draw)), 0.4, 3e-3);
    }
  });

  test('with its own factor on spring and friction opens in the root of it less', () => {
    const course = falling(
      0,
      steady(({ arms }) => {
        arms.own_torque_factor = [1, 4, 1, 1];
      }),
    );
    flyOn(course, 0.0516);
    expect(angles(course)[1]).toBe(Math.PI / 2);
    expectWithin(angles(course)[0], (Math.PI / 2) * (0.0516 / 0.102919) ** 2, 1e-4);
  });
});

describe('a stream along the can', () => {
  // The can falls upright, so that the stream comes from below. Computed by quadrature of the energy integral
  // 1/2 I a'^2 = M a -+ 1/2 rho S r V^2 (a/2 - sin(2a)/4), 30 m/s.
  test('from the side of the hinges slows the opening to .123994 s, from that of the tips speeds it up to .094882 s', () => {
    const tipsUp = steady(({ arms }) => {
      arms.fold = 'tips up';
    });
    expectWithin(openTime(falling(30, tipsUp)), 0.1239939, 4e-6);
    expectWithin(openTime(falling(30)), 0.0948822, 4e-6);
    // Upside down the sides are changed.
    expectWithin(openTime(falling(30, steady(), { attitude: UPSIDE_DOWN })), 0.1239939, 4e-6);
    expectWithin(openTime(falling(30, tipsUp, { attitude: UPSIDE_DOWN })), 0.0948822, 4e-6);
  });

  test('lets no arm open beyond V = sqrt(4 M/(rho S r)), 32.791 m/s; at 35 m/s it stops at 80.016 deg (computed)', () => {
    const upside = (speed: number) => falling(speed, steady(), { attitude: UPSIDE_DOWN });
    expect(openTime(upside(32.7), 0.3)).toBeLessThan(0.2);
    expect(openTime(upside(32.9), 0.3)).toBe(Number.POSITIVE_INFINITY);
    const course = upside(35);
    let largest = 0;
    course.observer = () => {
      largest = Math.max(largest, angles(course)[0]);
    };
    flyOn(course, 0.3);
    expectWithin((largest * 180) / Math.PI, 80.016, 0.02);
  });
});

describe('a stream across the can', () => {
  // 25 m/s on the flank between the sides of arms 1 and 4: u_r = 25/sqrt 2 on both, 1/2 rho S r u_r^2 = .01744 N m when folded.
  const broadside = (speed: number, torque?: number) =>
    falling(0, steady(undefined, torque), { velocity: [speed, 0, 0], attitude: UPRIGHT });

  test('presses the arms of its own side against the can, and does nothing to those in its wake', () => {
    const course = broadside(25);
    flyOn(course, 0.05);
    const [one, two, three, four] = angles(course);
    expect(one).toBe(four);
    expect(two).toBe(three);
    expectWithin(two, (Math.PI / 2) * (0.05 / 0.102919) ** 2, 1e-3);
    // (M - .01744 cos^2 a)/I at first: .42 of the acceleration.
    const early = broadside(25);
    flyOn(early, 0.02);
    expectRelative(angles(early)[0] / angles(early)[1], 1 - 0.01744 / 0.03, 0.01);
  });

  test('keeps an arm folded that is weaker', () => {
    const course = broadside(25, 0.015);
    flyOn(course, 0.5);
    expect(angles(course)).toEqual([0, Math.PI / 2, Math.PI / 2, 0]);
    expect(course.s.arms).toBe('opening');
  });

  test('along and across together count by what crosses the arm: t u_z sin a + u_r cos a, of one sign or of two', () => {
    // On its side, falling: only arms whose side is down feel it, and the arm half open feels it less by cos^2.
    const course = falling(25, steady(undefined, 0.2), { attitude: ON_ITS_SIDE });
    flyOn(course, 0.02);
    const [one, two] = angles(course);
    expect(Math.abs(one - two)).toBeGreaterThan(1e-3);
  });
});

test('the weight of an arm is the specific force along the can: under 1 g a tip that hangs down opens as a pendulum is lifted', () => {
  // Fixed in space: F = m g upwards. I a'' = M - m g r sin a from rest: 1/2 I a'^2 = M a - m g r (1 - cos a).
  const [moment, torque] = [4e-4, 0.03];
  const course = falling(0, steady(undefined, torque, 0.25));
  const { craft, s } = course;
  craft.armMoment = moment;
  craft.mass = 1;
  craft.perMass = 1;
  s.y[State.UpSpeed] = 0;
  // The drag that holds 1 kg at this speed: end drag alone, no arms' area.
  craft.stoppedAreas.fill(0);
  craft.airframe.endDrag = (2 * GRAVITY) / (DENSITY * 30 ** 2);
  s.y[State.UpSpeed] = -30;
  flyOn(course, 0.09);
  const a = angles(course)[0];
  const rate = s.y[State.ArmRate1] as number;
  expect(a).toBeLessThan((Math.PI / 2) * (0.09 / 0.102919) ** 2 - 0.02);
  expectRelative(0.5 * INERTIA * rate ** 2, torque * a - moment * GRAVITY * (1 - Math.cos(a)), 1e-5);
});

describe('friction', () => {
  test("brakes an arm that the stream turns back: 1/2 I a'^2 = (M_s + M_f)(a - a_1) less the work of the stream from a_1 on", () => {
    const course = falling(35, steady(), { attitude: UPSIDE_DOWN });
    let turned = 0;
    course.observer = () => {
      turned = Math.max(turned, angles(course)[0]);
    };
    while (!((course.s.y[State.ArmRate1] as number) < -2)) flyOn(course, course.s.time + 0.005);
    const [a, rate] = [angles(course)[0], course.s.y[State.ArmRate1] as number];
    const load = 0.5 * DENSITY * AREA * 0.085 * 35 ** 2;
    const work = (one: number) => load * (one / 2 - Math.sin(2 * one) / 4);
    expectRelative(0.5 * INERTIA * rate ** 2, work(turned) - work(a) - (SPRING + FRICTION) * (turned - a), 2e-3);
  });

  test('holds an arm that the stream has stopped, until the torque on it is above friction', () => {
    // Stopped at 80 deg, the stream pulls back by more than spring and friction; held where it does not.
    const course = falling(34.35, steady(undefined, 0.03, 0.7), { attitude: UPSIDE_DOWN });
    flyOn(course, 0.4);
    const held = angles(course)[0];
    expect(held).toBeGreaterThan(0.5);
    expect(held).toBeLessThan(1.5);
    expect(course.s.y[State.ArmRate1]).toBe(0);
    // A little faster or slower than that it stays; much slower it opens.
    course.s.y[State.UpSpeed] = -33;
    flyOn(course, 0.5);
    expect(angles(course)[0]).toBe(held);
    course.s.y[State.UpSpeed] = -5;
    expect(openTime(course, 0.8)).toBeLessThan(0.7);
  });

  test('of an arm without any lets it swing to and fro about where spring and stream are even, and keeps its energy', () => {
    const course = falling(45, steady(undefined, 0.03, 0), { attitude: UPSIDE_DOWN, stepScale: 0.5 });
    let [turns, before] = [0, 1];
    course.observer = () => {
      const rate = course.s.y[State.ArmRate1] as number;
      if (rate !== 0 && Math.sign(rate) !== before) {
        before = Math.sign(rate);
        turns += 1;
      }
    };
    flyOn(course, 0.6);
    expect(turns).toBeGreaterThan(4);
    const a = angles(course)[0];
    expect(a).toBeGreaterThanOrEqual(0);
    expect(a).toBeLessThan(Math.PI / 2);
  });
});

describe('the craft', () => {
  /** Ordered at once; the arms are let go by the order, as nothing holds them. */
  const ordered = (change: (inputs: FlightInputs) => void, speed = 34) => {
    const draw = steady((inputs) => {
      inputs.arms.release = 'on the order';
      inputs.arms.longest_wait = 0.7;
      inputs.rotors.start_time = 0.1;
      change(inputs);
    });
    const course = falling(speed, draw, { attitude: UPSIDE_DOWN });
    giveOrder(course);
    return course;
  };

  test('starts its motors with the last arm that is open, or when it has waited long enough', () => {
    const slow = ordered(() => {}, 10);
    flyOn(slow, 1);
    expectWithin(slow.journal.startTime, slow.s.openTime, 1e-9);
    expect(slow.journal.armsLeftTime).toBeNaN();
    const held = ordered(() => {});
    flyOn(held, 0.69);
    expect(held.s.phase).toBe('waiting');
    flyOn(held, 1);
    expectWithin(held.journal.startTime, 0.7, 1e-9);
    expect(held.journal.armsLeftTime).toBe(held.journal.startTime);
    expect(held.s.arms).toBe('left');
  });

  test('runs the rotors of the open arms alone, and moves no arm any more', () => {
    const course = ordered(({ arms }) => {
      arms.own_torque_factor = [1, 3, 3, 3];
    });
    flyOn(course, 1);
    const angle = angles(course)[0];
    expect(angle).toBeGreaterThan(0);
    expect([...course.s.driven]).toEqual([0, 1, 1, 1]);
    expect(course.s.areas[0]).toBe(course.craft.stoppedAreas[0] * Math.sin(angle));
    flyOn(course, 1.5);
    expect(angles(course)[0]).toBe(angle);
  });

  test('waits a second beyond the opening time where the scenario does not say', () => {
    const course = ordered(({ arms }) => {
      arms.longest_wait = null;
      arms.opening_time = 0.3;
    });
    flyOn(course, 2);
    expectWithin(course.journal.startTime, 1.3, 1e-9);
  });

  test('waits for no arm that stays shut, but for the others', () => {
    const course = ordered(({ arms }) => {
      arms.stuck = [true, false, false, false];
    }, 10);
    flyOn(course, 0.6);
    expect(angles(course)[0]).toBe(0);
    expectWithin(course.journal.startTime, course.s.openTime, 1e-9);
    expect([...course.s.driven]).toEqual([0, 1, 1, 1]);
  });
});

describe('whole flights', () => {
  const model = createFlightModel(scenarioNamed('burdock-late-arms'));
  const late = (change: (inputs: FlightInputs) => void) =>
    quietDraw((inputs) => {
      inputs.arms.release = 'on the order';
      inputs.arms.release_delay = 0.1;
      change(inputs);
    });

  test('with arms that the stream holds crash for it', () => {
    const flown = flyAt(
      model,
      late(({ arms }) => {
        arms.hinge_torque = 2e-3;
      }),
      250,
    );
    expect([flown.outcome, flown.cause]).toEqual(['crash', 'arm held']);
    const stuck = late(({ arms }) => {
      arms.hinge_torque = 2e-3;
      arms.stuck = [true, false, false, false];
    });
    expect(flyAt(model, stuck, 250).cause).toBe('arm shut');
  });

  test('that meet the ground before the wait is over crash for it as well', () => {
    const low = late(({ arms }) => {
      arms.hinge_torque = 2e-3;
      arms.longest_wait = 60;
    });
    expect(flyAt(model, low, 250).cause).toBe('arm held');
  });

  test('tell when the arms opened or were not waited for', () => {
    const events = (torque: number) => {
      const draw = late(({ arms }) => {
        arms.hinge_torque = torque;
      });
      return new Map(model.trace(draw, 250).events.map(({ name, time }) => [name, time]));
    };
    const [strong, weak] = [events(0.2), events(2e-3)];
    expect(strong.get('arms open')).toBeGreaterThan(strong.get('arms released') as number);
    expect(strong.has('arms not waited for')).toBe(false);
    expect(weak.has('arms open')).toBe(false);
    expectWithin(weak.get('arms not waited for') as number, (weak.get('arms released') as number) + 1.4, 1e-9);
  });

  test('branch from the fall in any state of their arms: an order while they open does not change when they are open', () => {
    const draw = quietDraw(({ arms, pilot, link }) => {
      // Weak, so that they take a while, and an order that comes at once.
      Object.assign(arms, { hinge_torque: 8e-3, longest_wait: 60 });
      Object.assign(pilot, { reaction: 0 });
      Object.assign(pilot.call_out, { latency: 0, flow_error: 0 });
      link.delay = 0;
    });
    const flown = (height: number) => {
      const { events, rows } = model.trace(draw, height);
      const timeOf = (name: string) => events.find((event) => event.name === name)?.time as number;
      return { open: timeOf('arms open'), order: timeOf('order received'), rows };
    };
    const { open, rows } = flown(1);
    expect(open).toBeGreaterThan(2.5);
    const shown = (time: number) => 0.9254 * (rows.find((row) => (row[0] as number) >= time)?.[1] as number);
    for (const share of [0.3, 0.6, 0.9]) {
      const ordered = flown(shown(2.2 + share * (open - 2.2)));
      expect(ordered.order).toBeGreaterThan(2.2);
      expect(ordered.order).toBeLessThan(open);
      expectWithin(ordered.open, open, 1e-3);
    }
  });

  test('with springs that no stream holds open when the bench says, and alike whatever the fold', () => {
    const of = (fold: 'tips down' | 'tips up') => {
      const draw = quietDraw(({ arms }) => {
        arms.hinge_torque = 100;
        arms.fold = fold;
      });
      const { events, record } = model.trace(draw, 250);
      return {
        open: events.find(({ name }) => name === 'arms open')?.time as number,
        speed: named(record).touchdown_speed,
      };
    };
    expectWithin(of('tips down').open, 2.4, 1e-5);
    expectWithin(of('tips up').open, 2.4, 1e-5);
    expectWithin(of('tips down').speed, of('tips up').speed, 1e-3);
  });
});

test('the equation converges with the fourth order of the step while an arm moves smoothly', () => {
  const angleAt = (stepScale: number) => {
    const course = falling(25, steady(undefined, 0.05), { attitude: UPSIDE_DOWN, stepScale });
    flyOn(course, 0.075);
    return angles(course)[0];
  };
  const exact = angleAt(0.02);
  const [coarse, fine] = [Math.abs(angleAt(1) - exact), Math.abs(angleAt(0.5) - exact)];
  expect(coarse).toBeLessThan(1e-5);
  expect(Math.log2(coarse / fine)).toBeGreaterThan(3.5);
});

test('the moment at which an arm is open converges with the fourth order as well', () => {
  const timeAt = (stepScale: number) =>
    openTime(falling(25, steady(undefined, 0.05), { attitude: UPSIDE_DOWN, stepScale }), 0.3);
  const exact = timeAt(0.02);
  const [coarse, fine] = [Math.abs(timeAt(1) - exact), Math.abs(timeAt(0.5) - exact)];
  expect(coarse).toBeLessThan(2e-5);
  expect(Math.log2(coarse / fine)).toBeGreaterThan(3);
});
