/**
 * The back-up parachute. It fires by the barometer, hangs useless while it is thrown out and its lines stretch, fills in
 * t_f = n D/v (Knacke, Parachute Recovery Systems Design Manual, 1992, from memory), its drag area growing as (t/t_f)^2 to Cd S, S the
 * total cloth area, and carries air along: a share c_a of the ball of the inflated diameter 0.7 D,
 *   m_a = c_a rho (4/3) pi (0.35 D)^3 tau^3,  tau = t/t_f, at most 1
 * (a half ball for c_a = 0.5; added mass of canopies: Cockrell, AGARDograph 295, 1987, value from memory).
 *
 * Its pull P slows the can, m dv/dt = F - P, and is the drag and what it takes to speed up the air that is carried,
 *   P = 1/2 rho Cd S tau^2 v^2 + d(m_a v)/dt,
 * so P = (1/2 rho Cd S tau^2 v^2 + v dm_a/dt + F m_a/m)/(1 + m_a/m). Wind that changes is left out of dv/dt.
 */

/** Fill time in s from the constant n, the diameter m and the airspeed at line stretch m/s. */
export function fillTime(constant: number, diameter: number, speed: number): number {
  return (constant * diameter) / Math.max(speed, 1);
}

/** Full drag area in m2. */
export function canopyDragArea(dragCoefficient: number, diameter: number): number {
  return (dragCoefficient * Math.PI * diameter * diameter) / 4;
}

/** Share of the inflated diameter in that of the cloth laid flat. */
const INFLATED = 0.7;

/** Volume of the air carried along by the open canopy in m3: a share of the ball of its inflated diameter. */
export function carriedVolume(share: number, diameter: number): number {
  return (share * Math.PI * (INFLATED * diameter) ** 3) / 6;
}

/** tau: share of the fill time that is over, `time` s after it began. */
export function filled(time: number, fill: number): number {
  return time <= 0 ? 0 : Math.min(time / fill, 1);
}

/**
 * P: pull of the canopy on the can in N, against its velocity through the air; a cloth does not push.
 *
 * @param tau share of the fill time that is over
 * @param fill t_f, s; infinite once it is full
 * @param full 1/2 rho Cd S, kg/m
 * @param carried c_a rho (4/3) pi (0.35 D)^3, kg
 * @param force F: all other forces on the can along its velocity through the air, with its weight, N
 */
export function canopyPull(
  tau: number,
  fill: number,
  full: number,
  carried: number,
  speed: number,
  force: number,
  mass: number,
): number {
  const square = tau * tau;
  const growth = (3 * carried * square) / fill;
  const share = (carried * square * tau) / mass;
  return Math.max((full * square * speed * speed + growth * speed + share * force) / (1 + share), 0);
}
