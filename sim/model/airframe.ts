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

/** Four-point Gauss-Legendre nodes and weights on [-1, 1] (Abramowitz and Stegun, table 25.4). */
const GAUSS_NODE_1 = 0.861136311594053;
const GAUSS_NODE_2 = 0.339981043584856;
const GAUSS_WEIGHT_1 = 0.347854845137454;
const GAUSS_WEIGHT_2 = 0.652145154862546;
const STRIP_NODES = [-GAUSS_NODE_1, -GAUSS_NODE_2, GAUSS_NODE_2, GAUSS_NODE_1] as const;
const STRIP_WEIGHTS = [GAUSS_WEIGHT_1, GAUSS_WEIGHT_2, GAUSS_WEIGHT_2, GAUSS_WEIGHT_1] as const;

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
}

/** Force and moment being summed: Fx, Fy, Fz in N, Mx, My, Mz in N m, body axes. */
export type Load = Float64Array;

/**
 * The stream that the can meets, in one array so that no number is boxed on the way: density kg/m3; velocity of the
 * centre of mass through the air x, y, z in body axes, m/s; turning rate x, y, z, rad/s; how far open the arms are, 0..1.
 */
export type Stream = Float64Array;
export const DENSITY = 0;
export const AIRSPEED = 1;
export const TURN = 4;
export const OPENNESS = 7;
export const STREAM_SIZE = 8;

/** Keeps the direction of the driven tumble defined at rest, rad/s. */
const TUMBLE_SMOOTHING = 1e-3;

/** Adds the air forces on the can itself: strips, end drag, slender-body term and driven tumble. */
export function addCanLoad(load: Load, body: Airframe, stream: Stream): void {
  const rho = stream[DENSITY] as number;
  const ux = stream[AIRSPEED] as number;
  const uy = stream[AIRSPEED + 1] as number;
  const uz = stream[AIRSPEED + 2] as number;
  const wx = stream[TURN] as number;
  const wy = stream[TURN + 1] as number;
  const half = body.length / 2;
  const middle = body.middle;
  const perStrip = -0.5 * rho * body.sideDrag * half;
  let fx = 0;
  let fy = 0;
  let mx = 0;
  let my = 0;
  for (let k = 0; k < 4; k += 1) {
    const s = middle + half * (STRIP_NODES[k] as number);
    const vx = ux + wy * s;
    const vy = uy - wx * s;
    const scale = perStrip * (STRIP_WEIGHTS[k] as number) * Math.sqrt(vx * vx + vy * vy);
    fx += scale * vx;
    fy += scale * vy;
    mx -= s * scale * vy;
    my += s * scale * vx;
  }
  const across2 = ux * ux + uy * uy;
  const along = uz < 0 ? -uz : uz;
  const speed = Math.sqrt(across2 + uz * uz);
  if (speed > 0) {
    // cos(a/2) with cos a = |u_a| / u; the leading end is the one that meets the air.
    const scale = -rho * body.slenderArea * along * Math.sqrt(0.5 + (0.5 * along) / speed);
    const s = middle + (uz > 0 ? half : -half);
    fx += scale * ux;
    fy += scale * uy;
    mx -= s * scale * uy;
    my += s * scale * ux;
  }
  const folded = 1 - (stream[OPENNESS] as number);
  if (folded > 0 && body.tumbleFloor > 0) {
    // The stream drives the existing tumble to the floor rate: as strong as the damping would be at that rate.
    const turning = Math.sqrt(wx * wx + wy * wy) + TUMBLE_SMOOTHING;
    const damping = (rho * body.sideDrag * Math.sqrt(across2) * body.length * body.length * body.length) / 12;
    const drive = (folded * damping * body.tumbleFloor) / turning;
    mx += drive * wx;
    my += drive * wy;
  }
  load[0] = (load[0] as number) + fx;
  load[1] = (load[1] as number) + fy;
  load[2] = (load[2] as number) - 0.5 * rho * body.endDrag * along * uz;
  load[3] = (load[3] as number) + mx;
  load[4] = (load[4] as number) + my;
}

/**
 * Adds isotropic drag areas (m2, one for each arm, times the openness) at the rotor centres (+-x, +-x, h), each with its
 * local velocity v: F = -1/2 rho CdA |v| v, M = p x F. Leaves each point's axial speed in `axial`, m/s.
 * Written out for the four arms: the loop took twice as long.
 */
export function addArmsDrag(
  load: Load,
  areas: Float64Array,
  x: number,
  h: number,
  stream: Stream,
  axial: Float64Array,
): void {
  const scale = -0.5 * (stream[DENSITY] as number) * (stream[OPENNESS] as number);
  const wx = (stream[TURN] as number) * x;
  const wy = (stream[TURN + 1] as number) * x;
  const wz = (stream[TURN + 2] as number) * x;
  const ux = (stream[AIRSPEED] as number) + (stream[TURN + 1] as number) * h;
  const uy = (stream[AIRSPEED + 1] as number) - (stream[TURN] as number) * h;
  const uz = stream[AIRSPEED + 2] as number;
  // v = u + w x p at (x, x, h), (-x, x, h), (-x, -x, h), (x, -x, h).
  const left = ux - wz;
  const right = ux + wz;
  const front = uy + wz;
  const back = uy - wz;
  const z1 = uz + wx - wy;
  const z2 = uz + wx + wy;
  const z3 = uz - wx + wy;
  const z4 = uz - wx - wy;
  axial[0] = z1;
  axial[1] = z2;
  axial[2] = z3;
  axial[3] = z4;
  const k1 = scale * (areas[0] as number) * Math.sqrt(left * left + front * front + z1 * z1);
  const k2 = scale * (areas[1] as number) * Math.sqrt(left * left + back * back + z2 * z2);
  const k3 = scale * (areas[2] as number) * Math.sqrt(right * right + back * back + z3 * z3);
  const k4 = scale * (areas[3] as number) * Math.sqrt(right * right + front * front + z4 * z4);
  const fx = (k1 + k2) * left + (k3 + k4) * right;
  const fy = (k1 + k4) * front + (k2 + k3) * back;
  const f1 = k1 * z1;
  const f2 = k2 * z2;
  const f3 = k3 * z3;
  const f4 = k4 * z4;
  load[0] = (load[0] as number) + fx;
  load[1] = (load[1] as number) + fy;
  load[2] = (load[2] as number) + f1 + f2 + f3 + f4;
  load[3] = (load[3] as number) + x * (f1 + f2 - f3 - f4) - h * fy;
  load[4] = (load[4] as number) + h * fx - x * (f1 - f2 - f3 + f4);
  load[5] = (load[5] as number) + x * ((k1 + k4) * front - (k2 + k3) * back - (k1 + k2) * left + (k3 + k4) * right);
}

/** Adds the drag of an area (m2) on the axis, h m above the centre of mass, as a canopy; returns its size in N. */
export function addAxisDrag(load: Load, area: number, h: number, stream: Stream): number {
  const vx = (stream[AIRSPEED] as number) + (stream[TURN + 1] as number) * h;
  const vy = (stream[AIRSPEED + 1] as number) - (stream[TURN] as number) * h;
  const vz = stream[AIRSPEED + 2] as number;
  const speed = Math.sqrt(vx * vx + vy * vy + vz * vz);
  const scale = -0.5 * (stream[DENSITY] as number) * area * speed;
  load[0] = (load[0] as number) + scale * vx;
  load[1] = (load[1] as number) + scale * vy;
  load[2] = (load[2] as number) + scale * vz;
  load[3] = (load[3] as number) - h * scale * vy;
  load[4] = (load[4] as number) + h * scale * vx;
  return -scale * speed;
}

/** Terminal speed in m/s of a mass with a drag area: sqrt(2 m g / (rho CdA)). */
export function terminalSpeed(mass: number, gravity: number, rho: number, dragArea: number): number {
  return Math.sqrt((2 * mass * gravity) / (rho * dragArea));
}
