/** Numbers of the integration. Halving STEP_SCALE through `createFlightModel` flies the same flights with finer steps. */

/** Largest turning in one step, rad; less for the folded can, whose forces have a kink where it passes broadside. */
export const LARGEST_TURN = 0.35;
export const FOLDED_TURN = 0.18;
/** Turning rate added for the swing of the can in the stream with the motors off, rad/s: open, folded. */
export const OPEN_SWING = 2.5;
export const FOLDED_SWING = 4;
/** Largest step with the motors running, s. */
export const POWERED_STEP = 0.05;
/** Largest step until the craft is upright and calm, s. */
export const BUSY_STEP = 0.0125;
/**
 * Largest step in motor lags, when calm and when busy: the lag is the stiffest term, and Runge-Kutta of order four grows
 * without bound over 2.785.
 */
export const CALM_LAGS = 1.5;
export const BUSY_LAGS = 0.5;
/** Turning rate over which the craft counts as busy, rad/s. */
export const BUSY_RATE = 1.5;
/** Largest step while a canopy pulls, s. */
export const CANOPY_STEP = 0.00625;
/** Time to which an event inside a step is located, s. */
export const EVENT_TOLERANCE = 1e-7;
/** Beyond these a flight has diverged: speed m/s, turning rate rad/s. */
export const LARGEST_SPEED = 1e3;
export const LARGEST_TURNING = 2e3;

/** Turning rate under which the open can's fall is settled, rad/s. */
export const SETTLED_TURNING = 0.9;
/** Share of the open can's fall speed within which it is settled; the speed goes with the density over height. */
export const SETTLED_SPEED = 0.18;
/** Height over the flare from which the approach is settled, m. */
export const NEAR_GROUND = 6;
