/**
 * The equations of motion: the rate of change of the state with the motors off (`fallRates`) and on (`poweredRates`).
 *
 *   dr/dt = v                       m dv/dt = R F - m g z
 *   dq/dt = q (0, w)/2              I dw/dt = M - w x (I w) - (dI/dt) w
 *
 * F and M are the sums of the effects in sim/model, each of which adds its own to Force and Moment. The letters are those
 * of sim/MODEL.md. The parts keep their numbers in locals and hand them on through the scratch array
 * (sim/model/scratch.ts); each says what it reads and writes there.
 */
import { GUST_STEP } from '../draws/draw.js';
import { airLoad } from '../model/airframe.js';
import { densityAt, GRAVITY } from '../model/atmosphere.js';
import { gyroReading, HORIZON_TIME, referenceWeight } from '../model/attitude.js';
import { canopyPull, filled } from '../model/parachute.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import type { Craft } from './craft.js';
import { spreadArms, swingArms } from './hinges.js';
import { canopyPulls } from './phase.js';
import type { Situation } from './situation.js';
import { steer } from './steering.js';
import { addThrust, spinRotors } from './thrust.js';

const PER_GUST_STEP = 1 / GUST_STEP;

/** dy of r, v, q, w and p with the motors off, and while arms move of all states. */
export function fallRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  if (s.arms === 'opening') {
    openingRates(craft, s, y, dy);
    return;
  }
  const w = s.scratch;
  rotate(w, y);
  meetStream(craft, s, y);
  airLoad(w, craft.airframe, s.stoppedAreas, 0);
  if (canopyPulls(s.phase)) addCanopy(craft, s);
  move(craft, s, y, dy);
}

/** The same while arms open. A function of its own, because the fall is quicker without it. */
function openingRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  rotate(w, y);
  meetStream(craft, s, y);
  spreadArms(craft, s, y);
  airLoad(w, craft.airframe, s.stoppedAreas, 0);
  if (canopyPulls(s.phase)) addCanopy(craft, s);
  swingArms(craft, s, y, dy);
  move(craft, s, y, dy);
}

/** dy of r to z with the motors on. */
export function poweredRates(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  rotate(w, y);
  meetStream(craft, s, y);
  spinRotors(craft, s, y);
  airLoad(w, craft.airframe, s.areas, craft.washShare);
  addThrust(craft, w);
  move(craft, s, y, dy);
  steer(craft, s, y, dy);
}

/** R, the rotation matrix of the quaternion q. Reads Attitude of y; writes EastX to UpZ. */
function rotate(w: Float64Array, y: Float64Array): void {
  const qw = y[State.AttitudeW];
  const qx = y[State.AttitudeX];
  const qy = y[State.AttitudeY];
  const qz = y[State.AttitudeZ];
  w[Slot.EastX] = 1 - 2 * (qy * qy + qz * qz);
  w[Slot.EastY] = 2 * (qx * qy - qw * qz);
  w[Slot.EastZ] = 2 * (qx * qz + qw * qy);
  w[Slot.NorthX] = 2 * (qx * qy + qw * qz);
  w[Slot.NorthY] = 1 - 2 * (qx * qx + qz * qz);
  w[Slot.NorthZ] = 2 * (qy * qz - qw * qx);
  w[Slot.UpX] = 2 * (qx * qz - qw * qy);
  w[Slot.UpY] = 2 * (qy * qz + qw * qx);
  w[Slot.UpZ] = 1 - 2 * (qx * qx + qy * qy);
}

/**
 * u = R^T (v - wind), the stream that the can meets, and rho there.
 *
 * Reads Time, Wind, WindChange and EastX to UpZ, and Height, v and w of y; writes Density, Air and Turn.
 */
function meetStream(craft: Craft, s: Situation, y: Float64Array): void {
  const w = s.scratch;
  const t = w[Slot.Time];
  const f = t * PER_GUST_STEP - s.node;
  const east = y[State.EastSpeed] - w[Slot.WindEast] - f * w[Slot.WindChangeEast];
  const north = y[State.NorthSpeed] - w[Slot.WindNorth] - f * w[Slot.WindChangeNorth];
  const up = y[State.UpSpeed] - w[Slot.WindUp] - f * w[Slot.WindChangeUp];
  w[Slot.AirX] = w[Slot.EastX] * east + w[Slot.NorthX] * north + w[Slot.UpX] * up;
  w[Slot.AirY] = w[Slot.EastY] * east + w[Slot.NorthY] * north + w[Slot.UpY] * up;
  w[Slot.AirZ] = w[Slot.EastZ] * east + w[Slot.NorthZ] * north + w[Slot.UpZ] * up;
  w[Slot.Density] = densityAt(craft.density, y[State.Height]);
  w[Slot.TurnX] = y[State.TurnX];
  w[Slot.TurnY] = y[State.TurnY];
  w[Slot.TurnZ] = y[State.TurnZ];
}

/**
 * Pull of the canopy at the top of the can, h = zm + L/2, along the stream there.
 *
 * Reads Time, Density, Air, Turn and UpX to UpZ; adds to Force and Moment, writes Pull.
 */
function addCanopy(craft: Craft, s: Situation): void {
  const w = s.scratch;
  const h = craft.airframe.middle + 0.5 * craft.airframe.length;
  const vx = w[Slot.AirX] + w[Slot.TurnY] * h;
  const vy = w[Slot.AirY] - w[Slot.TurnX] * h;
  const vz = w[Slot.AirZ];
  const speed = Math.sqrt(vx * vx + vy * vy + vz * vz);
  const perSpeed = speed > 0 ? 1 / speed : 0;
  const weight = craft.mass * GRAVITY;
  const fx = w[Slot.ForceX] - weight * w[Slot.UpX];
  const fy = w[Slot.ForceY] - weight * w[Slot.UpY];
  const fz = w[Slot.ForceZ] - weight * w[Slot.UpZ];
  const along = perSpeed * (fx * vx + fy * vy + fz * vz);
  const fill = s.phase === 'filling' ? s.fillTime : Number.POSITIVE_INFINITY;
  const tau = s.phase === 'filling' ? filled(w[Slot.Time] - s.phaseBegan, fill) : 1;
  const rho = w[Slot.Density];
  const full = 0.5 * rho * craft.canopyDragArea;
  const pull = canopyPull(tau, fill, full, rho * craft.carriedVolume, speed, along, craft.mass);
  const scale = -pull * perSpeed;
  w[Slot.ForceX] = w[Slot.ForceX] + scale * vx;
  w[Slot.ForceY] = w[Slot.ForceY] + scale * vy;
  w[Slot.ForceZ] = w[Slot.ForceZ] + scale * vz;
  w[Slot.MomentX] = w[Slot.MomentX] - h * scale * vy;
  w[Slot.MomentY] = w[Slot.MomentY] + h * scale * vx;
  w[Slot.Pull] = pull;
}

/**
 * Rates of r, v, q, w and p: Newton and Euler with F and M, the inertia growing while the arms open, and the stabiliser's
 * estimate of "up" (sim/model/attitude.ts), which goes by the gyro, by the specific force and by the pilot's horizon.
 *
 * Reads Force, Moment, EastX to UpZ, Openness and Opening, and v, q, w and p of y; writes Gyro, and dy.
 */
function move(craft: Craft, s: Situation, y: Float64Array, dy: Float64Array): void {
  const w = s.scratch;
  // dr/dt = v,  dv/dt = R F/m - g z.
  const { perMass } = craft;
  const forceX = w[Slot.ForceX];
  const forceY = w[Slot.ForceY];
  const forceZ = w[Slot.ForceZ];
  const fx = perMass * forceX;
  const fy = perMass * forceY;
  const fz = perMass * forceZ;
  const upX = w[Slot.UpX];
  const upY = w[Slot.UpY];
  const upZ = w[Slot.UpZ];
  dy[State.East] = y[State.EastSpeed];
  dy[State.North] = y[State.NorthSpeed];
  dy[State.Height] = y[State.UpSpeed];
  dy[State.EastSpeed] = w[Slot.EastX] * fx + w[Slot.EastY] * fy + w[Slot.EastZ] * fz;
  dy[State.NorthSpeed] = w[Slot.NorthX] * fx + w[Slot.NorthY] * fy + w[Slot.NorthZ] * fz;
  dy[State.UpSpeed] = upX * fx + upY * fy + upZ * fz - GRAVITY;

  // dq/dt = q (0, w)/2.
  const qw = y[State.AttitudeW];
  const qx = y[State.AttitudeX];
  const qy = y[State.AttitudeY];
  const qz = y[State.AttitudeZ];
  const wx = y[State.TurnX];
  const wy = y[State.TurnY];
  const wz = y[State.TurnZ];
  dy[State.AttitudeW] = -0.5 * (qx * wx + qy * wy + qz * wz);
  dy[State.AttitudeX] = 0.5 * (qw * wx + qy * wz - qz * wy);
  dy[State.AttitudeY] = 0.5 * (qw * wy + qz * wx - qx * wz);
  dy[State.AttitudeZ] = 0.5 * (qw * wz + qx * wy - qy * wx);

  // I dw/dt = M - w x (I w) - (dI/dt) w,  I = diag(It, It, Ia),  M = M_O - d x F.
  const { centreX, centreY } = craft;
  const momentX = w[Slot.MomentX] - centreY * forceZ;
  const momentY = w[Slot.MomentY] + centreX * forceZ;
  const momentZ = w[Slot.MomentZ] - (centreX * forceY - centreY * forceX);
  const open = w[Slot.Openness];
  const opening = w[Slot.Opening];
  const axial = craft.foldedAxial + open * craft.addedAxial;
  const transverse = craft.foldedTransverse + open * craft.addedTransverse;
  const growth = opening * craft.addedTransverse;
  const coupling = (axial - transverse) * wz;
  const perTransverse = 1 / transverse;
  dy[State.TurnX] = perTransverse * (momentX - coupling * wy - growth * wx);
  dy[State.TurnY] = perTransverse * (momentY + coupling * wx - growth * wy);
  dy[State.TurnZ] = (momentZ - opening * craft.addedAxial * wz) / axial;

  // dp/dt = -w_m x p + W(|f|) (f/|f| - p)/reference_time + H (R^T z - p)/(1 s),  f = F/m.
  const { gyroBias, gyroScale, gyroRange } = craft;
  const gx = gyroReading(wx, gyroScale, gyroBias[0], gyroRange);
  const gy = gyroReading(wy, gyroScale, gyroBias[1], gyroRange);
  const gz = gyroReading(wz, gyroScale, gyroBias[2], gyroRange);
  w[Slot.GyroX] = gx;
  w[Slot.GyroY] = gy;
  w[Slot.GyroZ] = gz;
  const px = y[State.EstimateX];
  const py = y[State.EstimateY];
  const pz = y[State.EstimateZ];
  const force = Math.sqrt(fx * fx + fy * fy + fz * fz);
  const weight = referenceWeight(force, craft.referenceGate) * craft.perReferenceTime;
  const toForce = weight > 0 ? weight / force : 0;
  const horizon = s.stance === 'upright' ? 1 / HORIZON_TIME : 0;
  const decay = weight + horizon;
  dy[State.EstimateX] = gz * py - gy * pz + toForce * fx + horizon * upX - decay * px;
  dy[State.EstimateY] = gx * pz - gz * px + toForce * fy + horizon * upY - decay * py;
  dy[State.EstimateZ] = gy * px - gx * py + toForce * fz + horizon * upZ - decay * pz;
}
