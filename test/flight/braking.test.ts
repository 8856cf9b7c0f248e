/** What the braking costs beside the mean loss in the vortex ring, each effect against its closed form. */
import { describe, expect, test } from 'vitest';
import { flyOn } from '../../sim/flight/course.js';
import type { Course } from '../../sim/flight/in-flight.js';
import { poweredRates } from '../../sim/flight/motion.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { discArea, hoverInducedSpeed } from '../../sim/model/rotors.js';
import { Slot } from '../../sim/model/scratch.js';
import { STATES, State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom } from './bench.js';
import { nominalInputs, quietDraw, withoutBrakingEffects } from './nominal-inputs.js';

const RHO = 1.0105;
const VOLTS = 14;
const BENCH = nominalInputs().rotors;
const DISC = discArea(BENCH.diameter);
/** Static thrust of one rotor at full throttle, N. */
const STATIC = BENCH.bench_thrust * (RHO / BENCH.bench_density) * (VOLTS / BENCH.bench_voltage) ** 2;
const HOVER = hoverInducedSpeed(STATIC, RHO, DISC);

/** No wind, no drag but that of the arms, no vortex ring; a pack of 14 V at every charge and load. */
function plain(inputs: FlightInputs): void {
  withoutBrakingEffects(inputs);
  inputs.wind.speed = 0;
  inputs.can.side_drag_coefficient = 0;
  inputs.can.end_drag_coefficient = 0;
  inputs.can.slender_body_factor = 0;
  inputs.can.blade_drag_area = 0;
  inputs.rotors.vortex_ring_depth = 0;
  inputs.arms.release_delay = -100;
  inputs.battery.cells = 1;
  inputs.battery.open_circuit = [
    [0, VOLTS],
    [1, VOLTS],
  ];
  inputs.battery.resistance = 1e-12;
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
