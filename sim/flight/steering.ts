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
import { LARGEST_REACH, mixRotors, wantedRates } from '../model/attitude.js';
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
 * Rates of c, Q, b and z: what the motors are told, what the pack gives, what the hand does, what the rate loop adds up.
 *
 * Reads Time, Density, VoltageRoot, Current, EastX to UpZ, Gyro and both inertias, and r, v, w, p, c, b and z of y; writes
 * BelievedThrust, Tilt, Wanted, WantedTurn, TurnError, TurnIntegral, Roll, Pitch, Yaw, Collective and Command, and dy.
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
  holdRates(craft, w, y);
  if (s.nextStart === Number.POSITIVE_INFINITY) windUp(craft, w, dy);
  else dy.fill(0, State.IntegralX, State.IntegralY + 1);
  mixRotors(w);
  // dc_i/dt = (command - c_i)/motor_lag from its start on.
  const { perMotorLag } = craft;
  const { driven } = s;
  dy[State.Thrust1] = perMotorLag * (driven[0] * w[Slot.Command1] - y[State.Thrust1]);
  dy[State.Thrust2] = perMotorLag * (driven[1] * w[Slot.Command2] - y[State.Thrust2]);
  dy[State.Thrust3] = perMotorLag * (driven[2] * w[Slot.Command3] - y[State.Thrust3]);
  dy[State.Thrust4] = perMotorLag * (driven[3] * w[Slot.Command4] - y[State.Thrust4]);
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
 * The rate loop: moment = I G (wanted rate - w_m + Ki z), I with open arms, as thrust fractions of the thrust that the controller believes it has;
 * the part of z within its limit; none on yaw.
 *   roll = It G (wx_wanted - wx_m + Ki zx)/(4 a T),  pitch = It G (wy_wanted - wy_m + Ki zy)/(4 a T),  yaw = -Ia G wz_m/(4 torque_arm T)
 *
 * Reads BelievedThrust, WantedTurn and Gyro, and z of y; writes TurnError, TurnIntegral, Roll, Pitch and Yaw.
 */
function holdRates(craft: Craft, w: Float64Array, y: Float64Array): void {
  const gain = craft.rateGain / w[Slot.BelievedThrust];
  const perMoment = gain * craft.openTransverse * craft.perArmX;
  const perIntegral = perMoment * craft.integralGain;
  const reach = craft.integralReach;
  const errorX = w[Slot.WantedTurnX] - w[Slot.GyroX];
  const errorY = w[Slot.WantedTurnY] - w[Slot.GyroY];
  const integralX = perIntegral * y[State.IntegralX];
  const integralY = perIntegral * y[State.IntegralY];
  w[Slot.TurnErrorX] = errorX;
  w[Slot.TurnErrorY] = errorY;
  w[Slot.TurnIntegralX] = integralX;
  w[Slot.TurnIntegralY] = integralY;
  w[Slot.Roll] = perMoment * errorX + Math.min(Math.max(integralX, -reach), reach);
  w[Slot.Pitch] = perMoment * errorY + Math.min(Math.max(integralY, -reach), reach);
  w[Slot.Yaw] = -gain * craft.openAxial * w[Slot.GyroZ] * craft.perTorqueArm;
}

/**
 * dz/dt = wanted rate - w_m about x and about y once all motors have started. Against wind-up it fades out, where it leads away
 * from z = 0, as roll and pitch come near the reach of the mixer and as the part of z comes near its limit.
 *
 * Reads TurnError, TurnIntegral, Roll and Pitch; writes dy.
 */
function windUp(craft: Craft, w: Float64Array, dy: Float64Array): void {
  const left = roomLeft((Math.abs(w[Slot.Roll]) + Math.abs(w[Slot.Pitch])) / LARGEST_REACH);
  const { perIntegralReach } = craft;
  for (let i = 0; i < 2; i += 1) {
    const error = w[Slot.TurnErrorX + i];
    const part = w[Slot.TurnIntegralX + i];
    dy[State.IntegralX + i] =
      error * part < 0 ? error : error * Math.min(left, roomLeft(Math.abs(part) * perIntegralReach));
  }
}

/** 1 while at most 0.8 of a limit is used, linear to 0 at all of it: without a jump, over which the loop would chatter. */
function roomLeft(used: number): number {
  return Math.min(Math.max((1 - used) / (1 - FREE_SHARE), 0), 1);
}

const FREE_SHARE = 0.8;

/**
 * b as the hand takes over where full throttle stood: C = 1, so b = 4T/m - g, within +-5 m/s2; T as the controller believes it at
 * the voltage found last. Reads Voltage, and Height of the state; writes its Hand.
 */
export function takeOverThrottle(craft: Craft, s: Situation): void {
  const root = voltageRoot(s.scratch[Slot.Voltage] * craft.perBenchVoltage, craft.voltageExponent);
  const full = fullThrust(craft.believedThrustConstant, densityAt(craft.density, s.y[State.Height]), root);
  s.y[State.Hand] = Math.min(Math.max((4 * full) / craft.mass - GRAVITY, -LARGEST_TAKEOVER), LARGEST_TAKEOVER);
}
