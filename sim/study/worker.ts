/** What runs on each worker thread of the threads flyer: a block of flights in, their columns out. */
import { parentPort, workerData } from 'node:worker_threads';
import type { Scenario } from '../scenario/scenario.js';
import { flyBlock } from './fly-block.js';
import type { Batch } from './flyer.js';
import { createMaker } from './maker.js';

const { scenario, seed } = workerData as { readonly scenario: Scenario; readonly seed: string };
const maker = createMaker(scenario, seed);

parentPort?.on('message', (batch: Batch) => {
  const columns = flyBlock(maker, batch);
  const buffers = columns.flatMap(({ outcome, cause, columns: kept }) => [
    outcome.buffer,
    cause.buffer,
    ...Object.values(kept).map((values) => values.buffer),
  ]);
  parentPort?.postMessage(columns, buffers as ArrayBuffer[]);
});
