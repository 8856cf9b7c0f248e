/**
 * The equations of motion: the rate of change of the state with the motors off (`fallRates`) and on (`poweredRates`).
 *
 *   dr/dt = v,   m dv/dt = R F - m g z,   dq/dt = q (0, w)/2,   I dw/dt = M - w x (I w) - (dI/dt) w,
 * F and M the sums of the effects in sim/model, R from body to inertial axes, I symmetric about the can's axis.
 */
import { GUST_STEP } from '../draws/draw.js';
import { addCanLoad, addPointDrag } from '../model/airframe.js';
import { wantedDescent, wantedLift, wantedTilt, yawAllowance } from '../model/approach.js';
import { openness, opennessSlope } from '../model/arms.js';
import { densityAt, GRAVITY } from '../model/atmosphere.js';
import { gyroReading, HORIZON_TIME, mixRotors, referenceWeight, wantedRates } from '../model/attitude.js';
import { loadedVoltage } from '../model/battery.js';
import { filling } from '../model/parachute.js';
import { axialThrust, hoverInducedSpeed, inflowPowerFactor, ROTOR_X, ROTOR_Y, TWIST, voltageThrustRatio } from '../model/rotors.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Rates of change of state y at time t, written to dy. */
export type Rates = (craft: Craft, s: Situation, t: number, y: Float64Array, dy: Float64Array) => void;

/** Cosine under which the collective is no longer raised for tilt. */
const LEAST_COSINE = 0.7;
/** Thrust fraction under which a rotor's inflow does not matter. */
const LEAST_FRACTION = 1e-6;

export function fallRates(craft: Craft, s: Situation, t: number, y: Float64Array, dy: Float64Array): void {
  move(craft, s, t, y, dy, false);
}

export function poweredRates(craft: Craft, s: Situation, t: number, y: Float64Array, dy: Float64Array): void {
  move(craft, s, t, y, dy, true);
}

function move(craft: Craft, s: Situation, t: number, y: Float64Array, dy: Float64Array, powered: boolean): void {
  const qw = y[6] as number;
  const qx = y[7] as number;
  const qy = y[8] as number;
  const qz = y[9] as number;
  const r11 = 1 - 2 * (qy * qy + qz * qz);
  const r12 = 2 * (qx * qy - qw * qz);
  const r13 = 2 * (qx * qz + qw * qy);
  const r21 = 2 * (qx * qy + qw * qz);
  const r22 = 1 - 2 * (qx * qx + qz * qz);
  const r23 = 2 * (qy * qz - qw * qx);
  const r31 = 2 * (qx * qz - qw * qy);
  const r32 = 2 * (qy * qz + qw * qx);
  const r33 = 1 - 2 * (qx * qx + qy * qy);

  // Velocity through the air, inertial and body axes.
  const f = t / GUST_STEP - s.node;
  const from = s.windFrom;
  const to = s.windTo;
  const ve = y[3] as number;
  const vn = y[4] as number;
  const vz = y[5] as number;
  const ae = ve - (from[0] as number) - f * ((to[0] as number) - (from[0] as number));
  const an = vn - (from[1] as number) - f * ((to[1] as number) - (from[1] as number));
  const az = vz - (from[2] as number) - f * ((to[2] as number) - (from[2] as number));
  const ux = r11 * ae + r21 * an + r31 * az;
  const uy = r12 * ae + r22 * an + r32 * az;
  const uz = r13 * ae + r23 * an + r33 * az;
  const wx = y[10] as number;
  const wy = y[11] as number;
  const wz = y[12] as number;
  const rho = densityAt(craft.density, y[2] as number);

  // Forces and moments in body axes.
  const load = s.load;
  load[0] = 0;
  load[1] = 0;
  load[2] = 0;
  load[3] = 0;
  load[4] = 0;
  load[5] = 0;
  const share = (t - s.releaseTime) / craft.openingTime;
  const open = craft.released ? openness(share) : 0;
  addCanLoad(load, craft.airframe, rho, ux, uy, uz, wx, wy, 1 - open);
  if (open > 0) addArmsDrag(load, craft, rho, open, ux, uy, uz, wx, wy, wz, powered, s.axial);
  if (s.firedAt <= t && !s.torn) addCanopyPull(load, craft, s, t, rho, ux, uy, uz, wx, wy);
  if (powered) addRotors(load, craft, s, rho, y);

  const fx = load[0] as number;
  const fy = load[1] as number;
  const fz = load[2] as number;
  const mass = craft.mass;
  dy[0] = ve;
  dy[1] = vn;
  dy[2] = vz;
  dy[3] = (r11 * fx + r12 * fy + r13 * fz) / mass;
  dy[4] = (r21 * fx + r22 * fy + r23 * fz) / mass;
  dy[5] = (r31 * fx + r32 * fy + r33 * fz) / mass - GRAVITY;
  dy[6] = -0.5 * (qx * wx + qy * wy + qz * wz);
  dy[7] = 0.5 * (qw * wx + qy * wz - qz * wy);
  dy[8] = 0.5 * (qw * wy + qz * wx - qx * wz);
  dy[9] = 0.5 * (qw * wz + qx * wy - qy * wx);

  // Euler's equations with the inertia growing while the arms open.
  const axial = craft.foldedAxial + open * craft.addedAxial;
  const transverse = craft.foldedTransverse + open * craft.addedTransverse;
  const growth = craft.released ? opennessSlope(share) / craft.openingTime : 0;
  const growthTransverse = growth * craft.addedTransverse;
  const coupling = (axial - transverse) * wz;
  dy[10] = ((load[3] as number) - coupling * wy - growthTransverse * wx) / transverse;
  dy[11] = ((load[4] as number) + coupling * wx - growthTransverse * wy) / transverse;
  dy[12] = ((load[5] as number) - growth * craft.addedAxial * wz) / axial;

  // The stabiliser's estimate of "up".
  const bias = craft.gyroBias;
  const gx = gyroReading(wx, craft.gyroScale, bias[0] as number, craft.gyroRange);
  const gy = gyroReading(wy, craft.gyroScale, bias[1] as number, craft.gyroRange);
  const gz = gyroReading(wz, craft.gyroScale, bias[2] as number, craft.gyroRange);
  const px = y[13] as number;
  const py = y[14] as number;
  const pz = y[15] as number;
  const force = Math.sqrt(fx * fx + fy * fy + fz * fz);
  const weight = force > 0 ? referenceWeight(force / mass) / craft.referenceTime : 0;
  const toForce = force > 0 ? weight / force : 0;
  const horizon = s.upright ? 1 / HORIZON_TIME : 0;
  const decay = weight + horizon;
  dy[13] = gz * py - gy * pz + toForce * fx + horizon * r31 - decay * px;
  dy[14] = gx * pz - gz * px + toForce * fy + horizon * r32 - decay * py;
  dy[15] = gy * px - gx * py + toForce * fz + horizon * r33 - decay * pz;
  if (!powered) return;

  // Pilot's hand and the stabiliser's orders.
  const fullThrust = craft.thrustConstant * rho * voltageThrustRatio(s.stepVoltage / craft.benchVoltage, craft.voltageExponent);
  let collective = 1;
  let tx = px;
  let ty = py;
  let tz = pz;
  dy[21] = 0;
  if (s.approaching) {
    const hand = y[21] as number;
    const cosine = pz > LEAST_COSINE ? pz : LEAST_COSINE;
    collective = (mass * (GRAVITY + hand)) / (4 * fullThrust * cosine);
    if (s.stick !== 'held') {
      const z = y[2] as number;
      const sink = wantedDescent(z, craft.approachSpeed, craft.touchdownSpeed, s.stick === 'live' ? craft.flareHeight : 0);
      const unsteady = s.stick === 'live' ? s.handFrom + f * (s.handTo - s.handFrom) : 0;
      dy[21] = (wantedLift(-vz - sink, craft.responseTime, unsteady) - hand) / craft.responseTime;
    }
    const tilt = s.tilt;
    if (s.stick === 'live') {
      wantedTilt(
        tilt, y[0] as number, y[1] as number, y[2] as number, ve, vn, craft.speedErrorEast, craft.speedErrorNorth,
        craft.groundSpeedLimit, craft.largestTangent, craft.flareHeight,
      );
      const allowed = yawAllowance(wz);
      tilt[0] = allowed * (tilt[0] as number);
      tilt[1] = allowed * (tilt[1] as number);
    }
    if (s.stick !== 'itself') {
      const te = tilt[0] as number;
      const tn = tilt[1] as number;
      tx += r11 * te + r21 * tn;
      ty += r12 * te + r22 * tn;
      tz += r13 * te + r23 * tn;
    }
  }
  wantedRates(s.rates, tx, ty, tz, craft.attitudeGain, craft.largestRate);
  const gain = craft.rateGain;
  const mx = transverse * gain * ((s.rates[0] as number) - gx);
  const my = transverse * gain * ((s.rates[1] as number) - gy);
  const mz = -axial * gain * gz;
  const perMoment = fullThrust > 0 ? 1 / (4 * craft.armX * fullThrust) : 0;
  const perTwist = fullThrust > 0 && craft.torqueArm > 0 ? 1 / (4 * craft.torqueArm * fullThrust) : 0;
  const command = s.command;
  mixRotors(command, mx * perMoment, my * perMoment, mz * perTwist, collective);
  const runs = craft.runs;
  for (let i = 0; i < 4; i += 1) {
    dy[16 + i] = ((runs[i] as number) * (command[i] as number) - (y[16 + i] as number)) / craft.motorLag;
  }
  dy[20] = s.current;
}

/** Drag of arms, motors and stopped blades at the rotor centres; leaves each rotor's axial speed in `axial`. */
function addArmsDrag(
  load: Float64Array,
  craft: Craft,
  rho: number,
  open: number,
  ux: number,
  uy: number,
  uz: number,
  wx: number,
  wy: number,
  wz: number,
  powered: boolean,
  axial: Float64Array,
): void {
  const h = craft.armHeight;
  for (let i = 0; i < 4; i += 1) {
    const x = craft.armX * (ROTOR_X[i] as number);
    const y = craft.armX * (ROTOR_Y[i] as number);
    const vz = uz + wx * y - wy * x;
    axial[i] = vz;
    const blades = powered && craft.runs[i] === 1 ? 0 : craft.bladeDragArea;
    const area = open * (craft.opens[i] as number) * (craft.armDragArea + blades);
    addPointDrag(load, rho, area, x, y, h, ux + wy * h - wz * y, uy + wz * x - wx * h, vz);
  }
}

/** Pull of the filling canopy at the top of the can. */
function addCanopyPull(
  load: Float64Array,
  craft: Craft,
  s: Situation,
  t: number,
  rho: number,
  ux: number,
  uy: number,
  uz: number,
  wx: number,
  wy: number,
): void {
  const top = craft.airframe.middle + craft.airframe.length / 2;
  const area = craft.canopyDragArea * filling(t - s.firedAt, s.fillTime);
  const vx = ux + wy * top;
  const vy = uy - wx * top;
  s.pull = 0.5 * rho * area * (vx * vx + vy * vy + uz * uz);
  addPointDrag(load, rho, area, 0, 0, top, vx, vy, uz);
}

/** Thrust, moments and twist of the running rotors; finds the pack's voltage and current. */
function addRotors(load: Float64Array, craft: Craft, s: Situation, rho: number, y: Float64Array): void {
  const perVoltage = voltageThrustRatio(s.stepVoltage / craft.benchVoltage, craft.voltageExponent);
  const atStep = craft.thrustConstant * rho * perVoltage;
  const axial = s.axial;
  // Power first: it sets the voltage, which sets the thrust. Induced speeds go with the voltage at the step's start.
  let draw = 0;
  for (let i = 0; i < 4; i += 1) {
    const c = y[16 + i] as number;
    if (c > LEAST_FRACTION) {
      const induced = hoverInducedSpeed(c * atStep, rho, craft.discArea);
      draw += c * Math.sqrt(c) * inflowPowerFactor((axial[i] as number) / induced);
    }
  }
  const constant = craft.powerConstant * rho * draw;
  const voltage = loadedVoltage(s.openCircuit, craft.resistance, constant, craft.standbyCurrent);
  s.voltage = voltage;
  s.current = constant * voltage * voltage + craft.standbyCurrent;
  const ratio = voltage / craft.benchVoltage;
  const full = craft.thrustConstant * rho * voltageThrustRatio(ratio, craft.voltageExponent);
  const zeroThrust = craft.zeroThrustSpeed * ratio;
  for (let i = 0; i < 4; i += 1) {
    const c = y[16 + i] as number;
    if (c > LEAST_FRACTION && full > 0) {
      const induced = hoverInducedSpeed(c * full, rho, craft.discArea);
      const thrust = axialThrust(full, c, axial[i] as number, induced, zeroThrust, craft.ringDepth);
      load[2] = (load[2] as number) + thrust;
      load[3] = (load[3] as number) + craft.armX * (ROTOR_Y[i] as number) * thrust;
      load[4] = (load[4] as number) - craft.armX * (ROTOR_X[i] as number) * thrust;
      load[5] = (load[5] as number) + (TWIST[i] as number) * craft.torqueArm * thrust;
    }
  }
}
