/**
 * Plausibility: figures that contradict each other, or lie beyond what such parts do. Each doubt has its two numbers. Doubts
 * find slips (a unit, a digit, a wrong line of a data sheet); they say nothing of the risk.
 */

import { discArea, idealHoverPower } from '../model/rotors.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import type { Scenario } from '../scenario/scenario.js';
import { type HandNumbers, handNumbers } from './hand-numbers.js';
import { lawDoubts } from './law-doubts.js';
import type { Doubt } from './result.js';

/** What such parts do; common practice, no source, and wide. */
const USUAL = {
  thrustToWeight: 5,
  /** m/s. */
  leastFallSpeed: 5,
  mostFallSpeed: 70,
  /** Hover current over the capacity in an hour, 1/h: a full pack lasts a minute. */
  hoverRate: 60,
  /** Share of the speed of sound. */
  tipMach: 0.8,
  /** Ideal over electrical power of a small rotor on the stand. */
  leastMerit: 0.1,
  mostMerit: 0.8,
} as const;

/**
 * Static thrust coefficient, T over rho n^2 D^4: a high value, so that the tip speed is a low one (0.138 for a 3 x 2 in
 * propeller, UIUC Propeller Database vol. 2).
 */
const HIGH_THRUST_COEFFICIENT = 0.15;

export interface Asked {
  readonly inputs: FlightInputs;
  /** False where the planned height is still to decide: what compares with it is left out. */
  readonly planned: boolean;
  readonly scenario: Scenario;
  /** What the file says without the changes of the command line. */
  readonly inFile: Scenario;
}

export function doubtsOf({ inputs, planned, scenario, inFile }: Asked): readonly Doubt[] {
  const hand = handNumbers(inputs);
  return [
    ...thrustDoubts(inputs, hand),
    ...powerDoubts(inputs, hand),
    ...(planned ? heightDoubts(inputs, hand) : []),
    ...fallDoubts(hand),
    ...lawDoubts(scenario, inFile),
  ];
}

function thrustDoubts({ rotors, site }: FlightInputs, { thrustToWeight }: HandNumbers): readonly Doubt[] {
  const tip = tipSpeed(rotors);
  const limit = USUAL.tipMach * speedOfSound(site.temperature);
  const ideal = idealHoverPower(rotors.bench_thrust, rotors.bench_density, discArea(rotors.diameter));
  const merit = ideal / rotors.bench_power;
  return [
    ...when(thrustToWeight > USUAL.thrustToWeight, {
      code: 'thrust to weight',
      found: thrustToWeight,
      bound: USUAL.thrustToWeight,
      unit: '',
      text: `Thrust is ${thrustToWeight.toFixed(2)} of the weight; over ${USUAL.thrustToWeight} is rare for a can.`,
      advice: 'Look at rotors.bench_thrust (of one rotor, not of four?) and can.mass, with their units.',
    }),
    ...when(tip > limit, {
      code: 'tip speed',
      found: tip,
      bound: limit,
      unit: 'm/s',
      text: `A propeller of this diameter needs a tip speed of at least ${tip.toFixed(0)} m/s for the thrust of the stand; small propellers stay under ${limit.toFixed(0)} m/s, ${USUAL.tipMach} of the speed of sound.`,
      advice: 'Look at rotors.diameter and rotors.bench_thrust, with their units.',
    }),
    ...when(merit > USUAL.mostMerit || merit < USUAL.leastMerit, {
      code: 'bench power',
      found: rotors.bench_power,
      bound: ideal,
      unit: 'W',
      text: `One rotor takes ${watts(rotors.bench_power)} on the stand; momentum theory needs ${watts(ideal)} for its thrust at the least, and small rotors take ${(1 / USUAL.mostMerit).toFixed(2)} to ${(1 / USUAL.leastMerit).toFixed(0)} times that.`,
      advice: 'Look at rotors.bench_power (of one rotor, not of four?), rotors.bench_thrust and rotors.diameter.',
    }),
  ];
}

function powerDoubts({ battery }: FlightInputs, hand: HandNumbers): readonly Doubt[] {
  const current = hand.hoverPower / hand.voltage;
  const limit = (USUAL.hoverRate * battery.capacity) / 3600;
  return [
    ...when(!(hand.voltage > battery.cut_off_voltage), {
      code: 'cut-off voltage',
      found: battery.cut_off_voltage,
      bound: hand.voltage,
      unit: 'V',
      text: `The motors are stopped under ${battery.cut_off_voltage.toFixed(2)} V, but the pack has ${hand.voltage.toFixed(2)} V at full throttle after the wait.`,
      advice: 'Look at battery.cut_off_voltage (of the pack, not of a cell?), battery.cells and battery.resistance.',
    }),
    ...when(current > limit, {
      code: 'hover current',
      found: current,
      bound: limit,
      unit: 'A',
      text: `Hovering takes ${amperes(current)}; such packs give up to ${amperes(limit)}, at which a full one is empty in a minute.`,
      advice: 'Look at rotors.bench_power, battery.capacity (mAh?) and can.mass.',
    }),
  ];
}

function heightDoubts({ plan, ejection }: FlightInputs, { lowestHeight }: HandNumbers): readonly Doubt[] {
  const planned = plan.throttle_up_height;
  return [
    ...when(ejection.height <= planned, {
      code: 'ejection height',
      found: ejection.height,
      bound: planned,
      unit: 'm',
      text: `Ejection is at ${ejection.height.toFixed(0)} m, not above the planned throttle-up height of ${planned.toFixed(0)} m.`,
      advice: 'Look at ejection.height and plan.throttle_up_height: both are heights above ground.',
    }),
    ...when(lowestHeight !== null && lowestHeight > planned, {
      code: 'stop',
      found: lowestHeight ?? 0,
      bound: planned,
      unit: 'm',
      text: `The order and the stop of one ordinary flight take ${(lowestHeight ?? 0).toFixed(0)} m by hand; the planned throttle-up height is ${planned.toFixed(0)} m.`,
      advice: 'It hits the ground under way to its stop: plan a greater height, or find more thrust or drag.',
    }),
  ];
}

function fallDoubts({ terminalSpeed }: HandNumbers): readonly Doubt[] {
  const { leastFallSpeed, mostFallSpeed } = USUAL;
  const bound = terminalSpeed < leastFallSpeed ? leastFallSpeed : mostFallSpeed;
  return when(terminalSpeed < leastFallSpeed || terminalSpeed > mostFallSpeed, {
    code: 'fall speed',
    found: terminalSpeed,
    bound,
    unit: 'm/s',
    text: `It falls at ${terminalSpeed.toFixed(1)} m/s; such cans fall at ${leastFallSpeed} to ${mostFallSpeed} m/s.`,
    advice: 'Look at can.mass, can.arm_drag_area, can.blade_drag_area and can.diameter, with their units.',
  });
}

/** Tip speed in m/s, pi n D with n of T = C_T rho n^2 D^4: pi sqrt(T/(C_T rho))/D. */
function tipSpeed({ bench_thrust, bench_density, diameter }: FlightInputs['rotors']): number {
  return (Math.PI * Math.sqrt(bench_thrust / (HIGH_THRUST_COEFFICIENT * bench_density))) / diameter;
}

/** Speed of sound in dry air, m/s, sqrt(gamma R T). */
function speedOfSound(temperature: number): number {
  return Math.sqrt(1.4 * 287.05 * temperature);
}

function watts(power: number): string {
  return `${Number(power.toPrecision(3))} W`;
}

function amperes(current: number): string {
  return `${Number(current.toPrecision(3))} A`;
}

function when(holds: boolean, doubt: Doubt): readonly Doubt[] {
  return holds ? [doubt] : [];
}
