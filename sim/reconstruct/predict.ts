/** Flies flights of the scenario whole, to lay a log over. */
import { setImmediate } from 'node:timers/promises';
import { createDrawer } from '../draws/drawer.js';
import { createFlightModel } from '../flight/model.js';
import { CAUSES, COLUMN_NAMES, type FlightColumns } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import { envelopeOf, type Path, pathOf } from '../trace/histories.js';
import type { Predicted } from './reconstruct.js';

export const PREDICTED_FLIGHTS = 200;

export async function predictFlights(
  scenario: Scenario,
  seed: string,
  height: number,
  flights: number = PREDICTED_FLIGHTS,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<Predicted> {
  const drawer = createDrawer(scenario, seed);
  const model = createFlightModel(scenario);
  const paths: Path[] = [];
  const outcome: number[] = [];
  const values: number[][] = COLUMN_NAMES.map(() => []);
  for (let id = 0; id < flights && !stop?.aborted; id++) {
    const trace = model.trace(drawer.draw('explore', id), height);
    paths.push(pathOf(trace));
    outcome.push(trace.record.outcome);
    COLUMN_NAMES.forEach((_, i) => {
      values[i].push(trace.record.values[i]);
    });
    onFlown?.(1);
    if (id % 8 === 7) await setImmediate();
  }
  const columns: FlightColumns = {
    height,
    outcome: Uint8Array.from(outcome),
    cause: new Uint8Array(outcome.length).fill(CAUSES.indexOf('not sought')),
    columns: Object.fromEntries(COLUMN_NAMES.map((name, i) => [name, Float32Array.from(values[i])])),
  };
  return { scenario, seed, envelope: envelopeOf(paths), columns };
}
