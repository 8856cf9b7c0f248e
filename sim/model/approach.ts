/**
 * The approach: once the fall is arrested, a lagging hand holds a descent rate, the pilot flies back towards the landing point,
 * nulls the ground speed near the ground, flares and touches down. The gains are common practice, without a source.
 */
import { GRAVITY } from './atmosphere.js';
import { Slot } from './scratch.js';
import { State } from './state.js';

/** Gain on the descent-rate error, 1/s, before the limit that keeps a slow hand damped. */
const DESCENT_GAIN = 2;
/** Product of descent gain and response time at which the response is still well damped. */
const DESCENT_GAIN_LAG = 0.5;
/** Largest vertical acceleration asked for, m/s2. */
const LARGEST_VERTICAL = 5;
/** Speed flown back for each metre of distance, 1/s. */
const HOMING_GAIN = 0.3;
/** Gain on the ground-speed error, 1/s. */
const GROUND_SPEED_GAIN = 1;
/** Yaw rates between which the pilot stops flying back, rad/s: 80 and 90 deg/s. */
const YAW_EASY = (80 * Math.PI) / 180;
const YAW_LOST = (90 * Math.PI) / 180;

/** Descent rate aimed at, m/s: the approach speed down to the flare height, then linearly to the touchdown speed at half of it. */
export function wantedDescent(
  height: number,
  approachSpeed: number,
  touchdownSpeed: number,
  flareHeight: number,
): number {
  const half = flareHeight / 2;
  if (height >= flareHeight) return approachSpeed;
  if (height <= half || half <= 0) return touchdownSpeed;
  return touchdownSpeed + ((approachSpeed - touchdownSpeed) * (height - half)) / half;
}

/** Vertical acceleration asked for, m/s2, from the descent-rate error (positive: falling too fast) and the hand's unsteadiness. */
export function wantedLift(descentError: number, responseTime: number, unsteadiness: number): number {
  const gain = Math.min(DESCENT_GAIN, DESCENT_GAIN_LAG / responseTime);
  const lift = gain * descentError + unsteadiness;
  return lift > LARGEST_VERTICAL ? LARGEST_VERTICAL : Math.max(lift, -LARGEST_VERTICAL);
}

/** Share 0..1 of the flying-back that a yaw rate (rad/s) still allows. */
export function yawAllowance(yawRate: number): number {
  const rate = Math.abs(yawRate);
  if (rate <= YAW_EASY) return 1;
  return rate >= YAW_LOST ? 0 : (YAW_LOST - rate) / (YAW_LOST - YAW_EASY);
}

/** How the pilot flies back; constants of one flight. */
export interface Homing {
  /** Largest speed over ground flown back, m/s. */
  groundSpeedLimit: number;
  /** Largest tilt flown, as a tangent. */
  largestTangent: number;
  flareHeight: number;
  /** What the pilot takes for no ground speed, m/s. */
  speedErrorEast: number;
  speedErrorNorth: number;
}

/**
 * The pilot's horizontal tilt as tangents towards east and north, of which the share `allowed` (0..1) is flown. Above twice
 * the flare height the pilot flies back, with limited speed; below the flare height the ground speed is nulled, but for the
 * pilot's error; between, the wanted speed goes linearly from one to the other.
 *
 * Reads East, North, Height, EastSpeed and NorthSpeed of the state y; writes TiltEast and TiltNorth.
 */
export function wantedTilt(w: Float64Array, homing: Homing, y: Float64Array, allowed: number): void {
  const flare = homing.flareHeight;
  let homeEast = -HOMING_GAIN * y[State.East];
  let homeNorth = -HOMING_GAIN * y[State.North];
  const home2 = homeEast * homeEast + homeNorth * homeNorth;
  const limit = homing.groundSpeedLimit;
  if (home2 > limit * limit) {
    const scale = limit / Math.sqrt(home2);
    homeEast *= scale;
    homeNorth *= scale;
  }
  const above = flare > 0 ? (y[State.Height] - flare) / flare : 1;
  const blend = above < 0 ? 0 : Math.min(above, 1);
  const errorEast = homing.speedErrorEast;
  const errorNorth = homing.speedErrorNorth;
  let tanEast = (GROUND_SPEED_GAIN * (errorEast + blend * (homeEast - errorEast) - y[State.EastSpeed])) / GRAVITY;
  let tanNorth = (GROUND_SPEED_GAIN * (errorNorth + blend * (homeNorth - errorNorth) - y[State.NorthSpeed])) / GRAVITY;
  const size2 = tanEast * tanEast + tanNorth * tanNorth;
  const largest = homing.largestTangent;
  if (size2 > largest * largest) {
    const scale = largest / Math.sqrt(size2);
    tanEast *= scale;
    tanNorth *= scale;
  }
  w[Slot.TiltEast] = allowed * tanEast;
  w[Slot.TiltNorth] = allowed * tanNorth;
}
