/**
 * The numbers of the integration. The option `stepScale` of `createFlightModel` multiplies every step, to check that the steps
 * do not matter.
 */

/** Largest turning in one step, rad; less for the folded can, whose tumble remembers every error. */
export const LARGEST_TURN = 0.35;
export const FOLDED_TURN = 0.07;
/** The same where the arms are let go early, s after ejection: the fall of the open can forgets the tumble. */
export const EARLY_FOLDED_TURN = 0.3;
export const EARLY_RELEASE = 4;
/** Turning rate added for the swing of the can in the stream with the motors off, rad/s: open, folded. */
export const OPEN_SWING = 2.5;
export const FOLDED_SWING = 4;
/** Largest step with the motors running, s: on the approach well above the flare; braking and landing. */
export const APPROACH_STEP = 0.1;
export const POWERED_STEP = 0.05;
/** Largest step until the craft is upright and calm, s. */
export const BUSY_STEP = 0.02;
/** Largest step in motor lags where the lag is not solved exactly (see sim/flight/integrator.ts), when calm and when busy. */
export const CALM_LAGS = 1.5;
export const BUSY_LAGS = 0.7;
/**
 * Largest step times the sum of the gains of the attitude and the rate loop, where the lag is solved exactly: the midpoint
 * rule of the two loops grows without bound over 1.55 to 2.2, for lags of 10 to 100 ms.
 */
export const LOOP_STEPS = 1.45;
/** Turning rate over which the craft counts as busy, rad/s. */
export const BUSY_RATE = 1.5;
/** Largest step while a canopy pulls, s. */
export const CANOPY_STEP = 0.00625;
/** Time to which an event inside a step is located, s. */
export const EVENT_TOLERANCE = 1e-7;
/** Largest step while arms turn, in times in which the torque alone opens an arm in still air. */
export const HINGE_STEPS = 0.1;
/** How long after their opening time on the bench the motors wait for arms, where the scenario does not say, s. */
export const LONGEST_WAIT = 1;
/** Beyond these a flight has diverged: speed m/s, turning rate rad/s. */
export const LARGEST_SPEED = 1e3;
export const LARGEST_TURNING = 2e3;

/** Turning rate under which the midpoint rule serves the braking at full throttle, rad/s. */
export const SETTLED_TURNING = 0.3;
/** Height over the flare above which the approach takes its longest steps, m. */
export const NEAR_GROUND = 6;
/** Seconds over which the parachute takes the rate of the reading, and the readings on the nodes of the call-out that span it. */
export const RATE_WINDOW = 0.6;
export const READINGS = 4;
