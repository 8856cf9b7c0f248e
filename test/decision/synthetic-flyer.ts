import seedrandom from 'seedrandom';
import { FLIGHTS_PER_WORLD, type SetName } from '../../sim/draws/draw.js';
import type { Flyer } from '../../sim/ensemble/flyer.js';
import { CAUSES, type FlightColumns } from '../../sim/flight/record.js';

/** A stand-in for the flight model with a known risk: one uniform number decides, the same at every height. */
export interface SyntheticModel {
  readonly seed: string;
  /** Paths of inputs; each is one uniform number a flight, or a world where it is unmeasured. */
  readonly inputs?: readonly { readonly path: string; readonly unmeasured?: boolean }[];
  /** Chance that a flight with these uniform inputs fails at a height. */
  readonly risk: (height: number, inputs: readonly number[]) => number;
  /** Cause of a failed flight; "reaction" by default. */
  readonly cause?: (inputs: readonly number[]) => (typeof CAUSES)[number];
}

export interface SyntheticFlyer extends Flyer {
  /** Uniform numbers of an input in flights 0 to n - 1. */
  uniforms(path: string, set: SetName, flights: number): Float64Array;
  /** Flights flown so far, each height counted. */
  readonly flown: () => number;
}

export function createSyntheticFlyer(model: SyntheticModel): SyntheticFlyer {
  const inputs = model.inputs ?? [];
  const streams = new Map<string, { readonly next: () => number; readonly values: number[] }>();
  let flown = 0;
  /** The first numbers of a stream, at least as many as asked for. */
  const numbers = (set: SetName, name: string, count: number): readonly number[] => {
    const key = `${model.seed} ${set} ${name}`;
    let stream = streams.get(key);
    if (stream === undefined) {
      const random = seedrandom.alea(key);
      stream = { next: () => random.double(), values: [] };
      streams.set(key, stream);
    }
    while (stream.values.length < count) stream.values.push(stream.next());
    return stream.values;
  };
  const placeOf = (set: SetName, id: number, unmeasured = false): number =>
    set === 'worlds' && unmeasured ? Math.floor(id / FLIGHTS_PER_WORLD) : id;
  return {
    async fly({ set, ids, heights, changes }, onFlown) {
      flown += ids.length * heights.length;
      onFlown?.(ids.length);
      const count = (ids.at(-1) ?? -1) + 1;
      const luck = numbers(set, 'luck', count);
      const drawn = inputs.map(({ path, unmeasured }) => ({
        held: changes?.find((change) => change.path === path)?.quantile,
        values: numbers(set, path, count),
        unmeasured,
      }));
      return heights.map((height): FlightColumns => {
        const outcome = new Uint8Array(ids.length);
        const cause = new Uint8Array(ids.length);
        const speed = new Float32Array(ids.length).fill(1.2);
        const withoutInputs = drawn.length === 0 ? model.risk(height, []) : null;
        ids.forEach((id, index) => {
          if (withoutInputs !== null && luck[id] >= withoutInputs) return;
          const at = drawn.map(({ held, values, unmeasured }) => held ?? values[placeOf(set, id, unmeasured)]);
          if (luck[id] >= (withoutInputs ?? model.risk(height, at))) return;
          outcome[index] = 2;
          cause[index] = CAUSES.indexOf(model.cause?.(at) ?? 'reaction');
          speed[index] = 30;
        });
        return { height, outcome, cause, columns: { touchdown_speed: speed } };
      });
    },
    async close() {},
    uniforms(path, set, flights) {
      const unmeasured = inputs.find((one) => one.path === path)?.unmeasured;
      const values = numbers(set, path, flights);
      return Float64Array.from({ length: flights }, (_, id) => values[placeOf(set, id, unmeasured)]);
    },
    flown: () => flown,
  };
}
