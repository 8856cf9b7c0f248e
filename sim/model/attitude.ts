/**
 * The stabiliser: what it believes (an estimate from the gyro) and what it orders (four thrust fractions).
 *
 * The estimate p is the upward direction in body axes:
 *   dp/dt = -w_m x p + W(|f|) (f/|f| - p)/t_ref + H (R^T z - p)/t_horizon,
 * where w_m = clip((1 + scale error) w + bias) is what the gyro reads and f is the specific force. The weight W is 1 while |f|
 * is within 0.8 gates of g and falls linearly to 0 at 1.2 gates (a gate of 15 % by standard, without a jump). H is 1 once the craft has
 * been upright, because the pilot then sees the horizon. In free fall there is no reference, so errors stay.
 *
 * The attitude loop turns the thrust axis to the wanted direction t by the shortest way: rate = gain x angle, limited. The rate
 * loop asks for moment = inertia x gain x (rate error + integral gain x its integral). The mixer serves roll and pitch first,
 * then the collective, then yaw, and keeps each command in 0..1.
 */
import { GRAVITY } from './atmosphere.js';
import { Slot } from './scratch.js';

/** In gates: off by less, the accelerometer is trusted in full; off by more, not at all. */
const FULL_WEIGHT_WITHIN = 0.8;
const NO_WEIGHT_BEYOND = 1.2;

/** Largest sum of the roll and the pitch command, as thrust fractions: half of the range, so that C = 1/2 can hold it. */
export const LARGEST_REACH = 0.5;

/** Largest product of rate gain and motor lag that keeps the rate loop well damped; the gain is lowered to it. */
export const LARGEST_GAIN_LAG = 0.6;

/** Time constant of the pilot's correction by the horizon, s (common practice, no source). */
export const HORIZON_TIME = 1;

/** What the gyro reads for a true rate, rad/s. */
export function gyroReading(rate: number, scaleError: number, bias: number, fullScale: number): number {
  const reading = (1 + scaleError) * rate + bias;
  return reading > fullScale ? fullScale : Math.max(reading, -fullScale);
}

/**
 * Weight 0..1 of the accelerometer as a reference for a specific force of size f m/s2.
 *
 * @param gate share of g; 0.15: the accelerometer is accepted between 0.85 and 1.15 g, as by the complementary filters of
 * open-source flight controllers (betaflight, src/main/flight/imu.c, commit 01b2ce0b: 72 < 100 |f|^2/g^2 < 133)
 */
export function referenceWeight(specificForce: number, gate: number): number {
  const off = Math.abs(specificForce / GRAVITY - 1);
  const within = FULL_WEIGHT_WITHIN * gate;
  const beyond = NO_WEIGHT_BEYOND * gate;
  if (off <= within) return 1;
  return off >= beyond ? 0 : (beyond - off) / (beyond - within);
}

/** The rate gain actually used, 1/s. */
export function dampedRateGain(gain: number, motorLag: number): number {
  return Math.min(gain, LARGEST_GAIN_LAG / motorLag);
}

/**
 * Wanted body rates about x and y (rad/s) that turn the thrust axis to the wanted direction t by the shortest way: the gain
 * times 2 tan(angle/2), limited. Exactly upside down, the craft turns about x.
 *
 * Reads Wanted (any length); writes WantedTurn.
 */
export function wantedRates(w: Float64Array, attitudeGain: number, largestRate: number): void {
  const tx = w[Slot.WantedX];
  const ty = w[Slot.WantedY];
  const tz = w[Slot.WantedZ];
  const across2 = tx * tx + ty * ty;
  const sum = Math.sqrt(across2 + tz * tz) + tz;
  // Direction times 2 tan(angle/2) is 2 (-ty, tx) / (|t| + tz).
  const scale = (2 * attitudeGain) / Math.max(sum, LEAST_SUM);
  let rx = -ty * scale;
  let ry = tx * scale;
  const rate2 = rx * rx + ry * ry;
  if (rate2 > largestRate * largestRate) {
    const limit = largestRate / Math.sqrt(rate2);
    rx *= limit;
    ry *= limit;
  } else if (across2 === 0 && tz < 0) rx = largestRate;
  w[Slot.WantedTurnX] = rx;
  w[Slot.WantedTurnY] = ry;
}

/** Keeps the division above finite when t points straight down. */
const LEAST_SUM = 1e-12;

/**
 * The mixer: four thrust fractions 0..1. Rotor i is asked for roll y_i - pitch x_i (x, y = +-1), for yaw times its twist, and for
 * the collective. Roll and pitch come first (scaled together if they alone span more than the range), then the collective as
 * far as they leave room, then yaw as far as all of them leave room.
 *
 * Reads Roll, Pitch, Yaw and Collective; writes Command.
 */
export function mixRotors(w: Float64Array): void {
  const roll = w[Slot.Roll];
  const pitch = w[Slot.Pitch];
  // On a cross of four, roll y_i - pitch x_i takes +-(|roll| + |pitch|) at its ends.
  const reach = Math.abs(roll) + Math.abs(pitch);
  const scale = reach > LARGEST_REACH ? LARGEST_REACH / reach : 1;
  const floor = reach * scale;
  const common = Math.min(Math.max(w[Slot.Collective], floor), 1 - floor);
  const difference = scale * (roll - pitch);
  const sum = scale * (roll + pitch);
  const c1 = common + difference;
  const c2 = common + sum;
  const c3 = common - difference;
  const c4 = common - sum;
  // Positive yaw raises rotors 1 and 3 and lowers 2 and 4.
  let yaw = w[Slot.Yaw];
  if (yaw > 0) yaw = Math.min(yaw, 1 - Math.max(c1, c3), Math.min(c2, c4));
  else yaw = -Math.min(-yaw, 1 - Math.max(c2, c4), Math.min(c1, c3));
  w[Slot.Command1] = unit(c1 + yaw);
  w[Slot.Command2] = unit(c2 - yaw);
  w[Slot.Command3] = unit(c3 + yaw);
  w[Slot.Command4] = unit(c4 - yaw);
}

/** Rounding may leave a command a hair outside 0..1. */
function unit(command: number): number {
  return command < 0 ? 0 : Math.min(command, 1);
}
