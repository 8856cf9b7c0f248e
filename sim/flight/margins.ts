/** The margins of events: each crosses zero where its event happens. Besides, since when a condition has held. */
import { gyroReading } from '../model/attitude.js';
import { State } from '../model/state.js';
import type { Craft } from './craft.js';

/** Square of the turning rate, rad2/s2. */
export function turningSquare(y: Float64Array): number {
  const a = y[State.TurnX];
  const b = y[State.TurnY];
  const c = y[State.TurnZ];
  return a * a + b * b + c * c;
}

export function turningRate(y: Float64Array): number {
  return Math.sqrt(turningSquare(y));
}

/** Cosine of the tilt of the can's axis from the vertical. */
export function tiltCosine(y: Float64Array): number {
  const x = y[State.AttitudeX];
  const z = y[State.AttitudeY];
  return 1 - 2 * (x * x + z * z);
}

/** When a condition began to hold, from its margins at the ends of a step; unchanged while it goes on. */
export function heldSince(since: number, before: number, marginBefore: number, now: number, margin: number): number {
  if (!(margin >= 0)) return Number.POSITIVE_INFINITY;
  if (since !== Number.POSITIVE_INFINITY) return since;
  if (!(marginBefore < 0)) return now;
  return before + ((now - before) * -marginBefore) / (margin - marginBefore);
}

export function uprightMargin(craft: Craft, y: Float64Array): number {
  const tilt = (tiltCosine(y) - craft.uprightCosine) / (1 - craft.uprightCosine);
  const rate = 1 - turningRate(y) / craft.uprightRate;
  return Math.min(tilt, rate);
}

/** Margin of the arming guard, which goes by what the stabiliser believes: its estimate of "up" and its gyro. */
export function guardMargin(craft: Craft, y: Float64Array): number {
  const x = y[State.EstimateX];
  const yy = y[State.EstimateY];
  const z = y[State.EstimateZ];
  const cosine = z / Math.sqrt(x * x + yy * yy + z * z);
  let square = 0;
  for (let i = 0; i < 3; i += 1) {
    const reading = gyroReading(y[State.TurnX + i], craft.gyroScale, craft.gyroBias[i], craft.gyroRange);
    square += reading * reading;
  }
  const tilt = (cosine - craft.guardCosine) / (1 - craft.guardCosine);
  const rate = 1 - Math.sqrt(square) / craft.guardRate;
  return Math.min(tilt, rate);
}

export function groundMargin(_: Craft, y: Float64Array): number {
  return y[State.Height];
}

export function arrestMargin(craft: Craft, y: Float64Array): number {
  return -craft.approachSpeed - y[State.UpSpeed];
}
