/**
 * The hinge of an arm. The arm turns by the angle a, from 0 (along the can) to pi/2 (open, where it latches):
 *
 *   I a'' = M_spring - M_f sign(a') - 1/2 rho S r u_n |u_n| - t m r f_z sin a,   u_n = t u_z sin a + max(u_r, 0) cos a
 *
 * with t = 1 where the folded tips point down, -1 where they point up; S: drag area of the open arm with its stopped blades; r:
 * from the hinge to the rotor's centre; u_z: the velocity through the air along the can, u_r: outwards, to the arm's side; m:
 * mass of the arm, a point at r; f_z: specific force along the can. A stream along the can from the tips' side opens an arm,
 * one from the hinge's side closes it; a stream across the can presses the folded arms of its side against it. Only the stream
 * across the arm, u_n, counts (cross-flow principle, as for the can); an arm behind the can lies in its wake and feels nothing
 * of the stream across. At rest nothing moves unless the torque is above M_f (Coulomb). Newton's law; no source gives the
 * equation for an arm (own derivation). Left out: the arm's own speed in the stream (under 10 %), and what the turning of the
 * can does to it.
 */

/** pi/2, the angle at which an arm is open and latches, rad. */
export const OPEN_ANGLE = Math.PI / 2;

/** An arm shorter than this is taken to be as long, m. */
const LEAST_LEVER = 0.01;

/** r in m: from the hinge on the can's wall to the centre of the rotor. */
export function hingeLever(diameter: number, rotorDistance: number): number {
  return Math.max(rotorDistance - diameter / 2, LEAST_LEVER);
}

/** Time in s in which a constant torque (N m) turns an arm of an inertia (kg m2) from rest through pi/2: sqrt(pi I/M). */
export function swingTime(inertia: number, torque: number): number {
  return Math.sqrt((Math.PI * inertia) / torque);
}

/**
 * Inertia in kg m2 and the time in s from the release until the arms are free, so that in still air, the weight of the arms
 * left out, they are open when the bench says. A spring mostly turns an arm faster than that: then what holds the arms lets
 * go late (a thread that burns, a slow servo). If the spring is too slow for it, the arm is lighter than it was taken to be:
 * I = M t_b^2/pi.
 */
export function hingeByBench(
  inertia: number,
  torque: number,
  benchTime: number,
): { readonly inertia: number; readonly catchTime: number } {
  const swing = swingTime(inertia, torque);
  return swing <= benchTime
    ? { inertia, catchTime: benchTime - swing }
    : { inertia: (torque * benchTime * benchTime) / Math.PI, catchTime: 0 };
}

/**
 * Share 0..1 of a step at whose end an arm has come to `end` (rad) by the cubic through the angles and rates (times the step)
 * at both ends; `towards` is the sign of its motion. Error of fourth order in the step.
 */
export function shareTo(end: number, towards: number, a0: number, v0: number, a1: number, v1: number): number {
  return firstShare((f) => towards * (angleAt(f, a0, v0, a1, v1) - end) < 0);
}

/** Share 0..1 of a step at which an arm that moves in the direction `towards` comes to rest, by the same cubic. */
export function shareToRest(towards: number, a0: number, v0: number, a1: number, v1: number): number {
  return firstShare((f) => towards * rateAt(f, a0, v0, a1, v1) > 0);
}

const HALVINGS = 40;

/** Where `before` ends to hold between 0 and 1, by bisection. */
function firstShare(before: (share: number) => boolean): number {
  let low = 0;
  let high = 1;
  for (let k = 0; k < HALVINGS; k += 1) {
    const middle = 0.5 * (low + high);
    if (before(middle)) low = middle;
    else high = middle;
  }
  return high;
}

/** Cubic with values a and slopes v at 0 and 1 (Hermite), and its slope. */
function angleAt(f: number, a0: number, v0: number, a1: number, v1: number): number {
  const g = 1 - f;
  return a0 * (1 + 2 * f) * g * g + v0 * f * g * g + a1 * f * f * (3 - 2 * f) - v1 * f * f * g;
}

function rateAt(f: number, a0: number, v0: number, a1: number, v1: number): number {
  const g = 1 - f;
  return 6 * f * g * (a1 - a0) + v0 * g * (1 - 3 * f) + v1 * f * (3 * f - 2);
}
