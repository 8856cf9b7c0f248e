/** A simulated flight tells what the pack gives: lowest voltage, power on the approach, and how long it would last. */
import type { FlightTrace } from '../flight/flight.js';
import { COLUMN_NAMES, type ColumnName } from '../flight/record.js';
import { traceSeries } from '../trace/trace-columns.js';

export interface NominalPower {
  /** Lowest pack voltage under load, V. */
  readonly lowestVoltage: number | null;
  /** Mean electrical power from the arrest of the descent to the touchdown, W; null where it was never arrested. */
  readonly approach: number | null;
  /** Charge at the order over the mean current of the approach, s. */
  readonly endurance: number | null;
}

/** @param capacity of the full pack, C */
export function nominalPower(trace: FlightTrace, capacity: number): NominalPower {
  const flown = (name: ColumnName) => trace.record.values[COLUMN_NAMES.indexOf(name)];
  const arrest = flown('arrest_time');
  const lowest = flown('lowest_voltage');
  const lowestVoltage = Number.isNaN(lowest) ? null : lowest;
  const time = traceSeries(trace, 'time_s');
  const voltage = traceSeries(trace, 'pack_voltage_V');
  const current = traceSeries(trace, 'pack_current_A');
  const duration = time[time.length - 1] - arrest;
  if (!(duration > 0)) return { lowestVoltage, approach: null, endurance: null };

  const energy = integral(time, (row) => voltage[row] * current[row], arrest);
  const charge = integral(time, (row) => current[row], arrest);
  const chargeAtOrder = flown('energy_left') * capacity + integral(time, (row) => current[row], flown('order_time'));
  return { lowestVoltage, approach: energy / duration, endurance: (chargeAtOrder * duration) / charge };
}

/** Trapezoid rule over the rows from `start` on. */
function integral(time: readonly number[], value: (row: number) => number, start: number): number {
  let sum = 0;
  for (let row = 1; row < time.length; row++) {
    if (time[row - 1] >= start) sum += (time[row] - time[row - 1]) * 0.5 * (value(row - 1) + value(row));
  }
  return sum;
}
