/**
 * The thrust, power and torque of one rotor, from what a builder measures on a thrust stand.
 *
 * Full throttle, static: T = T_bench (rho/rho_bench) (V/V_bench)^k, P = P_bench (rho/rho_bench) (V/V_bench)^3, k about 2.
 * At the thrust fraction c the rotor's speed goes with sqrt c: its static thrust is T0 = c T, its power is c^1.5 P.
 * Axial inflow, V_c the axial speed of the rotor through the air (climbing positive):
 *   climbing:   T_i = T (c - a sqrt(c) j - b j^2), j = V_c/V0, V0 the zero-thrust speed at full throttle, V0 ~ V;
 *   descending: T_i = T0 (1 - d B(y)) (1 + r xi B(y)), y = -V_c/v_h, v_h = sqrt(T0/(2 rho A)), B the shape of the vortex ring
 *   loss, xi the fluctuation of the thrust in the ring (ring-noise.ts).
 * A rotor at the fraction c has sqrt(c) times the induced speed v_h that it has at full throttle.
 */

/** Inside these descent ratios (descent speed over hover induced speed) the vortex ring takes thrust; deepest between. */
export const RING_BEGIN = 0.5;
const RING_DEEPEST = 1.25;
export const RING_END = 2;

/**
 * Shape of the vortex ring loss over the descent ratio: 0 outside 0.5 to 2, 1 at 1.25 (deepest at 1.2 to 1.3:
 * Veismann, Dougherty and Gharib, Flow 3, 2023, abstract), cubic between. The depth is an input: not settled in print.
 */
export function vortexRingShape(descentRatio: number): number {
  if (descentRatio <= RING_BEGIN || descentRatio >= RING_END) return 0;
  const u =
    descentRatio < RING_DEEPEST
      ? (descentRatio - RING_BEGIN) / (RING_DEEPEST - RING_BEGIN)
      : (RING_END - descentRatio) / (RING_END - RING_DEEPEST);
  return u * u * (3 - 2 * u);
}

/** Hover induced speed v_h in m/s of thrust N on a disc of m2: sqrt(T / (2 rho A)) (momentum theory). */
export function hoverInducedSpeed(thrust: number, rho: number, area: number): number {
  return Math.sqrt(thrust / (2 * rho * area));
}

/** Ideal hover power in W of one rotor: T^1.5 / sqrt(2 rho A). */
export function idealHoverPower(thrust: number, rho: number, area: number): number {
  return thrust * hoverInducedSpeed(thrust, rho, area);
}

/**
 * Induced speed over v_h at climb ratio x = V_c / v_h (Leishman, Principles of Helicopter Aerodynamics, ch. 2):
 * momentum theory for x >= 0 and x <= -2, his quartic between. The quartic ends at 1.026 for x = -2, where momentum theory has
 * 1: from -1.8 on the difference is taken off along 3u^2 - 2u^3 (own choice). There x + n is below zero, so that the power
 * (`inflowPowerFactor`) does not know of it.
 */
export function inducedSpeedRatio(x: number): number {
  if (x >= 0) return -x / 2 + Math.sqrt((x * x) / 4 + 1);
  if (x <= -2) return -x / 2 - Math.sqrt((x * x) / 4 - 1);
  const quartic = 1 + x * (-1.125 + x * (-1.372 + x * (-1.718 + x * -0.655)));
  if (x > JOINING_FROM) return quartic;
  const u = (JOINING_FROM - x) / JOINING_SPAN;
  return quartic - QUARTIC_EXCESS * u * u * (3 - 2 * u);
}

/** Where the quartic begins to be bent to the value that momentum theory has at -2, over which span, and by how much in all. */
const JOINING_FROM = -1.8;
const JOINING_SPAN = 0.2;
const QUARTIC_EXCESS = 0.026;

/** Share of the static power that is profile loss, and share that goes with the flow through the disc (common practice). */
const PROFILE_SHARE = 0.4;
const FLOW_SHARE = 0.6;

/**
 * Factor on the static power from the inflow: 0.4 of profile loss and 0.6 that goes with the flow through the disc, never
 * negative. In fast descent the blades stall and the torque rises again, up to a factor f at x <= -2: (f - 0.4) times
 * 3u^2 - 2u^3, u = -x - 1, is added from x = -1 on; 0.4 is the law without stall. Where a blade is stalled its force stands
 * on the chord, so torque over thrust is pitch/(2 pi) at every radius of a propeller of constant pitch: f is about
 * pitch/(2 pi torque_arm), 1.34 for a 3.0 x 2.0 in propeller, 0.92 for a 2.5 x 1.0 (own estimate; no source gives the torque of
 * a stalled fixed-pitch propeller in fast descent).
 *
 * @param x climb ratio V_c / v_h
 * @param induced n, from `inducedSpeedRatio`
 * @param stalled f
 */
export function inflowPowerFactor(x: number, induced: number, stalled: number): number {
  const through = x + induced;
  const attached = through > 0 ? PROFILE_SHARE + FLOW_SHARE * through : PROFILE_SHARE;
  if (x >= -1) return attached;
  const u = x > -2 ? -x - 1 : 1;
  return attached + (stalled - PROFILE_SHARE) * u * u * (3 - 2 * u);
}

/**
 * Coefficients of the climb curve 1 - a j - b j^2, j the advance ratio over that of zero thrust, through three published
 * rows of a 3.0 x 2.0 in propeller (UIUC Propeller Database, vol. 2): CT 0.13792 static, 0.07119 at J 0.388, 0 at 0.660.
 */
export const CLIMB_LINEAR = 0.5705;
export const CLIMB_SQUARE = 1 - CLIMB_LINEAR;

/**
 * Share of the full static thrust that one running rotor gives.
 *
 * @param rootFraction square root of the thrust fraction c
 * @param x climb ratio V_c / v_h, v_h that at fraction c (any number at c = 0)
 * @param climb V_c / V0, V0 the zero-thrust speed at full throttle
 * @param ringDepth d
 * @param fluctuation r xi: what the thrust is off its mean at the ring's deepest point, as a share; the thrust is never negative
 */
export function axialThrustShare(
  rootFraction: number,
  x: number,
  climb: number,
  ringDepth: number,
  fluctuation: number,
): number {
  const fraction = rootFraction * rootFraction;
  if (climb >= 0) return fraction - climb * (CLIMB_LINEAR * rootFraction + CLIMB_SQUARE * climb);
  const shape = vortexRingShape(-x);
  return fraction * (1 - ringDepth * shape) * Math.max(1 + fluctuation * shape, 0);
}

/**
 * Root of the thrust ratio for a voltage ratio: (V/V_b)^(k/2). It scales the induced speed, its square the thrust; the
 * usual k = 2 needs no power function.
 */
export function voltageRoot(voltageRatio: number, exponent: number): number {
  return exponent === 2 ? voltageRatio : voltageRatio ** (0.5 * exponent);
}

/**
 * The thrust law: static thrust in N of one rotor at full throttle, T = K_T T_bench (rho/rho_b) (V/V_b)^k.
 *
 * @param constant K_T T_bench/rho_b, N m3/kg
 * @param density rho, kg/m3
 * @param root (V/V_b)^(k/2), from `voltageRoot`
 */
export function fullThrust(constant: number, density: number, root: number): number {
  return constant * density * root * root;
}

/**
 * Share of its hover thrust that a rotor loses to the arm in its wash: s S/(4 A), the drag 1/2 rho s S v_h^2 over 2 rho A v_h^2.
 * A thrust that was measured with the arm in place lacks it already.
 */
export function hoverWashLoss(washShare: number, armArea: number, disc: number): number {
  return (washShare * armArea) / (4 * disc);
}

/** Disc area in m2. */
export function discArea(diameter: number): number {
  return (Math.PI * diameter * diameter) / 4;
}

/**
 * Rotor centres on the body axes as multiples of distance / sqrt 2, in order around the can, and the direction in which each
 * twists it; neighbours alternate. The equations of motion write these signs out.
 */
export const ROTOR_X = [1, -1, -1, 1] as const;
export const ROTOR_Y = [1, 1, -1, -1] as const;
export const TWIST = [1, -1, 1, -1] as const;
