/**
 * The state vector of a flight, SI, in one Float64Array: the place of each number by name, with the letter that
 * sim/MODEL.md gives to the vector it belongs to. A new state is added here, its number of places in STATES or FALL_STATES, and its rate
 * in sim/flight/.
 *
 * The names are a constant enum for the same reason as those in scratch.ts.
 */
// biome-ignore lint/suspicious/noConstEnum: see above
export const enum State {
  /** r: position east, north and up of the planned landing point, m (inertial axes). */
  East = 0,
  North = 1,
  Height = 2,

  /** v: velocity over ground, m/s (inertial axes). */
  EastSpeed = 3,
  NorthSpeed = 4,
  UpSpeed = 5,

  /** q: unit quaternion from body to inertial axes. */
  AttitudeW = 6,
  AttitudeX = 7,
  AttitudeY = 8,
  AttitudeZ = 9,

  /** w: turning rate in body axes, rad/s. */
  TurnX = 10,
  TurnY = 11,
  TurnZ = 12,

  /** p: the stabiliser's estimate of the upward direction, in body axes. */
  EstimateX = 13,
  EstimateY = 14,
  EstimateZ = 15,

  /** c: thrust fraction of each rotor behind its motor lag, 0..1. */
  Thrust1 = 16,
  Thrust2 = 17,
  Thrust3 = 18,
  Thrust4 = 19,

  /** Q: charge drawn from the pack since ejection, C. */
  Charge = 20,

  /** b: vertical acceleration that the pilot's hand asks for, behind its lag, m/s2. */
  Hand = 21,

  /** z: integral of the rate error about x and y, rad. */
  IntegralX = 22,
  IntegralY = 23,

  /** a: angle of each arm about its hinge, rad: 0 along the can, pi/2 open; and its rate, rad/s. */
  Arm1 = 24,
  Arm2 = 25,
  Arm3 = 26,
  Arm4 = 27,
  ArmRate1 = 28,
  ArmRate2 = 29,
  ArmRate3 = 30,
  ArmRate4 = 31,
}

/** Number of states while the motors are off: r, v, q, w and p. Even, because the integrator takes them two at a time. */
export const FALL_STATES = 16;
/** Number of states under thrust: all but the arms, which move with the motors off alone; even as well. */
export const STATES = 24;
/** Number of all states, which are followed while arms move; even as well. */
export const ALL_STATES = 32;
