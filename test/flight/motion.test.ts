/** The forces of the running rotors in the full equations of motion, one evaluation at a time. */
import { describe, expect, test } from 'vitest';
import type { Course } from '../../sim/flight/in-flight.js';
import { poweredRates } from '../../sim/flight/motion.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { discArea, hoverInducedSpeed, inducedSpeedRatio } from '../../sim/model/rotors.js';
import { Slot } from '../../sim/model/scratch.js';
import { STATES, State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom } from './bench.js';
import { nominalInputs, quietDraw, thrustAndArms } from './nominal-inputs.js';

const RHO = 1;
const BENCH = nominalInputs().rotors;

/** No drag besides: the rotors alone. */
function bareThrust(inputs: FlightInputs, volts: number): void {
  thrustAndArms(inputs, volts);
  inputs.can.arm_drag_area = 0;
}

function ratesAt(course: Course): Float64Array {
  const dy = new Float64Array(STATES);
  course.s.scratch[Slot.Time] = course.s.time;
  poweredRates(course.craft, course.s, course.s.y, dy);
  return dy;
}

type Four = readonly [number, number, number, number];

/** Rates of the upright can at a vertical speed and thrust fractions. */
function upright(
  speed: number,
  thrust: Four,
  change: (inputs: FlightInputs) => void,
  turning: readonly [number, number, number] = [0, 0, 0],
) {
  const course = courseFrom(quietDraw(change), { height: 300, velocity: [0, 0, speed], thrust, turning, density: RHO });
  return { dy: ratesAt(course), course };
}

/** Static thrust of one rotor at full throttle, N. */
const staticThrust = (volts: number, exponent = 2) =>
  BENCH.bench_thrust * (RHO / BENCH.bench_density) * (volts / BENCH.bench_voltage) ** exponent;

describe('the thrust', () => {
  test('goes with density, with voltage to its exponent, and with the factor', () => {
    for (const [volts, exponent, factor] of [
      [15.2, 2, 1],
      [12, 2, 1],
      [12, 1.6, 0.9],
    ] as const) {
      const { dy } = upright(0, [0.6, 0.6, 0.6, 0.6], (inputs) => {
        bareThrust(inputs, volts);
        inputs.rotors.voltage_exponent = exponent;
        inputs.rotors.thrust_factor = factor;
      });
      expectRelative(
        (dy[State.UpSpeed] as number) + GRAVITY,
        (4 * 0.6 * factor * staticThrust(volts, exponent)) / 0.61,
        1e-9,
      );
    }
  });

  test('falls in climb by the rotor curve, with a zero-thrust speed that goes with the voltage', () => {
    // UIUC 3 x 2: c - 0.5705 sqrt(c) j - 0.4295 j^2, j = Vc/V0, V0 = 38 m/s V/15.2 V.
    for (const volts of [15.2, 12]) {
      const j = 20 / ((38 * volts) / 15.2);
      const { dy } = upright(20, [0.8, 0.8, 0.8, 0.8], (inputs) => bareThrust(inputs, volts));
      const share = 0.8 - 0.5705 * Math.sqrt(0.8) * j - 0.4295 * j * j;
      expectRelative((dy[State.UpSpeed] as number) + GRAVITY, (4 * share * staticThrust(volts)) / 0.61, 1e-4);
    }
  });

  test('loses the depth of the vortex ring at 1.25 induced speeds of descent, and nothing at three', () => {
    const induced = hoverInducedSpeed(staticThrust(12), RHO, discArea(BENCH.diameter));
    const at = (ratio: number) =>
      upright(-ratio * induced, [1, 1, 1, 1], (inputs) => bareThrust(inputs, 12)).dy[State.UpSpeed] as number;
    const whole = (4 * staticThrust(12)) / 0.61;
    expectRelative(at(1.25) + GRAVITY, whole * (1 - BENCH.vortex_ring_depth), 1e-9);
    expectRelative(at(3) + GRAVITY, whole, 1e-9);
  });

  test('at one rotor turns the can away from it and twists it, and none comes from a dead one', () => {
    // Rotor 1 at (+, +): moment +x from its y, -y from its x, and its twist about +z.
    const T = 0.5 * staticThrust(12);
    const { dy } = upright(0, [0.5, 0, 0, 0], (inputs) => bareThrust(inputs, 12));
    const arm = 0.11 / Math.SQRT2;
    expectRelative(dy[State.TurnX] as number, (arm * T) / 3.2e-3, 1e-9);
    expectRelative(dy[State.TurnY] as number, (-arm * T) / 3.2e-3, 1e-9);
    expectRelative(dy[State.TurnZ] as number, (0.006 * T) / 1.39e-3, 1e-9);
    const second = upright(0, [0, 0.5, 0, 0], (inputs) => bareThrust(inputs, 12)).dy;
    expectRelative(second[State.TurnZ] as number, (-0.006 * T) / 1.39e-3, 1e-9);
    const dead = upright(20, [0, 0.5, 0.5, 0.5], (inputs) => {
      bareThrust(inputs, 12);
      inputs.rotors.dead = [true, false, false, false];
    }).dy;
    expect(dead[State.Thrust1]).toBe(0); // it is told nothing
  });

  test('of each rotor hangs on its own axial speed: a roll is damped', () => {
    const turning = [4, 0, 0] as const;
    // Rotors 1 and 2, at +y, climb as the can rolls about +x; the others descend, too slowly for the vortex ring.
    const { dy, course } = upright(0, [1, 1, 1, 1], (inputs) => bareThrust(inputs, 12), turning);
    const v = (4 * 0.11) / Math.SQRT2;
    [v, v, -v, -v].forEach((axial, i) => {
      expectWithin(course.s.scratch[Slot.Axial1 + i] as number, axial, 1e-7);
    });
    const j = v / ((38 * 12) / 15.2);
    const lost = 0.5705 * j + 0.4295 * j * j;
    expectRelative(dy[State.TurnX] as number, (-2 * (0.11 / Math.SQRT2) * lost * staticThrust(12)) / 3.2e-3, 1e-7);
  });
});

describe('the controller', () => {
  const bare = (inputs: FlightInputs) => bareThrust(inputs, 12);
  const turning = [0.4, -0.3, 0.2] as const;

  test('orders by the thrust that it believes it has: less true thrust moves the can and none of its commands', () => {
    const course = courseFrom(quietDraw(bare), {
      height: 300,
      thrust: [0.5, 0.5, 0.5, 0.5],
      turning,
      density: RHO,
    });
    const before = ratesAt(course);
    const commands = course.s.scratch.slice(Slot.Command1, Slot.Command4 + 1);
    course.craft.thrustConstant *= 0.9;
    const after = ratesAt(course);
    const lift = (dy: Float64Array) => (dy[State.UpSpeed] as number) + GRAVITY;
    expectRelative(lift(after) / lift(before), 0.9, 1e-9);
    expect(course.s.scratch.slice(Slot.Command1, Slot.Command4 + 1)).toEqual(commands);
  });

  test('halves its differences between the rotors where it believes in twice the thrust', () => {
    const spread = (factor: number) => {
      const course = courseFrom(quietDraw(bare), { height: 300, thrust: [0.5, 0.5, 0.5, 0.5], turning, density: RHO });
      course.craft.believedThrustConstant *= factor;
      ratesAt(course);
      return [course.s.scratch[Slot.Roll] as number, course.s.scratch[Slot.Pitch] as number];
    };
    const [once, twice] = [spread(1), spread(2)];
    expectRelative((twice[0] as number) / (once[0] as number), 0.5, 1e-12);
    expectRelative((twice[1] as number) / (once[1] as number), 0.5, 1e-12);
  });
});

describe('the pack', () => {
  test('gives the power P_bench rho/rho_b (V/V_b)^3 c^1.5 (0.4 + 0.6 (X + n)) at its sagging voltage', () => {
    const { dy, course } = upright(5, [0.7, 0.7, 0.7, 0.7], (inputs) => {
      bareThrust(inputs, 15);
      inputs.battery.resistance = 0.06;
    });
    const resistance = course.craft.resistance;
    const current = dy[State.Charge] as number;
    const voltage = 15 - resistance * current;
    // Induced speeds are those at the voltage of the step's start.
    const held = course.s.scratch[Slot.StepVoltage];
    const X = 5 / Math.sqrt((0.7 * staticThrust(held)) / (2 * RHO * discArea(BENCH.diameter)));
    const factor = 0.4 + 0.6 * (X + inducedSpeedRatio(X));
    const power = 4 * 110 * (RHO / 1.15) * (voltage / 15.2) ** 3 * 0.7 ** 1.5 * factor;
    expectRelative((current - 4.5 / 15) * voltage, power, 1e-9);
  });

  test('feeds stand-by besides: nothing else with the motors at rest', () => {
    const { dy } = upright(0, [0, 0, 0, 0], (inputs) => bareThrust(inputs, 15));
    expectWithin(dy[State.Charge] as number, 4.5 / 15, 1e-9);
  });
});
