/**
 * The stabiliser: what it believes (an estimate from the gyro) and what it orders (four thrust fractions).
 *
 * The estimate is the upward direction in body axes, u:
 *   du/dt = -w_m x u + (f/|f| - u) W(|f|)/t_ref + (u_true - u) H/t_horizon, kept across u,
 * with w_m = clip((1 + scale error) w + bias) at full scale, f the specific force, W = 1 while |f| is within 12 % of
 * g, falling to 0 at 18 % (about the usual 15 % gate, without a jump), and H = 1 once the craft has been upright: then the
 * pilot sees the horizon. In free fall there is no reference, so errors stay.
 *
 * Attitude loop: turn z_b to the wanted direction t by the shortest way, rate = gain x angle, limited; rate loop: moment =
 * inertia x gain x rate error; mix: roll and pitch first, then collective, then yaw, each command in 0..1.
 */
import { GRAVITY } from './atmosphere.js';
import { ROTOR_X, ROTOR_Y, TWIST } from './rotors.js';

const FULL_WEIGHT_WITHIN = 0.12;
const NO_WEIGHT_BEYOND = 0.18;

/** Largest product of rate gain and motor lag that keeps the rate loop well damped; the gain is lowered to it. */
export const LARGEST_GAIN_LAG = 0.6;

/** Time constant of the pilot's correction by the horizon, s (common practice, no source). */
export const HORIZON_TIME = 1;

/** What the gyro reads for a true rate, rad/s. */
export function gyroReading(rate: number, scaleError: number, bias: number, fullScale: number): number {
  const reading = (1 + scaleError) * rate + bias;
  return reading > fullScale ? fullScale : reading < -fullScale ? -fullScale : reading;
}

/** Weight 0..1 of the accelerometer as a reference for a specific force of size f m/s2. */
export function referenceWeight(specificForce: number): number {
  const off = Math.abs(specificForce / GRAVITY - 1);
  if (off <= FULL_WEIGHT_WITHIN) return 1;
  if (off >= NO_WEIGHT_BEYOND) return 0;
  return (NO_WEIGHT_BEYOND - off) / (NO_WEIGHT_BEYOND - FULL_WEIGHT_WITHIN);
}

/** The rate gain actually used, 1/s. */
export function dampedRateGain(gain: number, motorLag: number): number {
  return Math.min(gain, LARGEST_GAIN_LAG / motorLag);
}

/**
 * Wanted body rates about x and y (rad/s) that turn the thrust axis to direction t (any length, body axes),
 * written to out[0], out[1]. Upside down the way round is not defined by t alone: then about x.
 */
export function wantedRates(
  out: Float64Array,
  tx: number,
  ty: number,
  tz: number,
  attitudeGain: number,
  largestRate: number,
): void {
  const across = Math.sqrt(tx * tx + ty * ty);
  const angle = Math.atan2(across, tz);
  let rate = attitudeGain * angle;
  if (rate > largestRate) rate = largestRate;
  if (across > 1e-9) {
    out[0] = (-ty / across) * rate;
    out[1] = (tx / across) * rate;
  } else {
    out[0] = tz < 0 ? rate : 0;
    out[1] = 0;
  }
}

/**
 * Four thrust fractions from moments and a collective: roll and pitch first (scaled together if they alone span
 * more than the range), then the collective as far as they leave room, then yaw as far as all leave room.
 *
 * @param out four fractions 0..1
 * @param rollPitch thrust fraction per rotor that the moments about x and y ask for: mx * y_i - my * x_i
 * @param yaw thrust fraction per rotor that the moment about z asks for (times the rotor's twist)
 */
export function mixRotors(out: Float64Array, mx: number, my: number, yaw: number, collective: number): void {
  let least = 0;
  let most = 0;
  for (let i = 0; i < 4; i += 1) {
    const d = mx * (ROTOR_Y[i] as number) - my * (ROTOR_X[i] as number);
    out[i] = d;
    if (d < least) least = d;
    if (d > most) most = d;
  }
  const span = most - least;
  const scale = span > 1 ? 1 / span : 1;
  const floor = -least * scale;
  const ceiling = 1 - most * scale;
  const common = collective < floor ? floor : collective > ceiling ? ceiling : collective;
  let room = 1;
  for (let i = 0; i < 4; i += 1) {
    const c = common + scale * (out[i] as number);
    out[i] = c;
    const y = yaw * (TWIST[i] as number);
    if (y > 0 && c + y > 1) room = Math.min(room, Math.max(0, (1 - c) / y));
    if (y < 0 && c + y < 0) room = Math.min(room, Math.max(0, -c / y));
  }
  for (let i = 0; i < 4; i += 1) {
    const c = (out[i] as number) + room * yaw * (TWIST[i] as number);
    out[i] = c < 0 ? 0 : c > 1 ? 1 : c;
  }
}
