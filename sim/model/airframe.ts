/**
 * The air forces and the inertia of the can and its arms, in body axes (z along the rotor thrust axis, out of the top), about
 * the centre of mass.
 *
 * Cross-flow principle: the velocity through the air, u, is split along the axis (u_z) and across it (u_n), and each part has
 * its own drag,
 *   F_z = -1/2 rho Cd_end A |u_z| u_z,   dF_n = -1/2 rho Cd_side D |u_n(s)| u_n(s) ds.
 * The drag across is taken in strips along the can, and each strip has its own local velocity. That gives the damping of the
 * turning (c = rho Cd D u_n L^3/12 in a stream, rho Cd D L^4 w^2/64 without a stream).
 *
 * Slender-body term: a normal force k q A sin 2a cos(a/2) = k rho A |u_z| u_n cos(a/2), against u_n, acts at the leading end and
 * turns a bare can broadside (Allen and Perkins, NACA TR 1048, 1951; Jorgensen, NASA TR R-474, 1977; form from memory).
 *
 * Arms, motors and stopped blades are isotropic drag areas at the rotor centres, each with its own local velocity; a share of an
 * arm's area meets the wash of its own rotor besides (momentum theory and quadratic drag; the share is an own estimate).
 */
import { Slot } from './scratch.js';

/** Four-point Gauss-Legendre nodes and weights on [-1, 1] (Abramowitz and Stegun, table 25.4). */
const GAUSS_NODE_1 = 0.861136311594053;
const GAUSS_NODE_2 = 0.339981043584856;
const GAUSS_WEIGHT_1 = 0.347854845137454;
const GAUSS_WEIGHT_2 = 0.652145154862546;

/** Drag coefficients of a cylinder by length over diameter (Matthews, Aeronautical Engineer's Data Book, 2002, fig. 5.13). */
const SIDE_TABLE = [
  [1, 0.63],
  [2, 0.68],
  [5, 0.74],
  [10, 0.82],
] as const;
const END_TABLE = [
  [1, 0.91],
  [2, 0.85],
  [4, 0.87],
  [7, 0.99],
] as const;

function interpolate(table: readonly (readonly [number, number])[], x: number): number {
  let left = table[0] as readonly [number, number];
  if (x <= left[0]) return left[1];
  for (const right of table) {
    if (x <= right[0] && right !== left) {
      return left[1] + ((right[1] - left[1]) * (x - left[0])) / (right[0] - left[0]);
    }
    left = right;
  }
  return left[1];
}

/** Drag coefficient broadside on, referred to diameter times length. */
export function sideDragCoefficient(lengthToDiameter: number): number {
  return interpolate(SIDE_TABLE, lengthToDiameter);
}

/** Drag coefficient end on, referred to the end area. */
export function endDragCoefficient(lengthToDiameter: number): number {
  return interpolate(END_TABLE, lengthToDiameter);
}

/** Axial and transverse inertia in kg m2 of a solid cylinder: m r^2/2 and m (3 r^2 + L^2)/12. */
export function cylinderInertia(mass: number, diameter: number, length: number): { axial: number; transverse: number } {
  const radius = diameter / 2;
  return { axial: (mass * radius * radius) / 2, transverse: (mass * (3 * radius * radius + length * length)) / 12 };
}

/** What the air forces on the can need to know of it; constants of one flight. */
export interface Airframe {
  diameter: number;
  length: number;
  /** Height of the middle of the can above the centre of mass, m. */
  middle: number;
  /** Drag coefficient times diameter times drag factor, for broadside flow, m. */
  sideDrag: number;
  /** Drag coefficient times end area times drag factor, for flow along the axis, m2. */
  endDrag: number;
  /** Slender-body factor times end area, m2. */
  slenderArea: number;
  /** Rate to which the stream drives the tumble of the folded can, rad/s. */
  tumbleFloor: number;
  /** Rotor centres: distance from the axis along x and y, and height above the centre of mass, m. */
  armX: number;
  armHeight: number;
}

/** Keeps the direction of the driven tumble defined at rest, rad/s. */
const TUMBLE_SMOOTHING = 1e-3;

/**
 * F and M of the air on the can and its arms: strips along the can, end drag, slender-body term, driven tumble, and the drag
 * areas at the rotor centres P_i = (a, a, h), (-a, a, h), (-a, -a, h), (a, -a, h).
 *
 * It is the first effect of all: reads Density, Air, Turn and Openness (o), and Wash where a share of the arms stands in it; writes
 * Force and Moment. Can and arms are one function because a second call cost 5 % of the equations.
 *
 * @param areas S_i, drag area of each arm as far as it is open, m2
 * @param washed share of each area that meets the wash of its rotor besides the stream; 0 with the motors off
 */
export function airLoad(w: Float64Array, body: Airframe, areas: Float64Array, washed: number): void {
  const rho = w[Slot.Density];
  const ux = w[Slot.AirX];
  const uy = w[Slot.AirY];
  const uz = w[Slot.AirZ];
  const wx = w[Slot.TurnX];
  const wy = w[Slot.TurnY];
  const open = w[Slot.Openness];
  const half = body.length / 2;
  const middle = body.middle;

  // dF_n = -1/2 rho Cd_side D |u_n(s)| u_n(s) ds, u_n(s) = (u_x + w_y s, u_y - w_x s). Written out: the loop took twice as long.
  const perStrip = -0.5 * rho * body.sideDrag * half;
  const s1 = middle - half * GAUSS_NODE_1;
  const s2 = middle - half * GAUSS_NODE_2;
  const s3 = middle + half * GAUSS_NODE_2;
  const s4 = middle + half * GAUSS_NODE_1;
  const x1 = ux + wy * s1;
  const y1 = uy - wx * s1;
  const x2 = ux + wy * s2;
  const y2 = uy - wx * s2;
  const x3 = ux + wy * s3;
  const y3 = uy - wx * s3;
  const x4 = ux + wy * s4;
  const y4 = uy - wx * s4;
  const d1 = perStrip * GAUSS_WEIGHT_1 * Math.sqrt(x1 * x1 + y1 * y1);
  const d2 = perStrip * GAUSS_WEIGHT_2 * Math.sqrt(x2 * x2 + y2 * y2);
  const d3 = perStrip * GAUSS_WEIGHT_2 * Math.sqrt(x3 * x3 + y3 * y3);
  const d4 = perStrip * GAUSS_WEIGHT_1 * Math.sqrt(x4 * x4 + y4 * y4);
  let fx = d1 * x1 + d2 * x2 + d3 * x3 + d4 * x4;
  let fy = d1 * y1 + d2 * y2 + d3 * y3 + d4 * y4;
  let mx = -(s1 * d1 * y1 + s2 * d2 * y2 + s3 * d3 * y3 + s4 * d4 * y4);
  let my = s1 * d1 * x1 + s2 * d2 * x2 + s3 * d3 * x3 + s4 * d4 * x4;

  // F_n = -rho k A |u_z| u_n sqrt((1 + |u_z|/|u|)/2) at the leading end, the one that meets the air.
  const across2 = ux * ux + uy * uy;
  const along = uz < 0 ? -uz : uz;
  const speed = Math.sqrt(across2 + uz * uz);
  if (speed > 0) {
    const scale = -rho * body.slenderArea * along * Math.sqrt(0.5 + (0.5 * along) / speed);
    const end = middle + (uz > 0 ? half : -half);
    fx += scale * ux;
    fy += scale * uy;
    mx -= end * scale * uy;
    my += end * scale * ux;
  }

  if (open < 1 && body.tumbleFloor > 0) {
    // M_xy = (1 - o) (rho K Cd_side D |u_n| L^3/12) floor w_xy/(|w_xy| + 0.001): as strong as the damping at the floor rate.
    const turning = Math.sqrt(wx * wx + wy * wy) + TUMBLE_SMOOTHING;
    const damping = (rho * body.sideDrag * Math.sqrt(across2) * body.length * body.length * body.length) / 12;
    const drive = ((1 - open) * damping * body.tumbleFloor) / turning;
    mx += drive * wx;
    my += drive * wy;
  }

  // F_z = -1/2 rho K Cd_end A |u_z| u_z.
  let fz = -0.5 * rho * body.endDrag * along * uz;
  let mz = 0;
  if (open > 0) {
    // F_i = -1/2 rho S_i [(1 - s) |u_i| u_i + s |u_i'| u_i'],  M_i = P_i x F_i,
    // u_i = u + w x P_i,  u_i' = u_i + (0, 0, n_i v_h,i).
    const a = body.armX;
    const h = body.armHeight;
    // Rotors 1 and 2 share their part along x, as 3 and 4 do; 1 and 4 that along y, as 2 and 3 do.
    const ax = wx * a;
    const ay = wy * a;
    const az = w[Slot.TurnZ] * a;
    const x12 = ux + wy * h - az;
    const x34 = ux + wy * h + az;
    const y14 = uy - wx * h + az;
    const y23 = uy - wx * h - az;
    const z1 = uz + ax - ay;
    const z2 = uz + ax + ay;
    const z3 = uz - ax + ay;
    const z4 = uz - ax - ay;
    // k_i = -1/2 rho S_i |u_i|, so that F_i = k_i u_i; the part in the wash has the same x and y.
    const scale = -0.5 * rho;
    const a1 = x12 * x12 + y14 * y14;
    const a2 = x12 * x12 + y23 * y23;
    const a3 = x34 * x34 + y23 * y23;
    const a4 = x34 * x34 + y14 * y14;
    const dry = scale * (1 - washed);
    let k1 = dry * areas[0] * Math.sqrt(a1 + z1 * z1);
    let k2 = dry * areas[1] * Math.sqrt(a2 + z2 * z2);
    let k3 = dry * areas[2] * Math.sqrt(a3 + z3 * z3);
    let k4 = dry * areas[3] * Math.sqrt(a4 + z4 * z4);
    let f1 = k1 * z1;
    let f2 = k2 * z2;
    let f3 = k3 * z3;
    let f4 = k4 * z4;
    if (washed > 0) {
      const wet = scale * washed;
      const v1 = z1 + w[Slot.Wash1];
      const v2 = z2 + w[Slot.Wash2];
      const v3 = z3 + w[Slot.Wash3];
      const v4 = z4 + w[Slot.Wash4];
      const q1 = wet * areas[0] * Math.sqrt(a1 + v1 * v1);
      const q2 = wet * areas[1] * Math.sqrt(a2 + v2 * v2);
      const q3 = wet * areas[2] * Math.sqrt(a3 + v3 * v3);
      const q4 = wet * areas[3] * Math.sqrt(a4 + v4 * v4);
      k1 += q1;
      k2 += q2;
      k3 += q3;
      k4 += q4;
      f1 += q1 * v1;
      f2 += q2 * v2;
      f3 += q3 * v3;
      f4 += q4 * v4;
    }
    const px = (k1 + k2) * x12 + (k3 + k4) * x34;
    const py = (k1 + k4) * y14 + (k2 + k3) * y23;
    fx += px;
    fy += py;
    fz += f1 + f2 + f3 + f4;
    mx += a * (f1 + f2 - f3 - f4) - h * py;
    my += h * px - a * (f1 - f2 - f3 + f4);
    mz = a * ((k1 + k4) * y14 - (k2 + k3) * y23 - (k1 + k2) * x12 + (k3 + k4) * x34);
  }
  w[Slot.ForceX] = fx;
  w[Slot.ForceY] = fy;
  w[Slot.ForceZ] = fz;
  w[Slot.MomentX] = mx;
  w[Slot.MomentY] = my;
  w[Slot.MomentZ] = mz;
}

/** Terminal speed in m/s of a mass with a drag area: sqrt(2 m g / (rho CdA)). */
export function terminalSpeed(mass: number, gravity: number, rho: number, dragArea: number): number {
  return Math.sqrt((2 * mass * gravity) / (rho * dragArea));
}
