/**
 * The hand calculation is everything that a pencil and the inputs at their medians can say before any flight is flown. It
 * knows momentum theory, a constant density and drag area, and Newton's law; no vortex ring, no tumble, no motor lag.
 */

import { endDragCoefficient, sideDragCoefficient, terminalSpeed } from '../model/airframe.js';
import { GRAVITY, siteDensity } from '../model/atmosphere.js';
import { readingSlope } from '../model/barometer.js';
import { COMMON_OPEN_CIRCUIT, coldResistanceFactor, loadedVoltage, openCircuitVoltage } from '../model/battery.js';
import { discArea, idealHoverPower } from '../model/rotors.js';
import type { FlightInputs } from '../scenario/definition/definition.js';

export interface HandNumbers {
  /** Air density at the ground of the site, kg/m3. */
  readonly density: number;
  /** Share of the capacity left after the wait on the pad. */
  readonly charge: number;
  /** Pack voltage at full throttle, V. */
  readonly voltage: number;
  readonly thrustToWeight: number;
  /** Steady fall speed as it falls when the order comes, m/s. */
  readonly terminalSpeed: number;
  /** True height when the cue for the planned height comes, m. */
  readonly cueHeight: number;
  /** Height lost from the cue to the order, m. */
  readonly delayHeight: number;
  /** Height lost from the order to the stop, m; null where the thrust does not exceed the weight. */
  readonly stoppingHeight: number | null;
  readonly stoppingTime: number | null;
  /** Lowest height to plan that leaves nothing to spare, m: its cue comes just high enough to stop at the ground. */
  readonly lowestHeight: number | null;
  readonly idealHoverPower: number;
  readonly hoverPower: number;
  /** Time in hover on the charge left after the wait, s. */
  readonly endurance: number;
  /** Wait on the pad after which the charge just lasts for one descent, s; null where nothing draws power. */
  readonly longestWait: number | null;
}

export function handNumbers(inputs: FlightInputs): HandNumbers {
  const { can, rotors, battery, site, pad, pilot, plan, arms } = inputs;
  const density = siteDensity(site, 0);
  const weight = can.mass * GRAVITY;
  const area = discArea(rotors.diameter);
  const airRatio = density / rotors.bench_density;

  const table = battery.open_circuit ?? COMMON_OPEN_CIRCUIT;
  const fullEnergy = battery.cells * openCircuitVoltage(table, 0.5) * battery.capacity;
  const used = (battery.standby_power * pad.wait) / fullEnergy;
  const charge = Math.max(0, battery.charge_at_arming - used);
  const powerConstant = (4 * rotors.bench_power * airRatio) / rotors.bench_voltage ** 3;
  const resistance = battery.resistance * coldResistanceFactor(site.temperature);
  const voltage = loadedVoltage(battery.cells * openCircuitVoltage(table, charge), resistance, powerConstant, 0);
  const voltageRatio = voltage / rotors.bench_voltage;
  const fullThrust =
    4 * rotors.bench_thrust * rotors.thrust_factor * airRatio * voltageRatio ** rotors.voltage_exponent;
  const thrustToWeight = fullThrust / weight;

  const fall = fallDragArea(inputs);
  const speed = terminalSpeed(can.mass, GRAVITY, density, arms.release === 'on the order' ? fall.folded : fall.open);
  const braked = terminalSpeed(can.mass, GRAVITY, density, fall.powered);
  const stop = poweredStop(speed, braked, thrustToWeight);
  const delayHeight = lostBeforeTheOrder(inputs, speed);
  const lowestHeight = stop === null ? null : plannedFor(inputs, speed, delayHeight + stop.height);

  const fullPower = 4 * rotors.bench_power * airRatio * voltageRatio ** 3;
  const hoverPower = fullPower * (weight / fullThrust) ** 1.5;
  const powered = (stop?.time ?? 0) + Math.max(0, plan.throttle_up_height - (lowestHeight ?? 0)) / pilot.approach_speed;
  const descentEnergy = fullPower * (stop?.time ?? 0) + hoverPower * Math.max(0, powered - (stop?.time ?? 0));
  const energy = battery.charge_at_arming * fullEnergy;

  return {
    density,
    charge,
    voltage,
    thrustToWeight,
    terminalSpeed: speed,
    cueHeight: cueFor(inputs, speed, plan.throttle_up_height),
    delayHeight,
    stoppingHeight: stop?.height ?? null,
    stoppingTime: stop?.time ?? null,
    lowestHeight,
    idealHoverPower: 4 * idealHoverPower(weight / 4, density, area),
    hoverPower,
    endurance: (charge * fullEnergy) / hoverPower,
    longestWait: battery.standby_power > 0 ? Math.max(0, (energy - descentEnergy) / battery.standby_power) : null,
  };
}

/** Drag areas, m2: folded and broadside on, open and hanging upright, and open with the blades turning. */
function fallDragArea({ can }: FlightInputs) {
  const slenderness = can.length / can.diameter;
  const side = can.side_drag_coefficient ?? sideDragCoefficient(slenderness);
  const end = can.end_drag_coefficient ?? endDragCoefficient(slenderness);
  const powered = can.drag_factor * (end * discArea(can.diameter) + 4 * can.arm_drag_area);
  return {
    folded: can.drag_factor * side * can.diameter * can.length,
    open: powered + can.drag_factor * 4 * can.blade_drag_area,
    powered,
  };
}

/**
 * Height and time to stop from speed v under a steady thrust of n weights, with drag:
 * h = (w^2/2g) ln(1 + v^2/((n-1) w^2)), t = w/(g sqrt(n-1)) atan(v/(w sqrt(n-1))), w the terminal speed with the
 * rotors running. Null for n at or under 1: it never stops.
 */
export function poweredStop(speed: number, terminal: number, thrustToWeight: number) {
  const excess = thrustToWeight - 1;
  if (!(excess > 0)) return null;
  return {
    height: ((terminal * terminal) / (2 * GRAVITY)) * Math.log1p((speed * speed) / (excess * terminal * terminal)),
    time: (terminal / (GRAVITY * Math.sqrt(excess))) * Math.atan(speed / (terminal * Math.sqrt(excess))),
  };
}

/** Height lost between the cue and the moment the craft gets the order, by who or what gives it. */
function lostBeforeTheOrder({ plan, pilot, link }: FlightInputs, speed: number): number {
  const { reaction, call_out } = pilot;
  switch (plan.cue) {
    case 'call-out':
      return speed * (call_out.latency + reaction + link.delay);
    case 'picture':
      return speed * (reaction + link.delay);
    case 'automatic':
      return speed * call_out.latency;
    case 'timer':
      return plan.timer_start === 'a person' ? speed * (reaction + link.delay) : 0;
  }
}

/**
 * True height at which the cue for a planned height comes. A barometer shows a z + bias + k v^2/(2g), a by its formula: in
 * air warmer than the formula takes it to be it reads low and the cue comes early; the eye judges a share of the height; a
 * timer goes by the fall that was reckoned.
 */
function cueFor(inputs: FlightInputs, speed: number, planned: number): number {
  const { scale, offset } = reading(inputs, speed);
  return (planned - offset) / scale;
}

/** The other way round: the height to plan, m, so that the cue comes at this true height at this fall speed. */
export function plannedFor(inputs: FlightInputs, speed: number, cueHeight: number): number {
  const { scale, offset } = reading(inputs, speed);
  return scale * cueHeight + offset;
}

function reading(
  { plan, site, pilot }: FlightInputs,
  speed: number,
): { readonly scale: number; readonly offset: number } {
  const { formula, bias, flow_error } = pilot.call_out;
  switch (plan.cue) {
    case 'call-out':
    case 'automatic':
      return {
        scale: readingSlope(formula, site),
        offset: bias + (flow_error * speed * speed) / (2 * GRAVITY),
      };
    case 'picture':
      return { scale: 1 / pilot.picture.judgement, offset: 0 };
    case 'timer':
      return { scale: 1, offset: 0 };
  }
}
