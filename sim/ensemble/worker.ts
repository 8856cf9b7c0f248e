/** Each worker thread learns scenarios by number and answers a block of flights with their columns. */
import { parentPort } from 'node:worker_threads';
import type { Scenario } from '../scenario/scenario.js';
import { createMaker, type FlightMaker, flyBlock } from './fly-block.js';
import type { Batch } from './flyer.js';

export type WorkerOrder =
  | { readonly kind: 'learn'; readonly number: number; readonly scenario: Scenario; readonly seed: string }
  | { readonly kind: 'fly'; readonly number: number; readonly batch: Batch }
  | { readonly kind: 'forget'; readonly number: number };

const makers = new Map<number, FlightMaker>();

parentPort?.on('message', (order: WorkerOrder) => {
  if (order.kind === 'learn') makers.set(order.number, createMaker(order.scenario, order.seed));
  else if (order.kind === 'forget') makers.delete(order.number);
  else answer(order.number, order.batch);
});

function answer(number: number, batch: Batch): void {
  const maker = makers.get(number);
  if (maker === undefined) throw new Error(`this worker knows no scenario ${number}`);
  // Copied, not transferred: once a thread has handed a buffer over, the engine asks at every access to a typed array whether
  // it still has its own, which made all flying a quarter slower.
  parentPort?.postMessage(flyBlock(maker, batch));
}
