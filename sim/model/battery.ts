/**
 * The pack: its open-circuit voltage by charge, its sag under load, its resistance in the cold.
 *
 * The voltage under load is V = E(s) - I R. The rotors take P = K V^3, so their current is K V^2 and
 *   V = (sqrt(1 + 4 K R (E - R I_standby)) - 1) / (2 K R), which always exists.
 * The resistance rises in the cold: R ~ exp(3131 / (273 + T)), T in degC, R(0)/R(25 degC) = 2.62: fitted to a two-cell
 * lithium-polymer pack of 2.2 Ah at about 0, 10 and 30 degC, 6 to 7 s into a run ("Battery and Temperature", rcex.cz, 2010: an
 * amateur's measurement).
 */

/** Open-circuit voltage of one lithium-polymer cell by state of charge; a common table, no better source than use. */
export const COMMON_OPEN_CIRCUIT: readonly (readonly [number, number])[] = [
  [0, 3.0],
  [0.05, 3.562],
  [0.1, 3.691],
  [0.2, 3.732],
  [0.3, 3.759],
  [0.4, 3.792],
  [0.5, 3.833],
  [0.6, 3.887],
  [0.7, 3.955],
  [0.8, 4.041],
  [0.9, 4.131],
  [1, 4.2],
];

/** Open-circuit voltage of one cell in V at state of charge 0..1, linear in the table; under 0 the first slope goes on. */
export function openCircuitVoltage(table: readonly (readonly number[])[], charge: number): number {
  return readOpenCircuit(flatTable(table), table.length, charge);
}

const flatTables = new WeakMap<readonly (readonly number[])[], Float64Array>();

/** A table of pairs as one row of numbers: charge, voltage, charge, voltage... Made once for each table. */
export function flatTable(table: readonly (readonly number[])[]): Float64Array {
  let flat = flatTables.get(table);
  if (flat === undefined) {
    flat = Float64Array.from(table.flat());
    flatTables.set(table, flat);
  }
  return flat;
}

/** `openCircuitVoltage` from a table of `count` pairs made by `flatTable`. */
export function readOpenCircuit(flat: Float64Array, count: number, charge: number): number {
  let k = 2;
  const last = 2 * count - 2;
  while (k < last && charge > flat[k]) k += 2;
  const s0 = flat[k - 2];
  const v0 = flat[k - 1];
  const s1 = flat[k];
  const v1 = flat[k + 1];
  const voltage = v0 + ((v1 - v0) * (Math.min(charge, 1) - s0)) / (s1 - s0);
  return Math.max(voltage, 0);
}

const COLD_TEMPERATURE = 3131;
const REFERENCE_CELSIUS = 25;
const KELVIN_ROUNDED = 273;
const KELVIN = 273.15;

/** Factor on the internal resistance at a pack temperature in K, 1 at 25 degC. */
export function coldResistanceFactor(temperature: number): number {
  const celsius = temperature - KELVIN;
  return Math.exp(
    COLD_TEMPERATURE / (KELVIN_ROUNDED + celsius) - COLD_TEMPERATURE / (KELVIN_ROUNDED + REFERENCE_CELSIUS),
  );
}

/**
 * Pack voltage in V under rotors that take P = K V^3.
 *
 * @param openCircuit E of the pack, V
 * @param resistance R, ohm
 * @param powerConstant K, W/V^3
 * @param standbyCurrent A, drawn besides
 */
export function loadedVoltage(
  openCircuit: number,
  resistance: number,
  powerConstant: number,
  standbyCurrent: number,
): number {
  const e = openCircuit - resistance * standbyCurrent;
  if (e <= 0) return 0;
  const kr = powerConstant * resistance;
  // The same root, written so that it does not cancel for a small load.
  return (2 * e) / (1 + Math.sqrt(1 + 4 * kr * e));
}

/** State of charge after `time` s at `power` W from state `charge`, by steps of the open-circuit table. */
export function chargeAfterStandby(
  table: readonly (readonly number[])[],
  cells: number,
  capacity: number,
  charge: number,
  power: number,
  time: number,
): number {
  if (power <= 0 || time <= 0) return charge;
  const steps = STANDBY_STEPS;
  const flat = flatTable(table);
  let left = charge;
  for (let k = 0; k < steps && left > 0; k += 1) {
    const voltage = cells * readOpenCircuit(flat, table.length, left);
    if (voltage <= 0) return 0;
    // Midpoint rule: the voltage half a step on.
    const half = left - (0.5 * power * time) / (steps * voltage * capacity);
    const middle = Math.max(cells * readOpenCircuit(flat, table.length, half), 0.1);
    left -= (power * time) / (steps * middle * capacity);
  }
  return Math.max(left, 0);
}

const STANDBY_STEPS = 16;
