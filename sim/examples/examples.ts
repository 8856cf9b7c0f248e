/** Makes the invented bench data and flight log beside the demo scenario, with a truth that is known. */
import seedrandom from 'seedrandom';
import { standardNormalQuantile } from '../distributions/families/normal.js';
import { createDrawer } from '../draws/drawer.js';
import { createFlightModel } from '../flight/model.js';
import { readsLow } from '../reconstruct/known.js';
import type { Scenario } from '../scenario/scenario.js';
import { GOOD_SENSORS, logCsv, syntheticLog } from './flight-log.js';

export interface Example {
  readonly name: string;
  readonly text: string;
}

function normals(seed: string): () => number {
  const random = seedrandom.alea(`example ${seed}`);
  return () => {
    const u = Math.min(Math.max(random.double(), 1e-12), 1 - 1e-12);
    return standardNormalQuantile(u, 1 - u);
  };
}

/** Log-normal, median 1.05 s, spread 0.35: a practised pilot, quicker than the demo scenario's guess. */
function reactionTimes(): Example {
  const normal = normals('reaction times');
  const rows = Array.from({ length: 24 }, (_, i) => `${i + 1},${(1.05 * Math.exp(0.35 * normal())).toFixed(2)}`);
  const head = '# Invented for demonstration: drawn from a log-normal, median 1.05 s, spread 0.35.\ntrial,reaction_s';
  return { name: 'burdock-reaction-times.csv', text: `${head}\n${rows.join('\n')}\n` };
}

/** One rotor of the demo scenario: 339 gf and 139 W at 15.2 V, thrust with the square of the voltage, 55 mohm. */
function thrustStand(): Example {
  const normal = normals('thrust stand');
  const rows: string[] = [];
  for (const openCircuit of [16.7, 16.1, 15.4, 14.7]) {
    for (const throttle of [25, 50, 75, 100]) {
      const fraction = throttle / 100;
      let voltage = openCircuit;
      // A few rounds settle voltage and current: V = E - R I, I = P/V.
      for (let turn = 0; turn < 30; turn++) voltage = openCircuit - 0.055 * (power(voltage, fraction) / voltage);
      const thrust = 339 * (voltage / 15.2) ** 2 * fraction * (1 + 0.012 * normal());
      const current = (power(voltage, fraction) / voltage) * (1 + 0.01 * normal());
      rows.push([throttle, thrust.toFixed(0), current.toFixed(2), (voltage + 0.02 * normal()).toFixed(2)].join(','));
    }
  }
  const head =
    '# Invented for demonstration: one rotor of 339 gf and 139 W at 15.2 V on a pack of 55 mohm, at four charges.\nthrottle_%,thrust_gf,current_A,voltage_V';
  return { name: 'burdock-thrust-stand.csv', text: `${head}\n${rows.join('\n')}\n` };
}

function power(voltage: number, fraction: number): number {
  return 139 * (voltage / 15.2) ** 3 * fraction ** 1.5;
}

/** The flight from which the log is made, and its seed: `trace` flies it again. */
export const LOGGED_SEED = 'example';
export const LOGGED_FLIGHT = 0;

function flightLog(scenario: Scenario): Example {
  const draw = createDrawer(scenario, LOGGED_SEED).draw('explore', LOGGED_FLIGHT);
  const { site, pilot, ejection, plan } = draw.inputs;
  const sensors = {
    ...GOOD_SENSORS,
    readingRate: 50,
    heightRate: 12.5,
    load: ejection.load,
    flowError: pilot.call_out.flow_error,
    scaleError: readsLow(pilot.call_out.formula, site),
    gaps: [[7, 8]] as const,
  };
  const height = plan.throttle_up_height;
  const trace = createFlightModel(scenario).trace(draw, height);
  const remark =
    `Invented for demonstration: the log that the simulated flight explore:${LOGGED_FLIGHT}@${height} of ${scenario.title}, seed "${LOGGED_SEED}", ` +
    `would leave; g-readings in steps of 0.1 g with a wrong zero, a barometer in air of ${(site.temperature - 273.15).toFixed(0)} degC, one second lost.`;
  return {
    name: 'burdock-flight-log.csv',
    text: logCsv(syntheticLog(trace, sensors, 'example log'), remark),
  };
}

/** All example files for the demo scenario. */
export function exampleFiles(scenario: Scenario): readonly Example[] {
  return [reactionTimes(), thrustStand(), flightLog(scenario)];
}
