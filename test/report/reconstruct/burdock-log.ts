/** The invented flight log of Burdock, read and reconstructed. */
import { readFileSync } from 'node:fs';
import { type Known, knownFrom } from '../../../sim/reconstruct/known.js';
import { predictFlights } from '../../../sim/reconstruct/predict.js';
import { readLog } from '../../../sim/reconstruct/read-log.js';
import { reconstruct } from '../../../sim/reconstruct/reconstruct.js';
import type { ReconstructResult } from '../../../sim/reconstruct/result.js';
import { burdock } from '../../ensemble/burdock.js';

const read = readLog(readFileSync('configs/burdock-flight-log.csv', 'utf8'), '<log>.csv', {
  time: null,
  reading: null,
  height: null,
});
if (read.status === 'refused') throw new Error(read.messages.join());

export const log = read.value;
export const known: Known = knownFrom(burdock());

/** The log laid over the flights of its scenario. */
export async function overScenario(): Promise<ReconstructResult> {
  const made = reconstruct(log, known, await predictFlights(burdock(), '1', 250, 30));
  if (made.status === 'refused') throw new Error(made.messages.join());
  return made.value;
}
