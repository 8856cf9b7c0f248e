/**
 * The way from the pilot to the motors: the hand on the throttle and its lag, the collective that it gives, the hand on the
 * tilt, the attitude loop, the rate loop and the mixer. The motors follow with their lag.
 *
 * The loops divide by the thrust that the controller believes it has (BelievedThrust). An effect on the true thrust belongs in
 * thrust.ts: if it changed the believed thrust too, the controller would make up for it at once, as if it knew of it.
 */
import { GUST_STEP } from '../draws/draw.js';
import { wantedDescent, wantedLift, wantedTilt, yawAllowance } from '../model/approach.js';
import { densityAt, GRAVITY } from '../model/atmosphere.js';
import { mixRotors, wantedRates } from '../model/attitude.js';
import { fullThrust, voltageRoot } from '../model/rotors.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Cosine under which the collective is no longer raised for tilt. */
const LEAST_COSINE = 0.7;
/** Keeps commands finite with an empty pack, N. */
const LEAST_THRUST = 1e-6;
/** Largest vertical acceleration with which the hand takes over, m/s2. */
const LARGEST_TAKEOVER = 5;

const PER_GUST_STEP = 1 / GUST_STEP;

/**
 * Rates of c, Q and b: what the motors are told, what the pack gives, what the hand does.
 *
 * Reads Time, Density, VoltageRoot, Current, EastX to UpZ, Gyro and both inertias, and r, v, w, p, c and b of y; writes
 * BelievedThrust, Tilt, Wanted, WantedTurn, Roll, Pitch, Yaw, Collective and Command, and dy.
 */
export function steer(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  w[Slot.BelievedThrust] =
    4 * Math.max(fullThrust(craft.believedThrustConstant, w[Slot.Density], w[Slot.VoltageRoot]), LEAST_THRUST);
  dy[State.Charge] = w[Slot.Current];
  dy[State.Hand] = 0;
  w[Slot.Collective] = 1;
  // t = p: upright.
  w[Slot.WantedX] = y[State.EstimateX];
  w[Slot.WantedY] = y[State.EstimateY];
  w[Slot.WantedZ] = y[State.EstimateZ];
  if (s.phase === 'approach') approach(craft, s, y, dy);
  wantedRates(w, craft.attitudeGain, craft.largestRate);
  holdRates(craft, w);
  mixRotors(w);
  // dc_i/dt = (command - c_i)/motor_lag.
  const { runs, perMotorLag } = craft;
  dy[State.Thrust1] = perMotorLag * (runs[0] * w[Slot.Command1] - y[State.Thrust1]);
  dy[State.Thrust2] = perMotorLag * (runs[1] * w[Slot.Command2] - y[State.Thrust2]);
  dy[State.Thrust3] = perMotorLag * (runs[2] * w[Slot.Command3] - y[State.Thrust3]);
  dy[State.Thrust4] = perMotorLag * (runs[3] * w[Slot.Command4] - y[State.Thrust4]);
}

/**
 * The approach: C = m (g + b)/(4 T max(p_z, 0.7)), db/dt of the hand, and t = p + R^T (e, n, 0) for its tilt. Live, the pilot
 * does both; while the link is out the last tilt stands and b with it; by itself the craft holds the approach speed, level.
 *
 * Reads Time, BelievedThrust, EastX to UpZ and Tilt, and r, v, w, p and b of y; writes Collective, Tilt, Wanted, and dy.
 */
function approach(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  const { stick } = s;
  const hand = y[State.Hand];
  w[Slot.Collective] =
    (craft.mass * (GRAVITY + hand)) / (w[Slot.BelievedThrust] * Math.max(y[State.EstimateZ], LEAST_COSINE));
  if (stick === 'live') {
    const { touchdownSpeed, approachSpeed, homing, responseTime } = craft;
    const sink = wantedDescent(y[State.Height], approachSpeed, touchdownSpeed, homing.flareHeight);
    const f = w[Slot.Time] * PER_GUST_STEP - s.node;
    const unsteady = s.handFrom + f * (s.handTo - s.handFrom);
    dy[State.Hand] = (wantedLift(-y[State.UpSpeed] - sink, responseTime, unsteady) - hand) / responseTime;
    wantedTilt(w, homing, y, yawAllowance(y[State.TurnZ]));
  } else if (stick === 'itself') {
    const { approachSpeed, responseTime } = craft;
    dy[State.Hand] = (wantedLift(-y[State.UpSpeed] - approachSpeed, responseTime, 0) - hand) / responseTime;
  }
  if (stick !== 'itself') {
    const e = w[Slot.TiltEast];
    const n = w[Slot.TiltNorth];
    w[Slot.WantedX] = w[Slot.WantedX] + w[Slot.EastX] * e + w[Slot.NorthX] * n;
    w[Slot.WantedY] = w[Slot.WantedY] + w[Slot.EastY] * e + w[Slot.NorthY] * n;
    w[Slot.WantedZ] = w[Slot.WantedZ] + w[Slot.EastZ] * e + w[Slot.NorthZ] * n;
  }
}

/**
 * The rate loop: moment = I G (wanted rate - w_m), as thrust fractions of the thrust that the controller believes it has.
 *   roll = It G (wx_wanted - wx_m)/(4 a T),  pitch = It G (wy_wanted - wy_m)/(4 a T),  yaw = -Ia G wz_m/(4 torque_arm T)
 *
 * Reads BelievedThrust, both inertias, WantedTurn and Gyro; writes Roll, Pitch and Yaw.
 */
function holdRates(craft: Craft, w: Float64Array): void {
  const gain = craft.rateGain / w[Slot.BelievedThrust];
  const perMoment = gain * w[Slot.TransverseInertia] * craft.perArmX;
  w[Slot.Roll] = perMoment * (w[Slot.WantedTurnX] - w[Slot.GyroX]);
  w[Slot.Pitch] = perMoment * (w[Slot.WantedTurnY] - w[Slot.GyroY]);
  w[Slot.Yaw] = -gain * w[Slot.AxialInertia] * w[Slot.GyroZ] * craft.perTorqueArm;
}

/**
 * b as the hand takes over where full throttle stood: C = 1, so b = 4T/m - g, within +-5 m/s2; T as the controller believes it at
 * the voltage found last. Reads Voltage, and Height of the state; writes its Hand.
 */
export function takeOverThrottle(craft: Craft, s: Situation): void {
  const root = voltageRoot(s.scratch[Slot.Voltage] * craft.perBenchVoltage, craft.voltageExponent);
  const full = fullThrust(craft.believedThrustConstant, densityAt(craft.density, s.y[State.Height]), root);
  s.y[State.Hand] = Math.min(Math.max((4 * full) / craft.mass - GRAVITY, -LARGEST_TAKEOVER), LARGEST_TAKEOVER);
}
