/**
 * The serial flyer flies every flight in this thread, with a breath for the event loop between blocks (progress,
 * Ctrl-C).
 */
import { setImmediate } from 'node:timers/promises';
import { emptyColumns, firstFlights, placeColumns } from './columns.js';
import { type FlightMaker, flyBlock } from './fly-block.js';
import type { Flyer } from './flyer.js';

/** Flights flown between two breaths. */
const BLOCK = 16;

export function createSerialFlyer(maker: FlightMaker): Flyer {
  return {
    async fly(batch, onFlown, stop) {
      const flights = batch.ids.length;
      const whole = emptyColumns(batch, flights);
      let flown = 0;
      while (flown < flights && !stop?.aborted) {
        const ids = batch.ids.subarray(flown, flown + BLOCK);
        placeColumns(whole, flown, flyBlock(maker, { ...batch, ids }));
        flown += ids.length;
        onFlown?.(ids.length);
        await setImmediate();
      }
      return whole.map((columns) => firstFlights(columns, flown));
    },
    async close() {},
  };
}
