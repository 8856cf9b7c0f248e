/**
 * The barometric height that the call-out and the automatic throttle-up go by:
 *   reading = z (1 - dT/Ts) + bias + k V^2/(2 g) + noise,
 * dT the excess over the standard temperature and Ts the air temperature at the ground. Warm air reads low; a positive flow
 * error k reads high, so the cue comes late. The reading is heard `latency` later.
 */
import { GRAVITY } from './atmosphere.js';

/**
 * Barometric height in m, without noise.
 *
 * @param z true height above ground, m
 * @param airspeed V, m/s
 * @param excess dT, K
 * @param temperature Ts, K
 * @param bias m
 * @param flowError k
 */
export function barometricReading(
  z: number,
  airspeed: number,
  excess: number,
  temperature: number,
  bias: number,
  flowError: number,
): number {
  return z * (1 - excess / temperature) + bias + (flowError * airspeed * airspeed) / (2 * GRAVITY);
}
