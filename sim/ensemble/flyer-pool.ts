/**
 * Flyers of several scenarios share worker threads, which stay warm from scenario to scenario. Blocks of flights are
 * handed out in ascending order to whoever is free, because random streams only skip forward, and each
 * block's columns are placed by flight number: the bytes do not depend on the number of threads.
 */
import { once } from 'node:events';
import { Worker } from 'node:worker_threads';
import type { FlightColumns } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import { emptyColumns, firstFlights, placeColumns } from './columns.js';
import { createMaker } from './fly-block.js';
import type { Batch, Flyer } from './flyer.js';
import { createSerialFlyer } from './serial-flyer.js';
import type { WorkerOrder } from './worker.js';

export interface FlyerPool {
  /** A flyer of a scenario. The flyers of a pool fly one batch at a time; the workers forget a flyer that is closed. */
  flyer(scenario: Scenario): Flyer;
  close(): Promise<void>;
}

/** Flights in one block: large enough that messages cost nothing; towards the end smaller, so that nobody waits long. */
const LARGEST_BLOCK = 32;
const LEAST_BLOCK = 4;

function blockSize(left: number, workers: number): number {
  return Math.min(LARGEST_BLOCK, Math.max(LEAST_BLOCK, Math.ceil(left / (2 * workers))));
}

/** Where a single thread is asked for, everything is flown in the thread of the caller. */
export function createFlyerPool(seed: string, threads: number): FlyerPool {
  return threads === 1
    ? { flyer: (scenario) => createSerialFlyer(createMaker(scenario, seed)), async close() {} }
    : createWorkerPool(seed, threads);
}

interface Hired {
  readonly worker: Worker;
  /** Numbers of the scenarios that it knows. */
  readonly known: Set<number>;
}

export function createWorkerPool(seed: string, threads: number): FlyerPool {
  const hired: Hired[] = [];
  let scenarios = 0;
  let busy = false;

  const hire = (wanted: number): readonly Hired[] => {
    while (hired.length < wanted)
      hired.push({ worker: new Worker(new URL('./worker.js', import.meta.url)), known: new Set() });
    return hired.slice(0, wanted);
  };

  function createFlyer(scenario: Scenario): Flyer {
    const number = scenarios++;
    return {
      async fly(batch, onFlown, stop) {
        if (busy) throw new Error('The flyers of a pool fly one batch at a time.');
        busy = true;
        try {
          const flights = batch.ids.length;
          const whole = emptyColumns(batch, flights);
          const workers = hire(Math.min(threads, Math.ceil(flights / LEAST_BLOCK)));
          let next = 0;
          const work = async ({ worker, known }: Hired) => {
            if (!known.has(number)) order(worker, { kind: 'learn', number, scenario, seed });
            known.add(number);
            while (next < flights && !stop?.aborted) {
              const start = next;
              const ids = batch.ids.slice(start, start + blockSize(flights - start, workers.length));
              next += ids.length;
              placeColumns(whole, start, await ask(worker, number, { ...batch, ids }));
              onFlown?.(ids.length);
            }
          };
          await Promise.all(workers.map(work));
          return whole.map((columns) => firstFlights(columns, next));
        } finally {
          busy = false;
        }
      },
      async close() {
        for (const { worker, known } of hired) if (known.delete(number)) order(worker, { kind: 'forget', number });
      },
    };
  }

  return {
    flyer: createFlyer,
    async close() {
      await Promise.all(hired.splice(0).map(({ worker }) => worker.terminate()));
    },
  };
}

/** A flyer of one scenario with a pool of its own. */
export function createThreadsFlyer(scenario: Scenario, seed: string, threads: number): Flyer {
  const pool = createWorkerPool(seed, threads);
  return { fly: pool.flyer(scenario).fly, close: pool.close };
}

function order(worker: Worker, what: WorkerOrder): void {
  worker.postMessage(what);
}

/** Sends one block and waits for its columns; what the worker throws is thrown here. */
async function ask(worker: Worker, number: number, batch: Batch): Promise<readonly FlightColumns[]> {
  const failure = new AbortController();
  const died = once(worker, 'exit', { signal: failure.signal }).then(([code]) => {
    throw new Error(`a worker thread ended with code ${code}`);
  });
  died.catch(() => {});
  order(worker, { kind: 'fly', number, batch });
  try {
    const [columns] = await Promise.race([once(worker, 'message'), died]);
    return columns;
  } finally {
    failure.abort();
  }
}
