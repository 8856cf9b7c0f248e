/**
 * Air forces and inertia of the can and its arms, in body axes (z along the rotor thrust axis, out of the top),
 * about the centre of mass.
 *
 * Cross-flow principle: with u the velocity through the air split along (u_a) and across (u_n) the axis,
 *   F_a = -1/2 rho Cd_end A_end |u_a| u_a,   dF_n = -1/2 rho Cd_side D |u_n(s)| u_n(s) ds,
 * the latter in strips along the can, each with its own local velocity: that gives the damping of the turning
 * (c = rho Cd D u_n L^3/12 in a stream, rho Cd D L^4 w^2/64 without).
 * Slender-body term (Allen and Perkins, NACA TR 1048, 1951; Jorgensen, NASA TR R-474, 1977; form from memory): the
 * normal force q A sin 2a cos(a/2) = rho A |u_a| u_n cos(a/2) at the leading end, against u_n, times a factor k.
 * It turns a bare can broadside.
 * Arms, motors and stopped blades: isotropic drag areas at the rotor centres, each with its local velocity.
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
 * Force and moment of the air on the can and its arms, into LOAD of the scratch array, from DENSITY, AIRSPEED, TURN and
 * OPENNESS there: strips along the can, end drag, slender-body term, driven tumble, and the drag of the arms.
 *
 * @param areas drag area of each open arm, m2; they count as far as the arms are open
 */
export function airLoad(w: Float64Array, body: Airframe, areas: Float64Array): void {
  const rho = w[Slot.Density];
  const ux = w[Slot.Airspeed];
  const uy = w[Slot.Airspeed + 1];
  const uz = w[Slot.Airspeed + 2];
  const wx = w[Slot.Turn];
  const wy = w[Slot.Turn + 1];
  const open = w[Slot.Openness];
  const half = body.length / 2;
  const middle = body.middle;

  // Strips, written out: the loop took twice as long.
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

  const across2 = ux * ux + uy * uy;
  const along = uz < 0 ? -uz : uz;
  const speed = Math.sqrt(across2 + uz * uz);
  if (speed > 0) {
    // cos(a/2) with cos a = |u_a| / u; the leading end is the one that meets the air.
    const scale = -rho * body.slenderArea * along * Math.sqrt(0.5 + (0.5 * along) / speed);
    const end = middle + (uz > 0 ? half : -half);
    fx += scale * ux;
    fy += scale * uy;
    mx -= end * scale * uy;
    my += end * scale * ux;
  }
  let fz = -0.5 * rho * body.endDrag * along * uz;
  let mz = 0;

  if (open < 1 && body.tumbleFloor > 0) {
    // The stream drives the existing tumble to the floor rate: as strong as the damping would be at that rate.
    const turning = Math.sqrt(wx * wx + wy * wy) + TUMBLE_SMOOTHING;
    const damping = (rho * body.sideDrag * Math.sqrt(across2) * body.length * body.length * body.length) / 12;
    const drive = ((1 - open) * damping * body.tumbleFloor) / turning;
    mx += drive * wx;
    my += drive * wy;
  }

  if (open > 0) {
    // Isotropic drag areas at the rotor centres (x, x, h), (-x, x, h), (-x, -x, h), (x, -x, h), each in its own stream
    // v = u + w x p: F = -1/2 rho CdA |v| v, M = p x F.
    const x = body.armX;
    const h = body.armHeight;
    const tx = wx * x;
    const ty = wy * x;
    const tz = w[Slot.Turn + 2] * x;
    const left = ux + wy * h - tz;
    const right = ux + wy * h + tz;
    const front = uy - wx * h + tz;
    const back = uy - wx * h - tz;
    const z1 = uz + tx - ty;
    const z2 = uz + tx + ty;
    const z3 = uz - tx + ty;
    const z4 = uz - tx - ty;
    w[Slot.Axial] = z1;
    w[Slot.Axial + 1] = z2;
    w[Slot.Axial + 2] = z3;
    w[Slot.Axial + 3] = z4;
    const scale = -0.5 * rho * open;
    const k1 = scale * areas[0] * Math.sqrt(left * left + front * front + z1 * z1);
    const k2 = scale * areas[1] * Math.sqrt(left * left + back * back + z2 * z2);
    const k3 = scale * areas[2] * Math.sqrt(right * right + back * back + z3 * z3);
    const k4 = scale * areas[3] * Math.sqrt(right * right + front * front + z4 * z4);
    const ax = (k1 + k2) * left + (k3 + k4) * right;
    const ay = (k1 + k4) * front + (k2 + k3) * back;
    const f1 = k1 * z1;
    const f2 = k2 * z2;
    const f3 = k3 * z3;
    const f4 = k4 * z4;
    fx += ax;
    fy += ay;
    fz += f1 + f2 + f3 + f4;
    mx += x * (f1 + f2 - f3 - f4) - h * ay;
    my += h * ax - x * (f1 - f2 - f3 + f4);
    mz = x * ((k1 + k4) * front - (k2 + k3) * back - (k1 + k2) * left + (k3 + k4) * right);
  }
  w[Slot.Load] = fx;
  w[Slot.Load + 1] = fy;
  w[Slot.Load + 2] = fz;
  w[Slot.Load + 3] = mx;
  w[Slot.Load + 4] = my;
  w[Slot.Load + 5] = mz;
}

/** Adds the drag of an area (m2) on the axis, h m above the centre of mass, as a canopy; its size in N into PULL. */
export function addAxisDrag(w: Float64Array, area: number, h: number): void {
  const vx = w[Slot.Airspeed] + w[Slot.Turn + 1] * h;
  const vy = w[Slot.Airspeed + 1] - w[Slot.Turn] * h;
  const vz = w[Slot.Airspeed + 2];
  const speed = Math.sqrt(vx * vx + vy * vy + vz * vz);
  const scale = -0.5 * w[Slot.Density] * area * speed;
  w[Slot.Load] = w[Slot.Load] + scale * vx;
  w[Slot.Load + 1] = w[Slot.Load + 1] + scale * vy;
  w[Slot.Load + 2] = w[Slot.Load + 2] + scale * vz;
  w[Slot.Load + 3] = w[Slot.Load + 3] - h * scale * vy;
  w[Slot.Load + 4] = w[Slot.Load + 4] + h * scale * vx;
  w[Slot.Pull] = -scale * speed;
}

/** Terminal speed in m/s of a mass with a drag area: sqrt(2 m g / (rho CdA)). */
export function terminalSpeed(mass: number, gravity: number, rho: number, dragArea: number): number {
  return Math.sqrt((2 * mass * gravity) / (rho * dragArea));
}
