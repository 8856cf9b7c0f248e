/**
 * Flies batches on worker threads. Blocks of flights are handed out in ascending order to whoever is free, because
 * random streams only skip forward, and each block's columns are placed by flight number: the bytes do not depend on
 * the number of threads. Workers stay warm from batch to batch.
 */
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { FlightColumns } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import { emptyColumns, firstFlights, placeColumns } from './columns.js';
import type { Batch, Flyer } from './flyer.js';

/** Flights in one block: small enough to share out evenly, large enough that messages cost nothing. */
const BLOCK = 32;

export function createThreadsFlyer(scenario: Scenario, seed: string, threads: number): Flyer {
  const workers: Worker[] = [];

  const hire = (wanted: number) => {
    while (workers.length < wanted)
      workers.push(new Worker(new URL('./worker.js', import.meta.url), { workerData: { scenario, seed } }));
  };

  return {
    async fly(batch, onFlown, stop) {
      const flights = batch.ids.length;
      const whole = emptyColumns(batch, flights);
      const wanted = Math.min(threads, Math.ceil(flights / BLOCK));
      hire(wanted);
      let next = 0;

      const work = async (worker: Worker) => {
        while (next < flights && !stop?.aborted) {
          const start = next;
          const ids = batch.ids.slice(start, start + BLOCK);
          next += ids.length;
          placeColumns(whole, start, await ask(worker, { ...batch, ids }));
          onFlown?.(ids.length);
        }
      };
      await Promise.all(workers.slice(0, wanted).map(work));
      return whole.map((columns) => firstFlights(columns, next));
    },

    async close() {
      await Promise.all(workers.splice(0).map((worker) => worker.terminate()));
    },
  };
}

/** Sends one block and waits for its columns; what the worker throws is thrown here. */
async function ask(worker: Worker, batch: Batch): Promise<readonly FlightColumns[]> {
  const failure = new AbortController();
  const died = once(worker, 'exit', { signal: failure.signal }).then(([code]) => {
    throw new Error(`a worker thread ended with code ${code}`);
  });
  died.catch(() => {});
  worker.postMessage(batch);
  try {
    const [columns] = await Promise.race([once(worker, 'message'), died]);
    return columns;
  } finally {
    failure.abort();
  }
}
