/** What the braking costs beside the mean loss in the vortex ring, each effect against its closed form. */
import { describe, expect, test } from 'vitest';
import { createNoise } from '../../sim/draws/noise.js';
import { flyOn, giveOrder } from '../../sim/flight/course.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { poweredRates } from '../../sim/flight/motion.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { discArea, hoverInducedSpeed } from '../../sim/model/rotors.js';
import { Slot } from '../../sim/model/scratch.js';
import { STATES, State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom } from './bench.js';
import { nominalInputs, QUIET, quietDraw, thrustAndArms } from './nominal-inputs.js';

const RHO = 1.0105;
const VOLTS = 14;
const BENCH = nominalInputs().rotors;
const DISC = discArea(BENCH.diameter);
/** Static thrust of one rotor at full throttle, N. */
const STATIC = BENCH.bench_thrust * (RHO / BENCH.bench_density) * (VOLTS / BENCH.bench_voltage) ** 2;
const HOVER = hoverInducedSpeed(STATIC, RHO, DISC);

/** The same without the vortex ring, with a pack of 14 V. */
function plain(inputs: FlightInputs): void {
  thrustAndArms(inputs, VOLTS);
  inputs.rotors.vortex_ring_depth = 0;
}

type Four = readonly [number, number, number, number];
const FULL: Four = [1, 1, 1, 1];

function powered(speed: number, thrust: Four, change: (inputs: FlightInputs) => void): Course {
  const draw = quietDraw((inputs) => {
    plain(inputs);
    change(inputs);
  });
  return courseFrom(draw, { height: 300, velocity: [0, 0, speed], thrust, density: RHO });
}

function ratesAt(course: Course): Float64Array {
  const dy = new Float64Array(STATES);
  course.s.scratch[Slot.Time] = course.s.time;
  poweredRates(course.craft, course.s, course.s.y, dy);
  return dy;
}

/** Force upwards on the upright can, N. */
const lift = (course: Course) => ((ratesAt(course)[State.UpSpeed] as number) + GRAVITY) * course.craft.mass;

describe('arms in the wash of their rotors', () => {
  const washed = (share: number) => (inputs: FlightInputs) => {
    inputs.can.wash_share = share;
  };

  // (s S/4A) [X^2 + (X + n)|X + n|], s = 0.5, S = 13 cm2, A that of 3 in; n by momentum theory and its quartic.
  test.each([
    [0, 0.03563],
    [-0.5, 0.03734],
    [-1, 0.05936],
    [-1.5, 0.09228],
    [-2, 0.1069],
    [-3, 0.07646],
  ])('take from the static thrust, at X = %d, the share %d', (ratio, lost) => {
    const speed = ratio * HOVER;
    const less = lift(powered(speed, FULL, washed(0))) - lift(powered(speed, FULL, washed(0.5)));
    expectWithin(less / (4 * STATIC), lost, 6e-6);
  });

  test('take nothing while a rotor stands still', () => {
    const still = lift(powered(-20, [0, 0, 0, 0], washed(0.5)));
    expectRelative(still, lift(powered(-20, [0, 0, 0, 0], washed(0))), 1e-12);
  });

  test('leave the hover thrust that was measured in the can, whatever their share, and the commands', () => {
    const commands: number[][] = [];
    for (const share of [0, 0.2, 0.5, 1]) {
      const course = powered(0, FULL, (inputs) => {
        washed(share)(inputs);
        inputs.rotors.thrust_measured = 'in the can';
      });
      expectRelative(lift(course), 4 * STATIC, 1e-9);
      commands.push([...course.s.scratch.subarray(Slot.Command1, Slot.Command4 + 1)]);
    }
    for (const one of commands) expect(one).toEqual(commands[0]);
  });
});

describe('rotors that windmill', () => {
  /** Speed upright after half a minute of fall with the arms open, in air of one density, m/s. */
  function terminal(factor: number): number {
    const draw = quietDraw((inputs) => {
      plain(inputs);
      inputs.can.end_drag_coefficient = 0.86;
      inputs.can.blade_drag_area = 10e-4;
      inputs.can.windmilling_factor = factor;
    });
    const course = courseFrom(draw, { height: 3000, velocity: [0, 0, -30], density: RHO });
    flyOn(course, 30);
    return -(course.s.y[State.UpSpeed] as number);
  }

  test('multiply the area of their stopped blades: the terminal speed goes with 1/sqrt(CdA + 4 (S_arm + w S_blade))', () => {
    const end = 0.86 * Math.PI * 0.04 ** 2;
    for (const factor of [0.5, 1, 1.6]) {
      const area = end + 4 * (13e-4 + factor * 10e-4);
      expectRelative(terminal(factor), Math.sqrt((2 * 0.61 * GRAVITY) / (RHO * area)), 1e-6);
    }
  });

  test('are driven blades no more: powered, the factor moves nothing', () => {
    const loaded = (factor: number) =>
      lift(
        powered(-20, FULL, (inputs) => {
          inputs.can.blade_drag_area = 10e-4;
          inputs.can.windmilling_factor = factor;
        }),
      );
    expect(loaded(0.5)).toBe(loaded(1.6));
  });
});

describe('the power in fast descent', () => {
  test('is what the pack gives: at X = -2.5 the current is f times the static one', () => {
    const power = (speed: number, factor: number) => {
      const course = powered(speed, FULL, (inputs) => {
        inputs.rotors.windmill_power = factor;
      });
      return ((ratesAt(course)[State.Charge] as number) - 4.5 / VOLTS) * VOLTS;
    };
    const still = power(0, 1);
    for (const factor of [0.4, 0.6, 1.4]) expectRelative(power(-2.5 * HOVER, factor) / still, factor, 1e-9);
  });
});

const ARM = BENCH.distance_from_axis / Math.SQRT2;
const ACROSS = 3.2e-3;

describe('a centre of mass off the axis, and unequal rotors', () => {
  test('turn the can by d x F, and by the thrusts that the rotors give', () => {
    const off = ratesAt(
      powered(0, FULL, (inputs) => {
        inputs.can.centre_of_mass_offset = [0.002, -0.003];
      }),
    );
    expectRelative(off[State.TurnX] as number, (0.003 * 4 * STATIC) / ACROSS, 1e-9);
    expectRelative(off[State.TurnY] as number, (0.002 * 4 * STATIC) / ACROSS, 1e-9);
    const uneven = ratesAt(
      powered(0, FULL, (inputs) => {
        inputs.rotors.own_thrust_factor = [1.05, 1, 0.98, 1];
      }),
    );
    // Signs of places: x + - - +, y + + - -; of twists + - + -.
    expectRelative(uneven[State.TurnX] as number, (ARM * STATIC * (1.05 + 1 - 0.98 - 1)) / ACROSS, 1e-9);
    expectRelative(uneven[State.TurnY] as number, (-ARM * STATIC * (1.05 - 1 - 0.98 + 1)) / ACROSS, 1e-9);
    expectRelative(uneven[State.TurnZ] as number, (0.006 * STATIC * (1.05 - 1 + 0.98 - 1)) / 1.39e-3, 1e-9);
  });

  /** Descends at 4 m/s for ten seconds in still air; nobody flies it back. */
  function descended(change: (inputs: FlightInputs) => void): Course {
    const weight = (0.61 * GRAVITY) / (4 * STATIC);
    const course = powered(-4, [weight, weight, weight, weight], (inputs) => {
      inputs.can.arm_drag_area = 0;
      inputs.pilot.tilt_limit = 0;
      inputs.stabiliser.reference_time = 1e9; // or else the estimate leans with the force, half as fast as the horizon mends it
      inputs.can.centre_of_mass_offset = [0, 0.002];
      change(inputs);
    });
    flyOn(course, 10);
    return course;
  }
  const leanOf = ({ s }: Course) => 2 * Math.asin(Math.hypot(s.y[State.AttitudeX], s.y[State.AttitudeY]));

  test.each([4, 5])(
    'lean it without an integral term until 2 k tan(theta/2) G It = F d, at an attitude gain of %d',
    (gain) => {
      const course = descended((inputs) => {
        inputs.stabiliser.attitude_gain = gain;
      });
      const theta = leanOf(course);
      const thrust = (0.61 * GRAVITY) / Math.cos(theta);
      expectRelative(2 * gain * Math.tan(theta / 2) * 10 * ACROSS, thrust * 0.002, 1e-3);
    },
  );

  test('no longer lean it with the integral term, within seconds', () => {
    const course = descended((inputs) => {
      inputs.stabiliser.integral_gain = 2;
    });
    expect(leanOf(course)).toBeLessThan(1e-5);
    const { s } = course;
    // What it has added up holds the moment: It G Ki z = F d.
    expectRelative(ACROSS * 10 * 2 * (s.y[State.IntegralX] as number), 0.61 * GRAVITY * 0.002, 1e-3);
  });

  test.each([
    [0.002, 0],
    [-0.003, 0.002],
  ])('leave of the full thrust 1/(1 + (|x| + |y|)/a), for a can held level: %d and %d m', (x, y) => {
    const course = powered(-40, FULL, (inputs) => {
      inputs.can.arm_drag_area = 0;
      inputs.can.mass = 1.2; // so that it is not arrested within the seconds of the test
      inputs.can.centre_of_mass_offset = [x, y];
      inputs.stabiliser.integral_gain = 2;
      inputs.rotors.motor_lag = 0.02;
    });
    flyOn(course, 4);
    expect(course.s.phase).toBe('braking');
    expectRelative(lift(course) / (4 * STATIC), 1 / (1 + (Math.abs(x) + Math.abs(y)) / ARM), 1e-3);
  });
});

describe('the integral term', () => {
  /** Rates of z at turning rates and a z about x, with a limit of 0.3. */
  function winding(turning: number, z: number): number {
    const course = powered(0, FULL, (inputs) => {
      inputs.stabiliser.integral_gain = 2;
    });
    course.s.y[State.TurnX] = turning;
    course.s.y[State.IntegralX] = z;
    return ratesAt(course)[State.IntegralX] as number;
  }
  /** z at which its part of the command reaches 0.5 x 0.3: It G Ki z/(4 a T) = 0.15. */
  const limit = (0.15 * 4 * ARM * STATIC) / (ACROSS * 10 * 2);

  test('adds up the error of the turning rate', () => {
    expectRelative(winding(-0.5, 0), 0.5, 1e-12);
    expectRelative(winding(0.5, 0.1), -0.5, 1e-12);
  });

  test('is held at its limit, and comes back from it', () => {
    expect(winding(-0.5, 1.001 * limit)).toBe(0);
    expectRelative(winding(-0.5, 0.79 * limit), 0.5, 1e-12);
    expectRelative(winding(-0.5, 0.9 * limit), 0.25, 1e-9);
    expectRelative(winding(0.5, 1.001 * limit), -0.5, 1e-12);
  });

  test('is held while the mixer cuts roll and pitch, but for its way back', () => {
    const cut = (0.5 * 4 * ARM * STATIC) / (ACROSS * 10);
    expect(winding(-1.001 * cut, 0)).toBe(0);
    expectRelative(winding(-0.9 * cut, 0), 0.5 * 0.9 * cut, 1e-9);
    expectRelative(winding(-0.79 * cut, 0), 0.79 * cut, 1e-12);
    expectRelative(winding(-1.5 * cut, -0.1), 1.5 * cut, 1e-12);
  });

  test('takes no more of the command than its limit', () => {
    const course = powered(0, FULL, (inputs) => {
      inputs.stabiliser.integral_gain = 2;
    });
    course.s.y[State.IntegralX] = 5 * limit;
    ratesAt(course);
    expectWithin(course.s.scratch[Slot.Roll] as number, 0.15, 1e-12);
  });
});

describe('thrust in the vortex ring', () => {
  const [DEPTH, FLUCTUATION, NODES] = [0.25, 0.2, 4000];

  /** Lift over the static thrust in each interval of the clock, held at a descent ratio. */
  function shares(ratio: number): readonly number[] {
    const { inputs } = quietDraw((changed) => {
      plain(changed);
      changed.can.arm_drag_area = 0;
      changed.rotors.vortex_ring_depth = DEPTH;
      changed.rotors.ring_fluctuation = FLUCTUATION;
      changed.rotors.ring_strouhal = 0.1;
    });
    const { noise, start } = createNoise('ring in flight');
    start('explore', 0, new Set());
    const begin = { height: 300, velocity: [0, 0, -ratio * HOVER], thrust: FULL, density: RHO } as const;
    const course = courseFrom({ inputs, noise }, begin);
    course.s.scratch.fill(0, Slot.WindEast, Slot.WindChangeUp + 1); // no gusts
    return Array.from({ length: NODES }, (_, node) => {
      course.s.node = node;
      return lift(course) / (4 * STATIC);
    });
  }
  const moments = (values: readonly number[]) => {
    const mean = values.reduce((sum, one) => sum + one, 0) / values.length;
    return { mean, deviation: Math.sqrt(values.reduce((sum, one) => sum + (one - mean) ** 2, 0) / values.length) };
  };

  test('keeps its mean and fluctuates by r times the spread of its intervals, half of it for four rotors together', () => {
    const { mean, deviation } = moments(shares(1.25));
    // St 0.1: f = 0.1 v_h/D of the bench voltage; q = 2 pi f 0.1 s.
    const q = (0.2 * Math.PI * 0.1 * HOVER * (BENCH.bench_voltage / VOLTS)) / BENCH.diameter;
    const expected = ((1 - DEPTH) * FLUCTUATION * Math.sqrt(2 * (q - 1 + Math.exp(-q)))) / q / 2;
    expectRelative(deviation, expected, 4 / Math.sqrt(2 * NODES) + 0.02);
    expectWithin(mean, 1 - DEPTH, (4 * expected) / Math.sqrt(NODES) + 1e-3);
  });

  test('fluctuates with the shape of its mean loss, and not at all outside the ring', () => {
    const half = moments(shares(0.875)).deviation / (1 - DEPTH / 2); // the loss is half of the deepest there
    expectRelative(half / (moments(shares(1.25)).deviation / (1 - DEPTH)), 0.5, 1e-6);
    for (const ratio of [0.4, 2.2]) expect(moments(shares(ratio)).deviation).toBeLessThan(1e-12);
  });
});

describe('the start of the motors', () => {
  /** Terminal speed of the can below: sqrt(2 x 0.61 g/(1.0105 (0.0050265 + 4 x 0.0023))) m/s. */
  const STEADY = 28.848;

  /** Height at which a can in steady fall stops, ordered at 300 m, m. */
  function stopHeight(delays: Four): number {
    const { inputs } = quietDraw((changed) => {
      plain(changed);
      changed.can.end_drag_coefficient = 1;
      changed.can.blade_drag_area = 10e-4;
    });
    const course = courseFrom({ inputs, noise: QUIET }, { height: 300, velocity: [0, 0, -STEADY], density: RHO });
    course.craft.startTimes.set(delays);
    giveOrder(course);
    flyOn(course, 15);
    return course.journal.arrestHeight;
  }

  test('adds v t to the stop: what the can falls in that time at its steady speed', () => {
    const at = (time: number) => stopHeight([time, time, time, time]);
    const once = at(0);
    for (const time of [0.1, 0.3, 0.5]) expectWithin(once - at(time), STEADY * time, 1e-3);
  });

  test('leaves the blades of a rotor in the stream until it gives thrust, without power', () => {
    const course = powered(-30, [0, 0, 0, 0], (inputs) => {
      inputs.can.blade_drag_area = 10e-4;
    });
    const all = lift(course);
    course.s.driven[0] = 0;
    course.s.areas[0] = course.craft.stoppedAreas[0] as number;
    expectRelative(lift(course) - all, 0.5 * RHO * 10e-4 * 900, 1e-9);
    expect(ratesAt(course)[State.Thrust1]).toBe(0);
    expectWithin(ratesAt(course)[State.Charge] as number, 4.5 / VOLTS, 1e-9);
  });

  test('kicks the can by T a/It a second where a rotor is late', () => {
    const course = courseFrom(
      quietDraw((inputs) => {
        plain(inputs);
        inputs.can.arm_drag_area = 0;
        inputs.rotors.motor_lag = 1e-3;
        inputs.rotors.torque_arm = 0; // or else it yaws as well, and turns the kick
        inputs.stabiliser.rate_gain = 1e-9;
      }),
      { height: 300, velocity: [0, 0, -20], density: RHO }, // so fast that full throttle stands
    );
    course.craft.startTimes.set([0, 0, 0.1, 0]); // rotor 3 stands at (-a, -a)
    giveOrder(course);
    flyOn(course, 0.1);
    const kick = (0.099 * ARM * STATIC) / ACROSS; // the lag takes its own time off
    expectRelative(course.s.y[State.TurnX] as number, kick, 1e-4);
    expectRelative(course.s.y[State.TurnY] as number, -kick, 1e-4);
    expect(course.s.y[State.IntegralX]).toBe(0);
  });
});
