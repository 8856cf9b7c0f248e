/**
 * The running rotors: each gives a share of its full static thrust, the pack sags under their power, and their forces act on
 * the craft. Everything here is true; steering.ts works out what the controller believes of its thrust.
 */
import { loadedVoltage } from '../model/battery.js';
import {
  axialThrustShare,
  fullThrust,
  inducedSpeedRatio,
  inflowPowerFactor,
  RING_BEGIN,
  RING_END,
  voltageRoot,
} from '../model/rotors.js';
import { Slot } from '../model/scratch.js';
import { State } from '../model/state.js';
import { followRing } from './air.js';
import type { Craft } from './craft.js';
import type { Situation } from './situation.js';

/** Thrust fraction under which a rotor's inflow does not matter. */
const LEAST_FRACTION = 1e-6;

/**
 * T_i/T of each rotor at its own axial speed V_c, and the pack under the power of all: J from the sum of
 * P_i = P0 (0.4 + 0.6 max(0, X + n) + stall), V from J and E. Induced speed v_h and zero-thrust speed V0 are those at the voltage of
 * the step's start.
 *
 * The fluctuation in the vortex ring is worked out for an interval of the clock when the first rotor meets the ring in it.
 *
 * Reads Density, Air, Turn, OpenCircuit and StepVoltage, and c of y; writes Axial, Wash, Share, Voltage, VoltageRoot and Current.
 */
export function spinRotors(craft: Craft, s: Situation, y: Float64Array): void {
  const w = s.scratch;
  const { driven, ring } = s;
  const { ringDepth, ringFluctuation, windmillPower } = craft;
  // V_c, the axial part of u_i = u + w x P_i.
  const a = craft.airframe.armX;
  const ax = w[Slot.TurnX] * a;
  const ay = w[Slot.TurnY] * a;
  const uz = w[Slot.AirZ];
  w[Slot.Axial1] = uz + ax - ay;
  w[Slot.Axial2] = uz + ax + ay;
  w[Slot.Axial3] = uz - ax + ay;
  w[Slot.Axial4] = uz - ax - ay;
  const before = w[Slot.StepVoltage] + w[Slot.VoltageRate] * (w[Slot.Time] - w[Slot.StepVoltageTime]);
  const induced = craft.inducedConstant * voltageRoot(before * craft.perBenchVoltage, craft.voltageExponent);
  const perZeroThrust = 1 / (craft.zeroThrustConstant * before);
  let power = 0;
  for (let i = 0; i < 4; i += 1) {
    const c = y[State.Thrust1 + i];
    const v = w[Slot.Axial1 + i];
    if (c > LEAST_FRACTION) {
      const root = Math.sqrt(c);
      const hover = root * induced;
      const x = v / hover;
      const ratio = inducedSpeedRatio(x);
      w[Slot.Wash1 + i] = ratio * hover;
      if (x < -RING_BEGIN && x > -RING_END && s.ringNode < s.node) followRing(craft, s);
      power += c * root * inflowPowerFactor(x, ratio, windmillPower);
      w[Slot.Share1 + i] = axialThrustShare(root, x, v * perZeroThrust, ringDepth, ringFluctuation * ring[i]);
    } else {
      w[Slot.Wash1 + i] = 0;
      w[Slot.Share1 + i] = v > 0 && driven[i] > 0 ? axialThrustShare(0, 0, v * perZeroThrust, 0, 0) : 0;
    }
  }
  const constant = craft.powerConstant * w[Slot.Density] * power;
  const voltage = loadedVoltage(w[Slot.OpenCircuit], craft.resistance, constant, craft.standbyCurrent);
  w[Slot.Voltage] = voltage;
  w[Slot.VoltageRoot] = voltageRoot(voltage * craft.perBenchVoltage, craft.voltageExponent);
  w[Slot.Current] = constant * voltage * voltage + craft.standbyCurrent;
}

/**
 * F and M of the thrust T_i of each rotor, with its own factor; its induced speed and its power stay those of the common law: P_i x (0, 0, T_i), and a twist of torque_arm T_i about z with the signs +, -, +, -
 * (the signs of places and twists are those of sim/model/rotors.ts, written out).
 *
 * Reads Density, VoltageRoot and Share; adds to Force and Moment.
 */
export function addThrust(craft: Craft, w: Float64Array): void {
  const full = fullThrust(craft.thrustConstant, w[Slot.Density], w[Slot.VoltageRoot]);
  const { ownThrust } = craft;
  const t1 = ownThrust[0] * w[Slot.Share1];
  const t2 = ownThrust[1] * w[Slot.Share2];
  const t3 = ownThrust[2] * w[Slot.Share3];
  const t4 = ownThrust[3] * w[Slot.Share4];
  const arm = full * craft.airframe.armX;
  w[Slot.ForceZ] = w[Slot.ForceZ] + full * (t1 + t2 + t3 + t4);
  w[Slot.MomentX] = w[Slot.MomentX] + arm * (t1 + t2 - t3 - t4);
  w[Slot.MomentY] = w[Slot.MomentY] - arm * (t1 - t2 - t3 + t4);
  w[Slot.MomentZ] = w[Slot.MomentZ] + full * craft.torqueArm * (t1 - t2 + t3 - t4);
}
