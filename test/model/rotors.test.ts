import { describe, expect, test } from 'vitest';
import {
  axialThrustShare,
  discArea,
  fullThrust,
  hoverInducedSpeed,
  idealHoverPower,
  inducedSpeedRatio,
  inflowPowerFactor,
  ROTOR_X,
  ROTOR_Y,
  TWIST,
  voltageRoot,
  vortexRingShape,
} from '../../sim/model/rotors.js';
import { expectRelative, expectWithin } from './near.js';

const INCH = 0.0254;

describe('published rows of the UIUC Propeller Database, vol. 2', () => {
  // 3.0 x 2.0 in at 18 937 rpm; CT = T/(rho n^2 D^4), CP = P/(rho n^3 D^5).
  const [CT, CP, HALFWAY_J, HALFWAY_CT, ZERO_J] = [0.13792, 0.06874, 0.388, 0.07119, 0.66];
  const n = 18_937 / 60;
  const D = 3 * INCH;
  const hover = hoverInducedSpeed(CT * 1.225 * n ** 2 * D ** 4, 1.225, discArea(D));
  /** CT by the model at an advance ratio. */
  const climbing = (J: number) => CT * axialThrustShare(1, (J * n * D) / hover, J / ZERO_J, 0.4, 0);

  test('are met at both ends of the climb line: static thrust and no thrust', () => {
    expectRelative(climbing(0), CT, 1e-12);
    expectWithin(climbing(ZERO_J), 0, 1e-12);
  });

  test('are met halfway, where a straight line would be 20 % low', () => {
    expectRelative(climbing(HALFWAY_J), HALFWAY_CT, 1e-4);
    expectWithin(1 - (CT * (1 - HALFWAY_J / ZERO_J)) / HALFWAY_CT, 0.202, 5e-4);
  });

  test('give the torque arm CP D/(2 pi CT): 6.0 mm for the 3 x 2', () => {
    expectWithin((CP * D) / (2 * Math.PI * CT), 0.006, 5e-5);
  });

  test.each([
    { name: '3.0 x 2.0 in', ct: 0.13792, cp: 0.06874 },
    { name: '2.5 x 1.0 in', ct: 0.07355, cp: 0.03193 },
  ])('have a figure of merit of 0.40 to 0.60 by the ideal hover power: $name', ({ ct, cp }) => {
    // With rho = n = D = 1: T = CT, P = CP, disc pi/4. The range: UIUC rows of 2 to 3 in propellers.
    const merit = idealHoverPower(ct, 1, Math.PI / 4) / cp;
    expect(merit).toBeGreaterThan(0.4);
    expect(merit).toBeLessThan(0.6);
  });
});

describe('momentum theory (Leishman, Principles of Helicopter Aerodynamics, ch. 2)', () => {
  test.each([
    [1, 0.618034],
    [-1, 1.816],
    [-3, 0.381966],
    [0, 1],
  ])('induced speed over hover speed at climb ratio %d: %d', (x, ratio) => {
    expectWithin(inducedSpeedRatio(x), ratio, 5e-7);
  });

  test.each([0.3, 2, 7, -2.5, -6])('solves v (v + x) = 1 in climb, -1 in the windmill brake: x = %d', (x) => {
    const v = inducedSpeedRatio(x);
    expectWithin(v * (v + x), x > 0 ? 1 : -1, 1e-12);
  });

  test('joins without a jump at hover and at the windmill brake, and is the quartic down to -1.8', () => {
    expectWithin(inducedSpeedRatio(-1e-12), 1, 1e-9);
    expectWithin(inducedSpeedRatio(-2 + 1e-9), 1, 1e-7);
    expectWithin(inducedSpeedRatio(-1.8 + 1e-9), inducedSpeedRatio(-1.8 - 1e-9), 1e-7);
    for (const x of [-0.5, -1.5, -1.79])
      expectWithin(inducedSpeedRatio(x), 1 - 1.125 * x - 1.372 * x ** 2 - 1.718 * x ** 3 - 0.655 * x ** 4, 1e-12);
  });

  test('0.5 kg on four 3 in rotors at 1.225 kg/m3: v_h 10.4745 m/s, ideal power 51.36 W (computed)', () => {
    const thrust = (0.5 * 9.80665) / 4;
    const area = discArea(3 * INCH);
    expectRelative(hoverInducedSpeed(thrust, 1.225, area), 10.4745, 5e-6);
    expectRelative(4 * idealHoverPower(thrust, 1.225, area), 51.36, 1e-4);
  });
});

describe('power with the flow through the disc', () => {
  const power = (x: number) => inflowPowerFactor(x, inducedSpeedRatio(x), 0.4);

  test('is the static one in hover, grows in climb, falls to the profile part in fast descent', () => {
    expectWithin(power(0), 1, 1e-12);
    expectRelative(power(1), 0.4 + 0.6 * 1.618034, 1e-6);
    expect(power(-3)).toBe(0.4);
  });

  // g = 0.4 + 0.6 max(0, x + n), n the quartic; (f - 0.4) (3u^2 - 2u^3), u = -x - 1; worked out apart.
  test.each([
    [0, [1, 1, 1, 1]],
    [-1, [0.8896, 0.8896, 0.8896, 0.8896]],
    [-1.25, [0.8613, 0.8925, 0.9551, 1.0176]],
    [-1.5, [0.7497, 0.8497, 1.0497, 1.2497]],
    [-1.75, [0.4487, 0.6175, 0.955, 1.2925]],
    [-2, [0.4, 0.6, 1, 1.4]],
    [-3, [0.4, 0.6, 1, 1.4]],
  ])('rises with the stall of the blades in fast descent, at x = %d for f = 0.4, 0.6, 1, 1.4', (x, factors) => {
    [0.4, 0.6, 1, 1.4].forEach((stalled, i) => {
      expectWithin(inflowPowerFactor(x, inducedSpeedRatio(x), stalled), factors[i] as number, 6e-5);
    });
  });

  test('has no jump where the stall begins and where it is whole', () => {
    for (const x of [-1, -2]) {
      const [above, below] = [x + 1e-9, x - 1e-9].map((one) => inflowPowerFactor(one, inducedSpeedRatio(one), 1.4));
      expectWithin(above as number, below as number, 1e-7);
    }
  });

  test('is never negative and never under the profile part', () => {
    for (let x = -10; x <= 10; x += 0.01) expect(power(x)).toBeGreaterThanOrEqual(0.4);
  });
});

describe('thrust with axial inflow', () => {
  const full = 3;
  const vh = 12;
  const v0 = 38;
  const thrust = (c: number, vc: number, depth = 0.3) =>
    full * axialThrustShare(Math.sqrt(c), vc / (vh * Math.sqrt(c)), vc / v0, depth, 0);

  test.each([1, 0.6, 0.2])('is c T without inflow, from both sides: c = %d', (c) => {
    expectRelative(thrust(c, 0), c * full, 1e-12);
    expectRelative(thrust(c, -1e-9), c * full, 1e-8);
  });

  test('fluctuates in the ring about its mean loss, and is never negative', () => {
    const at = (x: number, fluctuation: number) => axialThrustShare(1, -x, -0.1, 0.3, fluctuation);
    expectWithin(at(1.25, 0.2), 0.7 * 1.2, 1e-12);
    expectWithin(at(0.875, 0.2), 0.85 * 1.1, 1e-12);
    expect(at(2.1, 0.2)).toBe(1);
    expect(at(1.25, -1.5)).toBe(0);
  });

  test('falls in climb as the curve of its own rotor speed, which goes with sqrt(c): zero at sqrt(c) V0, then negative', () => {
    // At fraction c the advance ratio is that of full throttle over sqrt(c), the static thrust c T.
    for (const c of [1, 0.5, 0.25]) {
      for (const share of [0.2, 0.7])
        expectRelative(thrust(c, share * Math.sqrt(c) * v0), c * thrust(1, share * v0), 1e-12);
      expectWithin(thrust(c, Math.sqrt(c) * v0), 0, 1e-12);
      expect(thrust(c, 1.2 * Math.sqrt(c) * v0)).toBeLessThan(0);
    }
  });

  test('loses the depth at 1.25 times the induced speed at its own thrust, and nothing outside 0.5 to 2 (Veismann et al. 2023)', () => {
    for (const c of [1, 0.4]) {
      const own = vh * Math.sqrt(c);
      expectRelative(thrust(c, -1.25 * own), 0.7 * c * full, 1e-12);
      expectRelative(thrust(c, -0.5 * own), c * full, 1e-12);
      expectRelative(thrust(c, -2 * own), c * full, 1e-12);
      expectRelative(thrust(c, -30), c * full, 1e-12);
    }
  });
});

describe('the vortex ring bump', () => {
  test('is zero outside 0.5 to 2, one at 1.25, halfway at its middles, never outside 0 to 1', () => {
    expect([0, 0.5, 2, 5].map(vortexRingShape)).toEqual([0, 0, 0, 0]);
    expectWithin(vortexRingShape(1.25), 1, 1e-12);
    expectWithin(vortexRingShape(0.875), 0.5, 1e-12);
    expectWithin(vortexRingShape(1.625), 0.5, 1e-12);
    for (let y = 0; y < 3; y += 0.001) {
      const b = vortexRingShape(y);
      expect(b >= 0 && b <= 1).toBe(true);
    }
  });

  test('is deepest between 1.2 and 1.3 (Veismann, Dougherty and Gharib, Flow 3, 2023, abstract)', () => {
    let deepest = 0;
    for (let y = 0; y < 3; y += 0.001) if (vortexRingShape(y) > vortexRingShape(deepest)) deepest = y;
    expect(deepest).toBeGreaterThan(1.2);
    expect(deepest).toBeLessThan(1.3);
  });
});

test('thrust goes with the square of the voltage, or another power, and induced speed with the root of thrust', () => {
  expectRelative(voltageRoot(0.9, 2) ** 2, 0.81, 1e-12);
  expectRelative(voltageRoot(0.9, 1.7) ** 2, 0.9 ** 1.7, 1e-12);
});

test('neighbouring rotors turn against each other and stand at the corners of a square', () => {
  for (let i = 0; i < 4; i += 1) {
    const next = (i + 1) % 4;
    expect((TWIST[i] as number) * (TWIST[next] as number)).toBe(-1);
    const apart =
      Math.abs((ROTOR_X[i] as number) - (ROTOR_X[next] as number)) +
      Math.abs((ROTOR_Y[i] as number) - (ROTOR_Y[next] as number));
    expect(apart).toBe(2);
  }
});

test('the thrust law is T_bench (rho/rho_b) (V/V_b)^k: 2.844 N at 15.2 V and 1.15 kg/m3 are 1.387 N at 12 V and 0.9', () => {
  const law = (volts: number, exponent: number) => fullThrust(2.844 / 1.15, 0.9, voltageRoot(volts / 15.2, exponent));
  expectWithin(law(12, 2), 1.3872, 1e-4);
  expectRelative(law(12, 1.6), 2.844 * (0.9 / 1.15) * (12 / 15.2) ** 1.6, 1e-12);
  expectRelative(law(15.2, 1.6), 2.844 * (0.9 / 1.15), 1e-12);
});
