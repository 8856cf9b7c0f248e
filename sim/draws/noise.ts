/** The noise of a flight: what happens on its own clock, as gusts, reading noise, the throttle hand, outages. */
import type { PRNG } from 'seedrandom';
import { standardNormalQuantile } from '../distributions/families/normal.js';
import { LEAST_UNIFORM } from '../distributions/law.js';
import type { FlightNoise, NoiseSeries, SetName } from './draw.js';
import { generatorOf, streamKey } from './streams.js';

/** Noise that a change can hold still, by the name to use in the change. */
export const NOISE_NAMES = ['noise.gusts', 'noise.call_out', 'noise.throttle', 'noise.ring', 'noise.outages'] as const;
export type NoiseName = (typeof NOISE_NAMES)[number];

/** A noise object that all flights of a drawer share: `start` turns it to another flight. */
export interface ReusableNoise {
  readonly noise: FlightNoise;
  /** `still`: the series held at zero; of the outages, none comes. */
  start(set: SetName, id: number, still: ReadonlySet<string>): void;
}

export function createNoise(seed: string): ReusableNoise {
  const gusts = createSeries(seed, 'noise.gusts', 3, fillNormal, fillZero);
  const callOut = createSeries(seed, 'noise.call_out', 1, fillNormal, fillZero);
  const throttle = createSeries(seed, 'noise.throttle', 1, fillNormal, fillZero);
  const ring = createSeries(seed, 'noise.ring', 4, fillNormal, fillZero);
  const outages = createSeries(seed, 'noise.outages', 2, fillExponential, fillNoOutage);
  const all = [gusts, callOut, throttle, ring, outages];
  return {
    noise: {
      gusts: gusts.series,
      callOut: callOut.series,
      throttle: throttle.series,
      ring: ring.series,
      outages: outages.series,
    },
    start(set, id, still) {
      for (const one of all) one.start(set, id, still.has(one.name));
    },
  };
}

/** Writes values[from] to values[to - 1], numbers of one sequence; from and to are multiples of BLOCK. */
type Fill = (generator: PRNG, values: Float64Array, from: number, to: number) => void;
type FillStill = (values: Float64Array, from: number, to: number) => void;

/** Numbers are drawn this many at a time. */
const BLOCK = 32;
/** Far more nodes than the longest flight has: asking beyond them is a bug, and would take all memory. */
const MOST_VALUES = 2 ** 24;
/** Unit-exponential gap before an outage that never comes. */
const NEVER = 1e12;

function createSeries(seed: string, name: NoiseName, columns: number, fill: Fill, fillStill: FillStill) {
  let values = new Float64Array(16 * BLOCK);
  let filled = 0;
  let generator: PRNG | null = null;
  let set: SetName = 'explore';
  let id = -1;
  let still = false;

  function extend(index: number): void {
    if (index >= MOST_VALUES) throw new RangeError(`${name}: node ${Math.floor(index / columns)} is beyond any flight`);
    const end = (Math.floor(index / BLOCK) + 1) * BLOCK;
    if (end > values.length) {
      const larger = new Float64Array(Math.max(end, 2 * values.length));
      larger.set(values);
      values = larger;
    }
    if (still) fillStill(values, filled, end);
    else {
      generator ??= generatorOf(streamKey(seed, set, name, id));
      fill(generator, values, filled, end);
    }
    filled = end;
  }

  const series: NoiseSeries = {
    at(node, column) {
      const index = node * columns + column;
      if (index >= filled) extend(index);
      return values[index];
    },
  };

  return {
    name,
    series,
    start(newSet: SetName, newId: number, newStill: boolean) {
      if (newSet === set && newId === id && newStill === still) return;
      set = newSet;
      id = newId;
      still = newStill;
      generator = null;
      filled = 0;
    },
  };
}

/** Cells of the table of normal quantiles, and how many at either end are too curved to be read linearly. */
const CELLS = 4096;
const TAIL = 16;
/** Standard normal quantile at k / CELLS. */
const QUANTILES = Float64Array.from({ length: CELLS + 1 }, (_, k) => standardNormalQuantile(k / CELLS, 1 - k / CELLS));

/**
 * Standard normal numbers by inversion, one uniform number each: read linearly in a table (within 2e-4 of the quantile,
 * tested), exactly in the tails beyond 2.66.
 */
function fillNormal(generator: PRNG, values: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i++) {
    const u = generator();
    const x = u * CELLS;
    const k = x | 0;
    if (k >= TAIL && k < CELLS - TAIL) values[i] = QUANTILES[k] + (x - k) * (QUANTILES[k + 1] - QUANTILES[k]);
    else values[i] = standardNormalQuantile(Math.max(u, LEAST_UNIFORM), 1 - u);
  }
}

/** Unit-exponential numbers, -ln(1 - u). */
function fillExponential(generator: PRNG, values: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i++) values[i] = -Math.log1p(-generator.double());
}

function fillZero(values: Float64Array, from: number, to: number): void {
  values.fill(0, from, to);
}

function fillNoOutage(values: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i += 2) {
    values[i] = NEVER;
    values[i + 1] = 0;
  }
}
