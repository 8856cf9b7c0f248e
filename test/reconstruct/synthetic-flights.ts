/** Simulated flights with the logs they would leave, and the truth behind them. */
import { createDrawer } from '../../sim/draws/drawer.js';
import { GOOD_SENSORS, type SensorErrors, syntheticLog } from '../../sim/examples/flight-log.js';
import { columnIndex } from '../../sim/flight/ending.js';
import { createFlightModel } from '../../sim/flight/model.js';
import type { ColumnName } from '../../sim/flight/record.js';
import { readsLow } from '../../sim/reconstruct/known.js';
import type { FlightLog } from '../../sim/reconstruct/read-log.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import type { Scenario } from '../../sim/scenario/scenario.js';

export type Channels = 'reading and height' | 'reading' | 'height';

export interface FlownLog {
  readonly log: FlightLog;
  /** Logger's time of the ejection. */
  readonly ejection: number;
  readonly outcome: number;
  readonly at: (column: ColumnName) => number;
  /** When the rotors begin to give thrust, on the mean of the four, s after ejection; NaN where they never all do. */
  readonly throttleUp: number;
  /** Height and fall speed at a time after ejection. */
  readonly truth: (time: number) => readonly [number, number];
}

/** Flies logs of a scenario; the barometer has the flow error and the warm air of its own flight. */
export function flyLogs(scenario: Scenario, seed: string, height = 250) {
  const drawer = createDrawer(scenario, seed);
  const model = createFlightModel(scenario);
  return (id: number, channels: Channels, sensors: Partial<SensorErrors> = {}): FlownLog => {
    const draw = drawer.draw('explore', id);
    const { site, ejection, pilot } = draw.inputs;
    const own = {
      ...GOOD_SENSORS,
      load: ejection.load,
      flowError: pilot.call_out.flow_error,
      scaleError: readsLow(pilot.call_out.formula, site),
    };
    const trace = model.trace(draw, height);
    const made = syntheticLog(trace, { ...own, ...sensors }, `${seed} ${id}`);
    const { rows } = trace;
    return {
      log: {
        file: `flight ${id}`,
        invented: true,
        time: Float64Array.from(made.time),
        reading: channels === 'height' ? null : Float64Array.from(made.reading),
        height: channels === 'reading' ? null : Float64Array.from(made.height),
      },
      ejection: made.ejection,
      outcome: trace.record.outcome,
      throttleUp: trace.record.values[columnIndex('running_time')] - behindMean(draw.inputs.rotors),
      at: (column) => trace.record.values[columnIndex(column)],
      truth: (time) => {
        const next = Math.max(
          1,
          rows.findIndex((row) => row[0] >= time),
        );
        const [a, b] = [rows[next - 1], rows[next]];
        const share = (time - a[0]) / (b[0] - a[0]);
        return [a[1] + share * (b[1] - a[1]), a[4] + share * (b[4] - a[4])];
      },
    };
  };
}

/** s from the mean of the rotors' start times to the last of them. */
function behindMean({ start_time, own_start_factor }: FlightInputs['rotors']): number {
  const mean = own_start_factor.reduce((sum, one) => sum + one, 0) / own_start_factor.length;
  return start_time * (Math.max(...own_start_factor) - mean);
}
