/** The state vector of a flight, SI, in one Float64Array: where each part begins. */

/** Position east, north, up of the planned landing point, m (inertial). */
export const POSITION = 0;
/** Velocity over ground, m/s (inertial). */
export const VELOCITY = 3;
/** Unit quaternion w, x, y, z from body to inertial axes. */
export const ATTITUDE = 6;
/** Turning rate in body axes, rad/s. */
export const TURNING = 10;
/** The stabiliser's estimate of the upward direction, in body axes. */
export const ESTIMATE = 13;
/** Number of states while the motors are off. */
export const FALL_STATES = 16;
/** Thrust fraction of each rotor behind its motor lag, 0..1. */
export const THRUST = 16;
/** Charge drawn from the pack since ejection, C. */
export const CHARGE = 20;
/** Vertical acceleration that the pilot's hand asks for, behind its lag, m/s2. */
export const HAND = 21;
/** Number of all states. */
export const STATES = 22;
