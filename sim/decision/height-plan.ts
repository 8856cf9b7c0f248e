/**
 * The plan says which heights are flown, and with how many flights. It is decided from a screening, the first small sample, and
 * is a pure function of scenario, seed and the flights of the screening, so that every part of a divided study makes the same
 * plan by itself.
 */

import type { Flown } from '../ensemble/flown.js';
import { clopperPearson } from '../statistics/proportion.js';
import type { Criterion } from './criteria.js';
import { hopelessBy, type Tally, tally } from './judge.js';

export interface HeightPlanRequest {
  readonly criteria: readonly Criterion[];
  /** Heights from which the search starts, ascending, m. */
  readonly coarse: readonly number[];
  /** Step between heights that a pilot can fly, m. */
  readonly step: number;
  readonly planned: number;
  /** Flights at each height that is flown in full. */
  readonly flights: number;
  /** Flights at every coarse height. */
  readonly screeningFlights?: number;
  /** Whether the upper end of the window and the planned height on fresh flights are wanted; they are, unless this is false. */
  readonly upperEnd?: boolean;
}

export interface HeightPlan {
  /** Heights from which "at the latest" is taken, ascending, in steps. */
  readonly band: readonly number[];
  /** Other heights flown in full on `explore`: the planned one, or one of least risk. */
  readonly others: readonly number[];
  /** Heights that may have to be flown again on `confirm`. A part of a divided study flies all of all three in full. */
  readonly confirmable: readonly number[];
  /** Coarse heights that may serve: flown with `curveFlights` for the smooth of the risk. */
  readonly curve: readonly number[];
  /** Heights among which the upper end of the window may be sought, flown with at most `shareFlights` on `explore`. */
  readonly upper: readonly number[];
  /** Heights among which the aim is picked, flown with `shareFlights` on `confirm`. */
  readonly aims: readonly number[];
  /** The screening at every height that it looked at, ascending, on the first flights of `explore`. */
  readonly screening: readonly Tally[];
}

export const SCREENING_FLIGHTS = 300;
/** The screening at a height grows by this factor from look to look, to a quarter of the full number. */
const GROWTH = 2.5;
/** Looks at every height of the band, even when fewer show where it ends. */
const LEAST_LOOKS = 2;
/** Heights in the band, at most; and where the curve is so flat that the screening shows no end of it. */
const MOST_HEIGHTS = 12;
const MOST_FLAT = 6;
/** Steps above the pair that ends the band: the pair itself, and two to spare. */
const MARGIN = 3;
/** Flights with which the curve is flown for its smooth, at least; and those of the aim and of the upper end, at least. */
const LEAST_CURVE = 2000;
const LEAST_SHARE = 8000;

/** Flights at each height of the curve: a quarter, at least 2000 as far as there are as many. */
export function curveFlights(flights: number): number {
  return Math.min(flights, Math.max(LEAST_CURVE, Math.ceil(flights / 4)));
}

/** Flights by which the upper end is judged and the aim is told: all, of more than 8000 a quarter, but not under 8000. */
export function shareFlights(flights: number): number {
  return Math.min(flights, Math.max(LEAST_SHARE, Math.ceil(flights / 4)));
}

/** The upper end is found to a step, at great heights to a fiftieth of the planned one; aims are twice as far apart. */
function upperStep(planned: number, step: number): number {
  return step * Math.max(1, Math.round(planned / (50 * step)));
}

/** Steps up that a candidate may take on fresh flights. */
export const STEPS_UP = 2;

/**
 * Makes the plan, flying the screening.
 *
 * 1. Every coarse height with 300 flights. A hopeless one stops there.
 * 2. Between the last hopeless coarse height below the first possible one and the coarse height above the first that
 *    promises to serve: every step, with 300 and 750 flights, and more, up to a quarter of the full number, while no
 *    two neighbouring steps are all but sure to be within. Hopeless ones stop. Nothing more than two steps above such
 *    a pair is needed: that is the band.
 *    Where no such pair is found, or it stands at the upper edge, the band is carried on to the next coarse height.
 * 3. If the band is longer than 12 steps (6 without such a pair), the part of least risk.
 * 4. Every coarse height that may serve, for the curve. The upper end of the window and the aim lie among them.
 *
 * Between two hopeless coarse heights no step is looked at, and none under the lowest coarse height. Cost: 300 flights
 * a coarse height, mostly 750 a step of the band.
 */
export async function planHeights(flown: Flown, request: HeightPlanRequest): Promise<HeightPlan> {
  const { criteria, coarse, step, planned } = request;
  const screening = createScreening(flown, request);
  await screening.look(coarse, screening.sizes[0]);
  const curve = coarse.filter((height) => screening.isPossible(height));
  const band = await findBand(screening, request);
  const others = new Set([planned]);
  if (band.length === 0) others.add(leastRisky([...screening.known.values()], criteria).height);
  return {
    band,
    others: ascending(others),
    confirmable: ascending(new Set(band.flatMap((height) => upFrom(height, step, coarse[coarse.length - 1])))),
    curve,
    ...(band.length === 0 ? { upper: [], aims: [] } : higherHeights(band[0], curve, request)),
    screening: [...screening.known.values()].sort((a, b) => a.height - b.height),
  };
}

/** Where the upper end and the aim may lie: from the lowest height of the band to the coarse height over the last that may serve. */
function higherHeights(
  lowest: number,
  curve: readonly number[],
  { coarse, planned, step, upperEnd }: HeightPlanRequest,
): Pick<HeightPlan, 'upper' | 'aims'> {
  const apart = upperStep(planned, step);
  const highest = Math.max(lowest, ...curve);
  const top = coarse.find((height) => height > highest) ?? highest;
  const every = (distance: number, to: number) => stepsBetween(lowest - 1e-3, to, distance);
  return { upper: upperEnd === false ? [] : every(apart, top), aims: every(2 * apart, highest) };
}

/** What the screening has seen so far, and what it makes of a height. */
interface Screening {
  readonly known: ReadonlyMap<number, Tally>;
  /** Numbers of flights from look to look. */
  readonly sizes: readonly number[];
  look(heights: readonly number[], size: number): Promise<void>;
  /** Not hopeless. */
  isPossible(height: number): boolean;
  /** Would be within at the full number if the shares seen were the truth. */
  isPromising(height: number): boolean;
  /** All but sure to be within at the full number: the bound is at or under the share that is accepted there. */
  isClear(height: number): boolean;
}

function createScreening(flown: Flown, { criteria, flights, screeningFlights }: HeightPlanRequest): Screening {
  const known = new Map<number, Tally>();
  const accepted = criteria.map(({ limit }) => acceptedShare(limit, flights));
  const at = (height: number): Tally => known.get(height) as Tally;
  const sizes = [Math.min(screeningFlights ?? SCREENING_FLIGHTS, flights)];
  while (sizes[sizes.length - 1] * GROWTH <= flights / 4) sizes.push(Math.round(sizes[sizes.length - 1] * GROWTH));
  return {
    known,
    sizes,
    async look(heights, size) {
      for (const columns of await flown.at('explore', heights, size)) {
        known.set(columns.height, tally(columns, criteria));
      }
    },
    isPossible: (height) => hopelessBy(at(height), criteria) === null,
    isPromising: (height) => accepted.every((share, index) => at(height).counts[index] <= share * at(height).flights),
    isClear: (height) =>
      accepted.every((share, index) => clopperPearson(at(height).counts[index], at(height).flights).upper <= share),
  };
}

async function findBand(screening: Screening, { criteria, coarse, step }: HeightPlanRequest): Promise<number[]> {
  const { sizes, isPossible, isClear } = screening;
  const last = coarse[coarse.length - 1];
  const endOf = (heights: readonly number[]) =>
    heights.find((height) => isClear(height) && heights.includes(height + step) && isClear(height + step));
  let band: number[] = [];
  let end: number | undefined;
  let [from, top] = bandEdges(coarse, screening);
  for (;;) {
    band.push(...stepsBetween(from, top, step).filter((height) => height >= coarse[0]));
    for (let index = 0; index < sizes.length && (index < LEAST_LOOKS || end === undefined); index++) {
      await screening.look(band, sizes[index]);
      band = band.filter(isPossible);
      end = endOf(band);
    }
    const wanted = end === undefined ? Number.POSITIVE_INFINITY : end + MARGIN * step;
    const next = coarse.find((height) => height > top && isPossible(height));
    if (wanted <= top || next === undefined || band.length >= MOST_HEIGHTS) {
      const most = end === undefined ? MOST_FLAT : MOST_HEIGHTS;
      return aboutTheLeast(
        band.filter((height) => height <= wanted),
        most,
        screening.known,
        criteria,
      );
    }
    [from, top] = [top, end === undefined ? next : Math.min(wanted, last)];
  }
}

/** A height and the steps up from it that it may take on fresh flights, none over the highest height looked at. */
export function upFrom(height: number, step: number, highest: number): number[] {
  return Array.from({ length: STEPS_UP + 1 }, (_, index) => height + index * step).filter((one) => one <= highest);
}

function ascending(heights: Iterable<number>): number[] {
  return [...heights].sort((a, b) => a - b);
}

/** Largest share of failures with which a height is within at the full number of flights. */
export function acceptedShare(limit: number, flights: number): number {
  let count = Math.floor(limit * flights);
  while (count > 0 && clopperPearson(count, flights).upper > limit) count -= 1;
  return count / flights;
}

/** Two-sided level whose lower end is a 99 % lower bound. */
const FUTILE_LEVEL = 0.98;

/**
 * All but sure not to be within at the full number: a 99 % lower bound is over the share that is accepted there. Every
 * hopeless height is futile too.
 */
export function isFutile(found: Tally, accepted: readonly number[]): boolean {
  return accepted.some(
    (share, index) => clopperPearson(found.counts[index], found.flights, FUTILE_LEVEL).lower > share,
  );
}

/**
 * The stretch in which the lowest acceptable height lies: over the hopeless coarse height under the first possible
 * one, up to the coarse height over the first promising one, or over the highest possible one when none is promising.
 * It never goes under the lowest coarse height.
 */
function bandEdges(coarse: readonly number[], { isPossible, isPromising }: Screening): [number, number] {
  const first = coarse.findIndex(isPossible);
  if (first === -1) return [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const rest = coarse.slice(first);
  const to =
    rest.find((height) => isPossible(height) && isPromising(height)) ?? rest.filter(isPossible).at(-1) ?? coarse[first];
  const next = coarse.find((height) => height > to) ?? to;
  return [first === 0 ? Number.NEGATIVE_INFINITY : coarse[first - 1], next];
}

/** Multiples of the step over `below`, up to `to`. */
function stepsBetween(below: number, to: number, step: number): number[] {
  const heights: number[] = [];
  const from = Number.isFinite(below) ? Math.floor(below / step) + 1 : 1;
  for (let index = from; index * step <= to; index++) heights.push(index * step);
  return heights;
}

/** The worst share of its limit that a height takes. */
function strain(found: Tally, criteria: readonly Criterion[]): number {
  return Math.max(...criteria.map(({ limit }, index) => found.counts[index] / found.flights / limit));
}

export function leastRisky(tallies: readonly Tally[], criteria: readonly Criterion[]): Tally {
  return tallies.reduce((best, found) => (strain(found, criteria) < strain(best, criteria) ? found : best));
}

/** `most` neighbouring heights whose mean strain is least; all when there are no more. */
function aboutTheLeast(
  band: readonly number[],
  most: number,
  known: ReadonlyMap<number, Tally>,
  criteria: readonly Criterion[],
): number[] {
  if (band.length <= most) return [...band];
  const strains = band.map((height) => strain(known.get(height) as Tally, criteria));
  const sum = (from: number): number => strains.slice(from, from + most).reduce((total, one) => total + one, 0);
  let best = 0;
  for (let from = 1; from + most <= band.length; from++) if (sum(from) < sum(best)) best = from;
  return band.slice(best, best + most);
}
