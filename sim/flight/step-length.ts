/** How long a step may be, and of which order. */
import * as constant from './constants.js';
import type { Craft } from './craft.js';
import { turningRate } from './margins.js';
import type { Situation } from './situation.js';

/**
 * The largest step from here on; also decides the method. Settled are the fall of the open can once it hardly turns
 * and falls about as fast as it will, and the approach, upright, until it comes near the ground; order four elsewhere.
 */
export function largestStep(craft: Craft, s: Situation): number {
  const turning = turningRate(s.y);
  s.settled = false;
  let largest: number;
  if (s.motorsOn) {
    const calm = s.upright && turning < constant.BUSY_RATE;
    const lag = 1 / craft.perMotorLag;
    s.settled = calm && s.approaching && s.y[2] > craft.homing.flareHeight + constant.NEAR_GROUND;
    largest = calm
      ? Math.min(constant.POWERED_STEP, constant.CALM_LAGS * lag)
      : Math.min(constant.BUSY_STEP, constant.BUSY_LAGS * lag);
    if (turning * largest > constant.LARGEST_TURN) largest = constant.LARGEST_TURN / turning;
  } else {
    const folded = !craft.released || s.time < s.releaseTime + craft.openingTime;
    const canopy = s.firedAt <= s.time;
    const unsteady = Math.abs(s.y[5] / craft.openFallSpeed + 1);
    s.settled = !folded && !canopy && turning < constant.SETTLED_TURNING && unsteady < constant.SETTLED_SPEED;
    largest = folded
      ? constant.FOLDED_TURN / (turning + constant.FOLDED_SWING)
      : constant.LARGEST_TURN / (turning + constant.OPEN_SWING);
    if (canopy) largest = Math.min(largest, constant.CANOPY_STEP);
  }
  return largest;
}
