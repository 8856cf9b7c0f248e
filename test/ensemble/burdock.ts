import { readScenario } from '../../sim/scenario/file/read.js';
import type { Scenario } from '../../sim/scenario/scenario.js';

/** The demo scenario with changes. */
export function burdock(...overrides: readonly string[]): Scenario {
  const read = readScenario('configs/burdock.yaml', overrides);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.value;
}
