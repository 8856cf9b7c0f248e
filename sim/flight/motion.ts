/**
 * The equations of motion: the rate of change of the state with the motors off (`fallRates`) and on (`poweredRates`).
 *
 *   dr/dt = v,   m dv/dt = R F - m g z,   dq/dt = q (0, w)/2,   I dw/dt = M - w x (I w) - (dI/dt) w,
 * F and M the sums of the effects in sim/model, R from body to inertial axes, I symmetric about the can's axis.
 *
 * Few parts, each with its numbers in locals, that hand on through the scratch array (sim/model/scratch.ts).
 */
import { GUST_STEP } from '../draws/draw.js';
import { addAxisDrag, airLoad } from '../model/airframe.js';
import { wantedDescent, wantedLift, wantedTilt, yawAllowance } from '../model/approach.js';
import { openness, opennessSlope } from '../model/arms.js';
import { densityAt, GRAVITY } from '../model/atmosphere.js';
import { gyroReading, HORIZON_TIME, mixRotors, referenceWeight, wantedRates } from '../model/attitude.js';
import { loadedVoltage } from '../model/battery.js';
import { filling } from '../model/parachute.js';
import { axialThrustShare, inflowPowerFactor, voltageRoot } from '../model/rotors.js';
import { Slot } from '../model/scratch.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Rates of change of state y at time s.scratch[Slot.Time], written to dy. */
export type Rates = (craft: Craft, s: Situation, y: Float64Array, dy: Float64Array) => void;

/** Cosine under which the collective is no longer raised for tilt. */
const LEAST_COSINE = 0.7;
/** Thrust fraction under which a rotor's inflow does not matter. */
const LEAST_FRACTION = 1e-6;
/** Keeps commands finite with an empty pack, N. */
const LEAST_THRUST = 1e-6;

const PER_GUST_STEP = 1 / GUST_STEP;

export function fallRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  rotate(s.scratch, y);
  meetStream(craft, s, y);
  airLoad(s.scratch, craft.airframe, craft.stoppedAreas);
  if (s.firedAt !== Number.POSITIVE_INFINITY) addCanopy(craft, s);
  move(craft, s, y, dy);
}

export function poweredRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  rotate(s.scratch, y);
  meetStream(craft, s, y);
  airLoad(s.scratch, craft.airframe, craft.runningAreas);
  addRotors(craft, s, y);
  move(craft, s, y, dy);
  steer(craft, s, y, dy);
}

/** Rotation matrix, body to inertial. */
function rotate(w: Float64Array, y: Float64Array): void {
  const qw = y[6];
  const qx = y[7];
  const qy = y[8];
  const qz = y[9];
  w[Slot.Rotation] = 1 - 2 * (qy * qy + qz * qz);
  w[Slot.Rotation + 1] = 2 * (qx * qy - qw * qz);
  w[Slot.Rotation + 2] = 2 * (qx * qz + qw * qy);
  w[Slot.Rotation + 3] = 2 * (qx * qy + qw * qz);
  w[Slot.Rotation + 4] = 1 - 2 * (qx * qx + qz * qz);
  w[Slot.Rotation + 5] = 2 * (qy * qz - qw * qx);
  w[Slot.Rotation + 6] = 2 * (qx * qz - qw * qy);
  w[Slot.Rotation + 7] = 2 * (qy * qz + qw * qx);
  w[Slot.Rotation + 8] = 1 - 2 * (qx * qx + qy * qy);
}

/** The stream that the can meets, and how far open it is. */
function meetStream(craft: Craft, s: Situation, y: Float64Array): void {
  const w = s.scratch;
  const t = w[Slot.Time];
  const f = t * PER_GUST_STEP - s.node;
  const ae = y[3] - w[Slot.Wind] - f * w[Slot.WindChange];
  const an = y[4] - w[Slot.Wind + 1] - f * w[Slot.WindChange + 1];
  const az = y[5] - w[Slot.Wind + 2] - f * w[Slot.WindChange + 2];
  w[Slot.Airspeed] = w[Slot.Rotation] * ae + w[Slot.Rotation + 3] * an + w[Slot.Rotation + 6] * az;
  w[Slot.Airspeed + 1] = w[Slot.Rotation + 1] * ae + w[Slot.Rotation + 4] * an + w[Slot.Rotation + 7] * az;
  w[Slot.Airspeed + 2] = w[Slot.Rotation + 2] * ae + w[Slot.Rotation + 5] * an + w[Slot.Rotation + 8] * az;
  w[Slot.Density] = densityAt(craft.density, y[2]);
  w[Slot.Turn] = y[10];
  w[Slot.Turn + 1] = y[11];
  w[Slot.Turn + 2] = y[12];
  const x = craft.released ? (t - s.releaseTime) * craft.perOpeningTime : 0;
  w[Slot.Openness] = openness(x);
  w[Slot.Opening] = opennessSlope(x) * craft.perOpeningTime;
}

/** Pull of the filling canopy at the top of the can. */
function addCanopy(craft: Craft, s: Situation): void {
  const time = s.scratch[Slot.Time];
  if (time < s.firedAt || s.torn) return;
  const { middle, length } = craft.airframe;
  addAxisDrag(s.scratch, craft.canopyDragArea * filling(time - s.firedAt, s.fillTime), middle + length / 2);
}

/**
 * Thrust of the running rotors, their moments and twist, and the pack under their power. Induced and zero-thrust speeds go
 * with the voltage at the step's start.
 */
function addRotors(craft: Craft, s: Situation, y: Float64Array): void {
  const w = s.scratch;
  const { ringDepth, runs } = craft;
  const rho = w[Slot.Density];
  const before = w[Slot.StepVoltage];
  const induced = craft.inducedConstant * voltageRoot(before * craft.perBenchVoltage, craft.voltageExponent);
  const perZeroThrust = 1 / (craft.zeroThrustConstant * before);
  let power = 0;
  for (let i = 0; i < 4; i += 1) {
    const c = y[16 + i];
    const v = w[Slot.Axial + i];
    if (c > LEAST_FRACTION) {
      const root = Math.sqrt(c);
      const x = v / (root * induced);
      power += c * root * inflowPowerFactor(x);
      w[Slot.Share + i] = axialThrustShare(root, x, v * perZeroThrust, ringDepth);
    } else {
      w[Slot.Share + i] = v > 0 && runs[i] > 0 ? axialThrustShare(0, 0, v * perZeroThrust, 0) : 0;
    }
  }
  const constant = craft.powerConstant * rho * power;
  const voltage = loadedVoltage(w[Slot.OpenCircuit], craft.resistance, constant, craft.standbyCurrent);
  w[Slot.Voltage] = voltage;
  w[Slot.Current] = constant * voltage * voltage + craft.standbyCurrent;
  const root = voltageRoot(voltage * craft.perBenchVoltage, craft.voltageExponent);
  const full = craft.thrustConstant * rho * root * root;
  w[Slot.FullThrust] = full;
  const t1 = w[Slot.Share];
  const t2 = w[Slot.Share + 1];
  const t3 = w[Slot.Share + 2];
  const t4 = w[Slot.Share + 3];
  // Signs of the rotor centres and twists as in sim/model/rotors.ts.
  const arm = full * craft.airframe.armX;
  w[Slot.Load + 2] = w[Slot.Load + 2] + full * (t1 + t2 + t3 + t4);
  w[Slot.Load + 3] = w[Slot.Load + 3] + arm * (t1 + t2 - t3 - t4);
  w[Slot.Load + 4] = w[Slot.Load + 4] - arm * (t1 - t2 - t3 + t4);
  w[Slot.Load + 5] = w[Slot.Load + 5] + full * craft.torqueArm * (t1 - t2 + t3 - t4);
}

/**
 * Newton, Euler with the inertia growing while the arms open, and the stabiliser's estimate of "up" (see
 * sim/model/attitude.ts): rates of all states but those of the rotors, the pack and the hand.
 */
function move(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  const { perMass } = craft;
  const fx = perMass * w[Slot.Load];
  const fy = perMass * w[Slot.Load + 1];
  const fz = perMass * w[Slot.Load + 2];
  const r31 = w[Slot.Rotation + 6];
  const r32 = w[Slot.Rotation + 7];
  const r33 = w[Slot.Rotation + 8];
  dy[0] = y[3];
  dy[1] = y[4];
  dy[2] = y[5];
  dy[3] = w[Slot.Rotation] * fx + w[Slot.Rotation + 1] * fy + w[Slot.Rotation + 2] * fz;
  dy[4] = w[Slot.Rotation + 3] * fx + w[Slot.Rotation + 4] * fy + w[Slot.Rotation + 5] * fz;
  dy[5] = r31 * fx + r32 * fy + r33 * fz - GRAVITY;

  const qw = y[6];
  const qx = y[7];
  const qy = y[8];
  const qz = y[9];
  const wx = y[10];
  const wy = y[11];
  const wz = y[12];
  dy[6] = -0.5 * (qx * wx + qy * wy + qz * wz);
  dy[7] = 0.5 * (qw * wx + qy * wz - qz * wy);
  dy[8] = 0.5 * (qw * wy + qz * wx - qx * wz);
  dy[9] = 0.5 * (qw * wz + qx * wy - qy * wx);
  const open = w[Slot.Openness];
  const opening = w[Slot.Opening];
  const axial = craft.foldedAxial + open * craft.addedAxial;
  const transverse = craft.foldedTransverse + open * craft.addedTransverse;
  w[Slot.Inertia] = axial;
  w[Slot.Inertia + 1] = transverse;
  const growth = opening * craft.addedTransverse;
  const coupling = (axial - transverse) * wz;
  const perTransverse = 1 / transverse;
  dy[10] = perTransverse * (w[Slot.Load + 3] - coupling * wy - growth * wx);
  dy[11] = perTransverse * (w[Slot.Load + 4] + coupling * wx - growth * wy);
  dy[12] = (w[Slot.Load + 5] - opening * craft.addedAxial * wz) / axial;

  const { gyroBias, gyroScale, gyroRange } = craft;
  const gx = gyroReading(wx, gyroScale, gyroBias[0], gyroRange);
  const gy = gyroReading(wy, gyroScale, gyroBias[1], gyroRange);
  const gz = gyroReading(wz, gyroScale, gyroBias[2], gyroRange);
  w[Slot.Gyro] = gx;
  w[Slot.Gyro + 1] = gy;
  w[Slot.Gyro + 2] = gz;
  const px = y[13];
  const py = y[14];
  const pz = y[15];
  const force = Math.sqrt(fx * fx + fy * fy + fz * fz);
  const weight = referenceWeight(force) * craft.perReferenceTime;
  const toForce = weight > 0 ? weight / force : 0;
  const horizon = s.upright ? 1 / HORIZON_TIME : 0;
  const decay = weight + horizon;
  dy[13] = gz * py - gy * pz + toForce * fx + horizon * r31 - decay * px;
  dy[14] = gx * pz - gz * px + toForce * fy + horizon * r32 - decay * py;
  dy[15] = gy * px - gx * py + toForce * fz + horizon * r33 - decay * pz;
}

/**
 * From pilot to motors: the hand on the throttle with its lag and the collective that it gives, the hand on the tilt, attitude
 * loop, rate loop and mixer; the motors follow with their lag. Rates of the rotors, the pack and the hand.
 */
function steer(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  const { stick } = s;
  const allThrust = 4 * Math.max(w[Slot.FullThrust], LEAST_THRUST);
  const up = y[15];
  dy[20] = w[Slot.Current];
  dy[21] = 0;
  w[Slot.Collective] = 1;
  w[Slot.Wanted] = y[13];
  w[Slot.Wanted + 1] = y[14];
  w[Slot.Wanted + 2] = up;
  if (s.approaching) {
    const hand = y[21];
    w[Slot.Collective] = (craft.mass * (GRAVITY + hand)) / (allThrust * Math.max(up, LEAST_COSINE));
    if (stick === 'live') {
      const { touchdownSpeed, approachSpeed, homing, responseTime } = craft;
      const sink = wantedDescent(y[2], approachSpeed, touchdownSpeed, homing.flareHeight);
      const f = w[Slot.Time] * PER_GUST_STEP - s.node;
      const unsteady = s.handFrom + f * (s.handTo - s.handFrom);
      dy[21] = (wantedLift(-y[5] - sink, responseTime, unsteady) - hand) / responseTime;
      wantedTilt(w, homing, y, yawAllowance(y[12]));
    } else if (stick === 'itself') {
      const { approachSpeed, responseTime } = craft;
      dy[21] = (wantedLift(-y[5] - approachSpeed, responseTime, 0) - hand) / responseTime;
    }
    if (stick !== 'itself') {
      const te = w[Slot.Tilt];
      const tn = w[Slot.Tilt + 1];
      w[Slot.Wanted] = w[Slot.Wanted] + w[Slot.Rotation] * te + w[Slot.Rotation + 3] * tn;
      w[Slot.Wanted + 1] = w[Slot.Wanted + 1] + w[Slot.Rotation + 1] * te + w[Slot.Rotation + 4] * tn;
      w[Slot.Wanted + 2] = w[Slot.Wanted + 2] + w[Slot.Rotation + 2] * te + w[Slot.Rotation + 5] * tn;
    }
  }
  wantedRates(w, craft.attitudeGain, craft.largestRate);
  const gain = craft.rateGain / allThrust;
  const perMoment = gain * w[Slot.Inertia + 1] * craft.perArmX;
  w[Slot.Roll] = perMoment * (w[Slot.Wanted] - w[Slot.Gyro]);
  w[Slot.Pitch] = perMoment * (w[Slot.Wanted + 1] - w[Slot.Gyro + 1]);
  w[Slot.Yaw] = -gain * w[Slot.Inertia] * w[Slot.Gyro + 2] * craft.perTorqueArm;
  mixRotors(w);
  const { runs, perMotorLag: perLag } = craft;
  dy[16] = perLag * (runs[0] * w[Slot.Command] - y[16]);
  dy[17] = perLag * (runs[1] * w[Slot.Command + 1] - y[17]);
  dy[18] = perLag * (runs[2] * w[Slot.Command + 2] - y[18]);
  dy[19] = perLag * (runs[3] * w[Slot.Command + 3] - y[19]);
}
