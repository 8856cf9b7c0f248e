/**
 * Two designs are compared flight by flight on the same draws: at the planned heights, at A's planned height, and at the
 * aim of each. The comparison is a pure function of the two scenarios, the seed and the options.
 */

import { doubtOf } from '../assess/doubt.js';
import { ok } from '../basics/answer.js';
import { groundImpactAt, heightFigure, tally } from '../decision/judge.js';
import type { HeightDecision } from '../decision/result.js';
import { idsBetween, joined } from '../ensemble/columns.js';
import type { Flyer } from '../ensemble/flyer.js';
import { NOTHING_FLOWN, type StudyAnswer } from '../ensemble/study-answer.js';
import type { FlightColumns } from '../flight/record.js';
import { fixedInput } from '../scenario/lookup.js';
import { type FoundHeight, findHeight, type SoughtDesign } from './find-height.js';
import { type CompareOptions, freshPairs, planCompare, searchFlights } from './plan.js';
import { compareResult, comparisonOf } from './put-together.js';
import type { ComparedDesign, CompareResult, DesignComparison, NoComparison } from './result.js';

/** A design with the changes that made it. */
export interface FlownDesign extends SoughtDesign {
  readonly overrides: readonly string[];
}

export interface CompareHooks {
  /** Hears which part of the study is flown, and how many flights of about how many in all. */
  readonly onProgress?: (part: ComparePart, flown: number, total: number) => void;
  /** Ends the flying early; the pairs flown are kept and the result is marked partial. */
  readonly stop?: AbortSignal;
}

export type ComparePart = 'planned' | 'search for A' | 'search for B' | 'aims';

/** Flights of a whole search in flights a height, as seen with the demo; for the progress alone. */
const SEARCH_COST = 5;
/** Pairs flown before the other design gets its turn, so that an interrupted study has whole pairs. */
const BLOCK = 1000;

export async function compareDesigns(
  a: FlownDesign,
  b: FlownDesign,
  options: CompareOptions,
  hooks: CompareHooks = {},
): Promise<StudyAnswer<CompareResult>> {
  const planned = planCompare(a.scenario, b.scenario, options);
  if (planned.status === 'refused') return planned;
  const heightsOfB = planned.value;
  const heightA = fixedInput(a.scenario, 'plan.throttle_up_height');
  const meter = createMeter(expectedFlights(options), hooks);
  const flown = await flyPairs(a.flyer, b.flyer, heightA, heightsOfB, options, meter, hooks.stop);
  if (flown === null) return NOTHING_FLOWN;
  const { flightsA, flightsB } = flown;
  const [atItsOwn, alsoAtHeightOfA] = flightsB;
  const first = comparisonOf('planned', flightsA, atItsOwn, 'explore', options.matters);
  const second = heightA === atItsOwn.height ? sameHeight() : atPlannedOfA(flightsA, alsoAtHeightOfA, options.matters);
  const search = (design: FlownDesign, part: ComparePart, known: readonly FlightColumns[]) => {
    meter.start(part);
    return findHeight(design, known, searchFlights(options.flights), meter.flown, hooks.stop);
  };
  const [foundA, foundB] = options.aims
    ? [await search(a, 'search for A', [flightsA]), await search(b, 'search for B', flightsB)]
    : [null, null];
  const third = await atAims(foundA, foundB, options, meter, hooks.stop);
  const design = (
    { scenario, overrides, criteria }: FlownDesign,
    planned: FlightColumns,
    found: FoundHeight | null,
  ): ComparedDesign => {
    const judged = heightFigure(tally(planned, criteria), criteria, 'explore', planned.outcome.length);
    return {
      scenario,
      overrides,
      plannedHeight: planned.height,
      criteria: judged.criteria,
      overall: judged.verdict,
      doubt: doubtOf({
        scenario,
        overall: judged.verdict,
        groundImpact: groundImpactAt(judged, criteria).verdict,
        worlds: null,
        hasUnmeasured: true,
      }),
      heights: found?.decision ?? null,
    };
  };
  const result = compareResult({
    seed: options.seed,
    source: 'flown',
    partial: hooks.stop?.aborted === true,
    matters: options.matters,
    a: design(a, flightsA, foundA),
    b: design(b, atItsOwn, foundB),
    comparisons: [first, second, third],
    warnings: [],
  });
  return ok(result);
}

/** About how many flights each part takes. */
function expectedFlights({ flights, aims }: CompareOptions): ReadonlyMap<ComparePart, number> {
  const search = SEARCH_COST * searchFlights(flights);
  const parts: readonly (readonly [ComparePart, number])[] = [
    ['planned', 2 * flights],
    ['search for A', search],
    ['search for B', search],
    ['aims', 2 * (freshPairs(flights) - searchFlights(flights))],
  ];
  return new Map(aims ? parts : parts.slice(0, 1));
}

/** Counts the flights of one part of the study after the other. */
interface Meter {
  start(part: ComparePart): void;
  readonly flown: (flights: number) => void;
}

/** What a part was expected to take gives way to what it took as soon as the next part starts, or it takes more. */
function createMeter(expected: ReadonlyMap<ComparePart, number>, { onProgress }: CompareHooks): Meter {
  const toCome = new Map(expected);
  let part: ComparePart = 'planned';
  let [before, count] = [0, 0];
  return {
    start(next) {
      if (next !== part) toCome.delete(part);
      [part, before, count] = [next, before + count, 0];
    },
    flown(flights) {
      count += flights;
      toCome.set(part, Math.max(count, toCome.get(part) ?? 0));
      const total = [...toCome.values()].reduce((sum, one) => sum + one, before);
      onProgress?.(part, before + count, total);
    },
  };
}

/** A at its planned height, B at its own and at A's, in turns; null where nothing was flown. */
async function flyPairs(
  flyerA: Flyer,
  flyerB: Flyer,
  heightA: number,
  heightsOfB: readonly number[],
  { flights }: CompareOptions,
  meter: Meter,
  stop?: AbortSignal,
): Promise<{ readonly flightsA: FlightColumns; readonly flightsB: readonly FlightColumns[] } | null> {
  const parts: { readonly a: FlightColumns; readonly b: readonly FlightColumns[] }[] = [];
  for (let from = 0; from < flights && !stop?.aborted; from += BLOCK) {
    const ids = idsBetween(from, Math.min(flights, from + BLOCK));
    const fly = (flyer: Flyer, heights: readonly number[]) =>
      flyer.fly({ set: 'explore', ids, heights, detail: 'causes' }, meter.flown, stop);
    const [a] = await fly(flyerA, [heightA]);
    parts.push({ a, b: await fly(flyerB, heightsOfB) });
  }
  if (parts.length === 0 || parts[0].b[0].outcome.length === 0) return null;
  const flightsB = heightsOfB.map((_, index) => joined(parts.map(({ b }) => b[index])));
  return { flightsA: joined(parts.map(({ a }) => a)), flightsB };
}

function sameHeight(): NoComparison {
  return {
    basis: 'planned of A',
    status: 'not compared',
    why: 'Both plan the same height: the first comparison is this one.',
  };
}

function atPlannedOfA(
  a: FlightColumns,
  b: FlightColumns | undefined,
  matters: number,
): DesignComparison | NoComparison {
  if (b !== undefined) return comparisonOf('planned of A', a, b, 'explore', matters);
  const why = `B is ejected lower than A's planned height of ${a.height} m in more than 1 flight of 100.`;
  return { basis: 'planned of A', status: 'not compared', why };
}

/** The aim, where its own fresh flights show that it keeps every limit; else the lowest height that is shown to. */
function aimOf({ aim, latest }: HeightDecision): number | null {
  return aim?.figure.verdict === 'within' ? aim.height : latest;
}

async function atAims(
  a: FoundHeight | null,
  b: FoundHeight | null,
  { matters, flights, aims }: CompareOptions,
  meter: Meter,
  stop?: AbortSignal,
): Promise<DesignComparison | NoComparison> {
  const none = (why: string): NoComparison => ({ basis: 'aims', status: 'not compared', why });
  if (!aims) return none('It was not asked for (--planned-only).');
  const interrupted = none('The study was interrupted before the aims were flown.');
  if (a === null || b === null) return interrupted;
  const [heightA, heightB] = [aimOf(a.decision), aimOf(b.decision)];
  const without = [...(heightA === null ? ['A'] : []), ...(heightB === null ? ['B'] : [])];
  if (heightA === null || heightB === null)
    return none(
      `No height is shown to keep every limit of ${without.join(' and of ')} with ${searchFlights(flights)} flights a height.`,
    );
  meter.start('aims');
  const [ofA] = await a.flown.at('confirm', [heightA], freshPairs(flights));
  const [ofB] = await b.flown.at('confirm', [heightB], freshPairs(flights));
  return stop?.aborted ? interrupted : comparisonOf('aims', ofA, ofB, 'confirm', matters);
}
