/** Flies batches of one scenario on worker threads, which stay warm from batch to batch. */
import type { Scenario } from '../scenario/scenario.js';
import type { Flyer } from './flyer.js';
import { createWorkerPool } from './flyer-pool.js';

export function createThreadsFlyer(scenario: Scenario, seed: string, threads: number): Flyer {
  const pool = createWorkerPool(seed, threads);
  return { fly: pool.flyer(scenario).fly, close: pool.close };
}
