/**
 * The arms: how far open they are, the inertia of the can on the way, the stream that each rotor centre meets, and the drag
 * there. Opening follows a smooth step over the opening time; turning keeps its angular momentum:
 * I dw/dt = M - w x (I w) - (dI/dt) w.
 *
 * The rotor centres P_i lie at (a, a, h), (-a, a, h), (-a, -a, h), (a, -a, h). Each meets its own stream u_i = u + w x P_i;
 * an arm with its motor, and the blades of a rotor that does not run, are an isotropic drag area S_i there:
 *   F_i = -1/2 rho S_i |u_i| u_i,  M_i = P_i x F_i.
 */
import type { Airframe } from './airframe.js';
import { Slot } from './scratch.js';

/** How far open the arms are, 0..1, at share x of the opening time: 3 x^2 - 2 x^3. */
export function openness(x: number): number {
  if (x <= 0) return 0;
  return x >= 1 ? 1 : x * x * (3 - 2 * x);
}

/** Slope of `openness` over x. */
export function opennessSlope(x: number): number {
  return x <= 0 || x >= 1 ? 0 : 6 * x * (1 - x);
}

/** Share of the mass in one arm with its motor, where the open inertia is not given (common practice, no source). */
const ARM_MASS_SHARE = 0.05;

/** Inertia in kg m2 that four open arms add to the folded can: four points at the rotor centres, less the same on the can's wall. */
export function openArmsInertia(
  mass: number,
  diameter: number,
  rotorDistance: number,
  rotorHeight: number,
): { axial: number; transverse: number } {
  const arm = ARM_MASS_SHARE * mass;
  const wall = diameter / 2;
  const axial = 4 * arm * (rotorDistance * rotorDistance - wall * wall);
  return { axial, transverse: axial / 2 + 4 * arm * rotorHeight * rotorHeight };
}

/**
 * u_i = u + w x P_i. By symmetry four numbers hold the parts of all four across the axis: rotors 1 and 2 share theirs along
 * x, as 3 and 4 do; 1 and 4 share theirs along y, as 2 and 3 do.
 *
 * Reads Air and Turn; writes Axial and Across.
 */
export function meetArms(w: Float64Array, body: Airframe): void {
  const ux = w[Slot.AirX];
  const uy = w[Slot.AirY];
  const uz = w[Slot.AirZ];
  const wx = w[Slot.TurnX];
  const wy = w[Slot.TurnY];
  const a = body.armX;
  const h = body.armHeight;
  const ax = wx * a;
  const ay = wy * a;
  const az = w[Slot.TurnZ] * a;
  w[Slot.Axial1] = uz + ax - ay;
  w[Slot.Axial2] = uz + ax + ay;
  w[Slot.Axial3] = uz - ax + ay;
  w[Slot.Axial4] = uz - ax - ay;
  w[Slot.AcrossX12] = ux + wy * h - az;
  w[Slot.AcrossX34] = ux + wy * h + az;
  w[Slot.AcrossY14] = uy - wx * h + az;
  w[Slot.AcrossY23] = uy - wx * h - az;
}

/**
 * F and M of the drag at the rotor centres, o S_i each.
 *
 * Reads Density, Openness, Axial and Across; adds to Force and Moment.
 *
 * @param areas S_i of each open arm, m2; they count as far as the arms are open
 */
export function armsLoad(w: Float64Array, body: Airframe, areas: Float64Array): void {
  const a = body.armX;
  const h = body.armHeight;
  const x12 = w[Slot.AcrossX12];
  const x34 = w[Slot.AcrossX34];
  const y14 = w[Slot.AcrossY14];
  const y23 = w[Slot.AcrossY23];
  const z1 = w[Slot.Axial1];
  const z2 = w[Slot.Axial2];
  const z3 = w[Slot.Axial3];
  const z4 = w[Slot.Axial4];
  // k_i = -1/2 rho o S_i |u_i|, so that F_i = k_i u_i.
  const scale = -0.5 * w[Slot.Density] * w[Slot.Openness];
  const k1 = scale * areas[0] * Math.sqrt(x12 * x12 + y14 * y14 + z1 * z1);
  const k2 = scale * areas[1] * Math.sqrt(x12 * x12 + y23 * y23 + z2 * z2);
  const k3 = scale * areas[2] * Math.sqrt(x34 * x34 + y23 * y23 + z3 * z3);
  const k4 = scale * areas[3] * Math.sqrt(x34 * x34 + y14 * y14 + z4 * z4);
  const fx = (k1 + k2) * x12 + (k3 + k4) * x34;
  const fy = (k1 + k4) * y14 + (k2 + k3) * y23;
  const f1 = k1 * z1;
  const f2 = k2 * z2;
  const f3 = k3 * z3;
  const f4 = k4 * z4;
  w[Slot.ForceX] = w[Slot.ForceX] + fx;
  w[Slot.ForceY] = w[Slot.ForceY] + fy;
  w[Slot.ForceZ] = w[Slot.ForceZ] + (f1 + f2 + f3 + f4);
  w[Slot.MomentX] = w[Slot.MomentX] + (a * (f1 + f2 - f3 - f4) - h * fy);
  w[Slot.MomentY] = w[Slot.MomentY] + (h * fx - a * (f1 - f2 - f3 + f4));
  w[Slot.MomentZ] = w[Slot.MomentZ] + a * ((k1 + k4) * y14 - (k2 + k3) * y23 - (k1 + k2) * x12 + (k3 + k4) * x34);
}
