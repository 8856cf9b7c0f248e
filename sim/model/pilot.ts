/**
 * What the pilot, or the craft, goes by. Call-out reading (barometer):
 *   reading = z (1 - dT/T) + bias + k V^2/(2 g) + noise,
 * dT the excess over the standard temperature, T the air temperature at the ground: warm air reads low; a positive
 * flow error k reads high, so late. Heard `latency` later.
 */
import { GRAVITY } from './atmosphere.js';

/** Barometric height in m at true height z m and airspeed m/s, without noise. */
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

/** Time in s from the cue to the order: reaction and, where attention was elsewhere, the lapse. */
export function humanDelay(reaction: number, lapses: boolean, lapseLength: number): number {
  return reaction + (lapses ? lapseLength : 0);
}
