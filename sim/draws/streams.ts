/** Random streams: sequences of uniform numbers by name, each a function of its own name alone, whatever else is drawn. */
import seedrandom from 'seedrandom';
import { LEAST_UNIFORM } from '../distributions/law.js';
import type { SetName } from './draw.js';

/** Of seedrandom's generators only alea, the default and xor4096 give unrelated streams for related text keys. */
export const generatorOf = seedrandom.alea;

/** A key that no other seed, set, name (and flight) shares: a JSON array keeps its parts apart whatever they hold. */
export function streamKey(
  seed: string,
  set: SetName,
  name: string,
  ...flight: readonly [] | readonly [number]
): string {
  return JSON.stringify([seed, set, name, ...flight]);
}

/** The numbers of a stream, each a multiple of 2^-53 strictly between 0 and 1. */
export interface Stream {
  /** The number at an index from 0. Forward costs about 10 ns for each number passed over. */
  value(index: number): number;
}

/** Numbers between two kept states of the generator, so that no number that was passed once is far again. */
const KEPT_EVERY = 1024;

export function createStream(seed: string, set: SetName, name: string): Stream {
  let generator = generatorOf(streamKey(seed, set, name), { state: true });
  const kept = [generator.state()];
  let next = 0;
  let last = 0;
  return {
    value(index) {
      if (index === next - 1) return last;
      const near = Math.min(Math.floor(index / KEPT_EVERY), kept.length - 1);
      if (index < next || near * KEPT_EVERY > next) {
        generator = generatorOf('', { state: kept[near] });
        next = near * KEPT_EVERY;
      }
      for (; next <= index; next++) {
        if (next === kept.length * KEPT_EVERY) kept.push(generator.state());
        last = generator.double();
      }
      if (last === 0) last = LEAST_UNIFORM;
      return last;
    },
  };
}
