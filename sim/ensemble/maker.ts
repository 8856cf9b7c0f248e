import { createDrawer } from '../draws/drawer.js';
import { seekCause } from '../flight/cause.js';
import { createFlightModel } from '../flight/model.js';
import type { Scenario } from '../scenario/scenario.js';
import type { FlightMaker } from './fly-block.js';

/** Everything needed to fly any flight of a scenario under a seed. */
export function createMaker(scenario: Scenario, seed: string): FlightMaker {
  return { drawer: createDrawer(scenario, seed), model: createFlightModel(scenario), seekCause };
}
