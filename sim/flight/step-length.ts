/** The length of a step and the method that makes it, by the phase of the flight and by how fast the craft turns. */

import { State } from '../model/state.js';
import * as constant from './constants.js';
import type { Craft } from './craft.js';
import { turningRate } from './margins.js';
import { canopyPulls, motorsRun } from './phase.js';
import type { Situation } from './situation.js';

/**
 * The largest step from here on, s. It also sets s.method: the midpoint rule serves flight under thrust once the craft is
 * upright and calm, Runge-Kutta everything else.
 */
export function largestStep(craft: Craft, s: Situation): number {
  const turning = turningRate(s.y);
  s.method = 'runge-kutta';
  return motorsRun(s.phase) ? poweredStep(craft, s, turning) : fallStep(craft, s, turning);
}

function poweredStep(craft: Craft, s: Situation, turning: number): number {
  const lag = 1 / craft.perMotorLag;
  let largest: number;
  if (s.stance === 'upright' && turning < constant.BUSY_RATE) {
    largest = Math.min(constant.POWERED_STEP, constant.CALM_LAGS * lag);
    if (s.phase === 'approach') {
      s.method = 'midpoint';
      const high = s.y[State.Height] > craft.homing.flareHeight + constant.NEAR_GROUND;
      if (high && craft.approachStep > largest) largest = craft.approachStep;
    } else if (turning < constant.SETTLED_TURNING) s.method = 'midpoint';
  } else largest = Math.min(constant.BUSY_STEP, constant.BUSY_LAGS * lag);
  return turning * largest > constant.LARGEST_TURN ? constant.LARGEST_TURN / turning : largest;
}

function fallStep(craft: Craft, s: Situation, turning: number): number {
  const folded = !craft.released || s.arms !== 'open';
  const largest = folded
    ? craft.foldedTurn / (turning + constant.FOLDED_SWING)
    : constant.LARGEST_TURN / (turning + constant.OPEN_SWING);
  const swung = s.arms === 'opening' && craft.hingeStep < largest ? craft.hingeStep : largest;
  return canopyPulls(s.phase) || s.phase === 'torn' ? Math.min(swung, constant.CANOPY_STEP) : swung;
}
