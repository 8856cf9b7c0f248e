/**
 * The equations of motion: the rate of change of the state with the motors off (`fallRates`) and on (`poweredRates`).
 *
 *   dr/dt = v,   m dv/dt = R F - m g z,   dq/dt = q (0, w)/2,   I dw/dt = M - w x (I w) - (dI/dt) w,
 * F and M the sums of the effects in sim/model, R from body to inertial axes, I symmetric about the can's axis.
 *
 * The parts hand numbers on in the arrays of `Situation`, not as arguments or results: a number that crosses a call that
 * the engine does not inline is boxed, which made this four times slower.
 */
import { GUST_STEP } from '../draws/draw.js';
import { AIRSPEED, addArmsDrag, addAxisDrag, addCanLoad, DENSITY, OPENNESS, TURN } from '../model/airframe.js';
import { wantedDescent, wantedLift, wantedTilt, yawAllowance } from '../model/approach.js';
import { openness, opennessSlope } from '../model/arms.js';
import { densityAt, GRAVITY } from '../model/atmosphere.js';
import {
  COLLECTIVE,
  gyroReading,
  HORIZON_TIME,
  mixRotors,
  PITCH,
  ROLL,
  referenceWeight,
  wantedRates,
  YAW,
} from '../model/attitude.js';
import { loadedVoltage } from '../model/battery.js';
import { filling } from '../model/parachute.js';
import { axialThrustShare, inflowPowerFactor, voltageRoot } from '../model/rotors.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';
import { CURRENT, INDUCED, OPEN_CIRCUIT, POWER, STEP_VOLTAGE, VOLTAGE, ZERO_THRUST } from './state.js';

/** Rates of change of state y at time s.clock[0], written to dy. */
export type Rates = (craft: Craft, s: Situation, y: Float64Array, dy: Float64Array) => void;

/** Cosine under which the collective is no longer raised for tilt. */
const LEAST_COSINE = 0.7;
/** Thrust fraction under which a rotor's inflow does not matter. */
const LEAST_FRACTION = 1e-6;

const PER_GUST_STEP = 1 / GUST_STEP;

export function fallRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  meetStream(craft, s, y);
  addCanLoad(s.load, craft.airframe, s.stream);
  addArms(craft, s, craft.stoppedAreas);
  addCanopy(craft, s);
  accelerate(craft, s, y, dy);
  turn(craft, s, y, dy);
  estimate(craft, s, y, dy);
}

export function poweredRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  meetStream(craft, s, y);
  addCanLoad(s.load, craft.airframe, s.stream);
  addArms(craft, s, craft.runningAreas);
  addRotors(craft, s, y);
  accelerate(craft, s, y, dy);
  turn(craft, s, y, dy);
  estimate(craft, s, y, dy);
  dy[20] = s.electric[CURRENT] as number;
  dy[21] = 0;
  s.demand[COLLECTIVE] = 1;
  s.wanted[0] = y[13] as number;
  s.wanted[1] = y[14] as number;
  s.wanted[2] = y[15] as number;
  if (s.approaching) {
    holdDescent(craft, s, y, dy);
    tiltHome(craft, s, y);
  }
  orderThrust(craft, s, y, dy);
}

/** Rotation matrix (body to inertial) into s.rotation, the stream that the can meets into s.stream; clears the load. */
function meetStream(craft: Craft, s: Situation, y: Float64Array): void {
  const qw = y[6] as number;
  const qx = y[7] as number;
  const qy = y[8] as number;
  const qz = y[9] as number;
  const r = s.rotation;
  const r11 = 1 - 2 * (qy * qy + qz * qz);
  const r12 = 2 * (qx * qy - qw * qz);
  const r13 = 2 * (qx * qz + qw * qy);
  const r21 = 2 * (qx * qy + qw * qz);
  const r22 = 1 - 2 * (qx * qx + qz * qz);
  const r23 = 2 * (qy * qz - qw * qx);
  const r31 = 2 * (qx * qz - qw * qy);
  const r32 = 2 * (qy * qz + qw * qx);
  const r33 = 1 - 2 * (qx * qx + qy * qy);
  r[0] = r11;
  r[1] = r12;
  r[2] = r13;
  r[3] = r21;
  r[4] = r22;
  r[5] = r23;
  r[6] = r31;
  r[7] = r32;
  r[8] = r33;

  const t = s.clock[0] as number;
  const f = t * PER_GUST_STEP - s.node;
  const from = s.windFrom;
  const to = s.windTo;
  const ae = (y[3] as number) - (from[0] as number) - f * ((to[0] as number) - (from[0] as number));
  const an = (y[4] as number) - (from[1] as number) - f * ((to[1] as number) - (from[1] as number));
  const az = (y[5] as number) - (from[2] as number) - f * ((to[2] as number) - (from[2] as number));
  const stream = s.stream;
  stream[DENSITY] = densityAt(craft.density, y[2] as number);
  stream[AIRSPEED] = r11 * ae + r21 * an + r31 * az;
  stream[AIRSPEED + 1] = r12 * ae + r22 * an + r32 * az;
  stream[AIRSPEED + 2] = r13 * ae + r23 * an + r33 * az;
  stream[TURN] = y[10] as number;
  stream[TURN + 1] = y[11] as number;
  stream[TURN + 2] = y[12] as number;
  stream[OPENNESS] = craft.released ? openness((t - s.releaseTime) / craft.openingTime) : 0;
  const load = s.load;
  load[0] = 0;
  load[1] = 0;
  load[2] = 0;
  load[3] = 0;
  load[4] = 0;
  load[5] = 0;
}

/** Drag of arms, motors and stopped blades, as far as they are open. */
function addArms(craft: Craft, s: Situation, areas: Float64Array): void {
  if ((s.stream[OPENNESS] as number) > 0) addArmsDrag(s.load, areas, craft.armX, craft.armHeight, s.stream, s.axial);
}

/** Pull of the filling canopy at the top of the can. */
function addCanopy(craft: Craft, s: Situation): void {
  const time = s.clock[0] as number;
  if (time < s.firedAt || s.torn) return;
  const { middle, length } = craft.airframe;
  const area = craft.canopyDragArea * filling(time - s.firedAt, s.fillTime);
  s.pull = addAxisDrag(s.load, area, middle + length / 2, s.stream);
}

/** Root of the thrust ratio at a voltage: thrust goes with its square, induced speed with itself. */
function rootAt(craft: Craft, voltage: number): number {
  return voltageRoot(voltage * craft.perBenchVoltage, craft.voltageExponent);
}

/** Climb ratio, thrust share and power of one rotor into s.share[i] and the running sum s.electric[POWER]. */
function turnRotor(craft: Craft, s: Situation, c: number, i: number): void {
  const { axial, share, electric } = s;
  const v = axial[i] as number;
  if (c <= LEAST_FRACTION) {
    const climb = v > 0 && (craft.runs[i] as number) > 0 ? v / (electric[ZERO_THRUST] as number) : 0;
    share[i] = axialThrustShare(0, 0, climb, 0);
    return;
  }
  const root = Math.sqrt(c);
  const x = v / (root * (electric[INDUCED] as number));
  electric[POWER] = (electric[POWER] as number) + c * root * inflowPowerFactor(x);
  share[i] = axialThrustShare(root, x, v / (electric[ZERO_THRUST] as number), craft.ringDepth);
}

/**
 * Thrust of the running rotors, their moments and twist, and the pack under their power. Induced and zero-thrust speeds go
 * with the voltage at the step's start.
 */
function addRotors(craft: Craft, s: Situation, y: Float64Array): void {
  const { share, electric, load } = s;
  const rho = s.stream[DENSITY] as number;
  const before = rootAt(craft, electric[STEP_VOLTAGE] as number);
  electric[INDUCED] = craft.inducedConstant * before;
  electric[ZERO_THRUST] = craft.zeroThrustConstant * (electric[STEP_VOLTAGE] as number);
  electric[POWER] = 0;
  turnRotor(craft, s, y[16] as number, 0);
  turnRotor(craft, s, y[17] as number, 1);
  turnRotor(craft, s, y[18] as number, 2);
  turnRotor(craft, s, y[19] as number, 3);
  const constant = craft.powerConstant * rho * (electric[POWER] as number);
  const voltage = loadedVoltage(electric[OPEN_CIRCUIT] as number, craft.resistance, constant, craft.standbyCurrent);
  electric[VOLTAGE] = voltage;
  electric[CURRENT] = constant * voltage * voltage + craft.standbyCurrent;
  const root = rootAt(craft, voltage);
  const full = craft.thrustConstant * rho * root * root;
  const t1 = share[0] as number;
  const t2 = share[1] as number;
  const t3 = share[2] as number;
  const t4 = share[3] as number;
  // Signs of the rotor centres and twists as in sim/model/rotors.ts.
  const arm = full * craft.armX;
  load[2] = (load[2] as number) + full * (t1 + t2 + t3 + t4);
  load[3] = (load[3] as number) + arm * (t1 + t2 - t3 - t4);
  load[4] = (load[4] as number) - arm * (t1 - t2 - t3 + t4);
  load[5] = (load[5] as number) + full * craft.torqueArm * (t1 - t2 + t3 - t4);
}

/** Newton: position and velocity; keeps the size of the specific force in s.specific. */
function accelerate(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const { rotation: r, load, specific } = s;
  const perMass = 1 / craft.mass;
  const fx = perMass * (load[0] as number);
  const fy = perMass * (load[1] as number);
  const fz = perMass * (load[2] as number);
  specific[0] = fx;
  specific[1] = fy;
  specific[2] = fz;
  dy[0] = y[3] as number;
  dy[1] = y[4] as number;
  dy[2] = y[5] as number;
  dy[3] = (r[0] as number) * fx + (r[1] as number) * fy + (r[2] as number) * fz;
  dy[4] = (r[3] as number) * fx + (r[4] as number) * fy + (r[5] as number) * fz;
  dy[5] = (r[6] as number) * fx + (r[7] as number) * fy + (r[8] as number) * fz - GRAVITY;
}

/** Euler: attitude and turning rate, with the inertia growing while the arms open. */
function turn(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const qw = y[6] as number;
  const qx = y[7] as number;
  const qy = y[8] as number;
  const qz = y[9] as number;
  const wx = y[10] as number;
  const wy = y[11] as number;
  const wz = y[12] as number;
  dy[6] = -0.5 * (qx * wx + qy * wy + qz * wz);
  dy[7] = 0.5 * (qw * wx + qy * wz - qz * wy);
  dy[8] = 0.5 * (qw * wy + qz * wx - qx * wz);
  dy[9] = 0.5 * (qw * wz + qx * wy - qy * wx);
  const load = s.load;
  const open = s.stream[OPENNESS] as number;
  const axial = craft.foldedAxial + open * craft.addedAxial;
  const transverse = craft.foldedTransverse + open * craft.addedTransverse;
  const growth =
    open > 0 && open < 1
      ? opennessSlope(((s.clock[0] as number) - s.releaseTime) / craft.openingTime) / craft.openingTime
      : 0;
  const growthTransverse = growth * craft.addedTransverse;
  const coupling = (axial - transverse) * wz;
  s.inertia[0] = axial;
  s.inertia[1] = transverse;
  dy[10] = ((load[3] as number) - coupling * wy - growthTransverse * wx) / transverse;
  dy[11] = ((load[4] as number) + coupling * wx - growthTransverse * wy) / transverse;
  dy[12] = ((load[5] as number) - growth * craft.addedAxial * wz) / axial;
}

/** The stabiliser's estimate of "up" (see sim/model/attitude.ts); keeps the gyro's readings in s.gyro. */
function estimate(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const { gyroBias, gyroScale, gyroRange } = craft;
  const { rotation: r, specific, gyro } = s;
  const gx = gyroReading(y[10] as number, gyroScale, gyroBias[0] as number, gyroRange);
  const gy = gyroReading(y[11] as number, gyroScale, gyroBias[1] as number, gyroRange);
  const gz = gyroReading(y[12] as number, gyroScale, gyroBias[2] as number, gyroRange);
  gyro[0] = gx;
  gyro[1] = gy;
  gyro[2] = gz;
  const px = y[13] as number;
  const py = y[14] as number;
  const pz = y[15] as number;
  const fx = specific[0] as number;
  const fy = specific[1] as number;
  const fz = specific[2] as number;
  const force = Math.sqrt(fx * fx + fy * fy + fz * fz);
  const weight = referenceWeight(force) / craft.referenceTime;
  const toForce = weight > 0 ? weight / force : 0;
  const horizon = s.upright ? 1 / HORIZON_TIME : 0;
  const decay = weight + horizon;
  dy[13] = gz * py - gy * pz + toForce * fx + horizon * (r[6] as number) - decay * px;
  dy[14] = gx * pz - gz * px + toForce * fy + horizon * (r[7] as number) - decay * py;
  dy[15] = gy * px - gx * py + toForce * fz + horizon * (r[8] as number) - decay * pz;
}

/** The hand on the throttle: its lagging acceleration demand, and the collective that it gives. */
function holdDescent(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const hand = y[21] as number;
  const pz = y[15] as number;
  const cosine = Math.max(pz, LEAST_COSINE);
  s.demand[COLLECTIVE] = (craft.mass * (GRAVITY + hand)) / (4 * staticThrust(craft, s) * cosine);
  if (s.stick === 'held') return;
  const live = s.stick === 'live';
  const flare = live ? craft.homing.flareHeight : 0;
  const sink = wantedDescent(y[2] as number, craft.approachSpeed, craft.touchdownSpeed, flare);
  const f = (s.clock[0] as number) * PER_GUST_STEP - s.node;
  const unsteady = live ? s.handFrom + f * (s.handTo - s.handFrom) : 0;
  dy[21] = (wantedLift(-(y[5] as number) - sink, craft.responseTime, unsteady) - hand) / craft.responseTime;
}

/** The hand on the tilt: turns the wanted thrust direction towards where the pilot wants to go. */
function tiltHome(craft: Craft, s: Situation, y: Float64Array): void {
  if (s.stick === 'itself') return;
  const { tilt, wanted, rotation: r } = s;
  if (s.stick === 'live') {
    wantedTilt(tilt, craft.homing, y);
    const allowed = yawAllowance(y[12] as number);
    tilt[0] = allowed * (tilt[0] as number);
    tilt[1] = allowed * (tilt[1] as number);
  }
  const te = tilt[0] as number;
  const tn = tilt[1] as number;
  wanted[0] = (wanted[0] as number) + (r[0] as number) * te + (r[3] as number) * tn;
  wanted[1] = (wanted[1] as number) + (r[1] as number) * te + (r[4] as number) * tn;
  wanted[2] = (wanted[2] as number) + (r[2] as number) * te + (r[5] as number) * tn;
}

/** Attitude loop, rate loop and mixer; the motors follow with their lag. */
function orderThrust(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const { wanted, gyro, inertia, demand, command } = s;
  wantedRates(wanted, craft.attitudeGain, craft.largestRate);
  const gain = craft.rateGain / (4 * staticThrust(craft, s));
  const perMoment = gain * (inertia[1] as number) * craft.perArmX;
  demand[ROLL] = perMoment * ((wanted[0] as number) - (gyro[0] as number));
  demand[PITCH] = perMoment * ((wanted[1] as number) - (gyro[1] as number));
  demand[YAW] = -gain * (inertia[0] as number) * (gyro[2] as number) * craft.perTorqueArm;
  mixRotors(command, demand);
  const runs = craft.runs;
  const perLag = craft.perMotorLag;
  dy[16] = perLag * ((runs[0] as number) * (command[0] as number) - (y[16] as number));
  dy[17] = perLag * ((runs[1] as number) * (command[1] as number) - (y[17] as number));
  dy[18] = perLag * ((runs[2] as number) * (command[2] as number) - (y[18] as number));
  dy[19] = perLag * ((runs[3] as number) * (command[3] as number) - (y[19] as number));
}

/** Static thrust in N of one rotor at full throttle at the voltage just found; never none. */
function staticThrust(craft: Craft, s: Situation): number {
  const root = rootAt(craft, s.electric[VOLTAGE] as number);
  return Math.max(craft.thrustConstant * (s.stream[DENSITY] as number) * root * root, LEAST_THRUST);
}

/** Keeps commands finite with an empty pack, N. */
const LEAST_THRUST = 1e-6;
