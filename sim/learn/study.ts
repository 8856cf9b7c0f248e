/** Flies what learning needs: plausible worlds, and further worlds near what the logs say. */

import { type Answer, refused } from '../basics/answer.js';
import type { Change } from '../draws/draw.js';
import { nominalDraw } from '../draws/drawer.js';
import { emptyColumns, joined, viewOf } from '../ensemble/columns.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import type { ReconstructResult } from '../reconstruct/result.js';
import type { Scenario } from '../scenario/scenario.js';
import { gatherWorlds } from './gather.js';
import {
  FAR_OFF,
  FLIGHTS_EACH,
  farthest,
  LEAST_EFFECTIVE,
  learn,
  logGroups,
  nothingToLearn,
  observedIn,
  sharedInputs,
  worldIds,
} from './learn.js';
import type { LearnResult } from './result.js';
import { scoreSpace } from './scores.js';

export interface LearnStudy {
  readonly scenario: Scenario;
  /** The scenario in which the logs were flown, where it is another. */
  readonly flownIn: Scenario | null;
  readonly seed: string;
  /** Worlds of the first wave. */
  readonly worlds: number;
  readonly logs: readonly ReconstructResult[];
  readonly file: string;
  /** Flights in each world. */
  readonly each?: number;
}

export interface LearnFlying {
  /** Flyers of the two scenarios; the second is null where the logs were flown in the first. */
  readonly flyers: readonly [Flyer, Flyer | null];
  /** Tells how many of the flights asked for so far are flown: each wave asks for more. */
  readonly onProgress?: (flown: number, asked: number) => void;
  readonly stop?: AbortSignal;
}

/**
 * The study was stopped with too few worlds to conclude from: how many worlds were flown whole, and how many equal worlds
 * they are worth.
 */
export interface StoppedStudy {
  readonly status: 'stopped';
  readonly worlds: number;
  readonly effective: number;
}

/**
 * Worlds flown between two looks at the other scenario's flights, so that the flights of both are of the same worlds when
 * stopped.
 */
const CHUNK = 50;

export async function learnByFlying(
  study: LearnStudy,
  { flyers, onProgress, stop }: LearnFlying,
): Promise<Answer<LearnResult> | StoppedStudy> {
  const { scenario, flownIn, seed, logs, each = FLIGHTS_EACH } = study;
  const flown = flownIn ?? scenario;
  const shared = new Set(sharedInputs(scenario, flown, seed, 1).map(({ drawn }) => drawn.name));
  if (shared.size === 0) return refused(nothingToLearn(scenario, flownIn));
  const space = scoreSpace(flown, seed, shared);
  const own = createShelf(flyers[0], scenario, each, stop);
  const theirs = flownIn === null || flyers[1] === null ? null : createShelf(flyers[1], flownIn, each, stop);
  const shelves = theirs === null ? [own] : [own, theirs];
  const weighing = theirs ?? own;
  let worlds = 0;
  let [flights, asked] = [0, 0];
  const onFlown = (count: number) => {
    flights += count;
    onProgress?.(flights, asked);
  };

  async function flyAll(from: number, count: number, changes: readonly Change[]): Promise<number> {
    const whole: number[] = [];
    for (const shelf of shelves) whole.push(await shelf.fly(from, count, changes, onFlown));
    const both = Math.min(...whole);
    for (const shelf of shelves) shelf.keep(from + both);
    worlds = from + both;
    return both;
  }

  const nothingSeen = logGroups(logs, emptyOf(weighing.height));
  if (nothingSeen.status === 'refused') return nothingSeen;
  const gathered = await gatherWorlds(
    {
      each,
      natural: space.natural,
      async fly(from, count, scores) {
        asked += count * each * shelves.length;
        let done = 0;
        while (done < count && !stop?.aborted) {
          const next = scores === null ? Math.min(CHUNK, count - done) : 1;
          const whole = await flyAll(from + done, next, scores === null ? [] : space.changes(scores[done]));
          done += whole;
          if (whole < next) break;
        }
        return done;
      },
      groups: () => {
        const seen = logGroups(logs, weighing.flights());
        return seen.status === 'ok' ? seen.value : [];
      },
      within: () => farthest(observedIn(logs, weighing.flights(), worlds * each)).off <= FAR_OFF,
    },
    study.worlds,
  );
  const { effective, stopped, scores, waves, corrections } = gathered;
  if (stopped && effective < LEAST_EFFECTIVE) return { status: 'stopped', worlds, effective };
  return learn({
    scenario,
    flights: own.flights(),
    flownIn: theirs === null || flownIn === null ? null : { scenario: flownIn, flights: theirs.flights() },
    seed,
    worlds,
    each,
    logs,
    file: study.file,
    partial: stopped,
    moved: {
      waves: waves.map((wave) => wave.worlds),
      corrections,
      uniforms(name) {
        const place = space.names.indexOf(name);
        return place === -1 || waves.length === 1
          ? null
          : Float64Array.from(scores, (score) => space.uniforms(score)[place]);
      },
    },
  });
}

/** Flights of whole worlds of one scenario at its planned height. */
function createShelf(flyer: Flyer, scenario: Scenario, each: number, stop: AbortSignal | undefined) {
  const height = nominalDraw(scenario).inputs.plan.throttle_up_height;
  let kept: FlightColumns[] = [];
  const all = () => {
    if (kept.length > 1) kept = [joined(kept)];
    return kept[0] ?? emptyOf(height);
  };
  return {
    height,
    async fly(from: number, count: number, changes: readonly Change[], onFlown: (flights: number) => void) {
      const ids = worldIds(count, each, from);
      const [columns] = await flyer.fly(
        { set: 'worlds', ids, heights: [height], detail: 'full', changes },
        onFlown,
        stop,
      );
      kept.push(columns);
      return Math.floor(columns.outcome.length / each);
    },
    /** Lets go of the flights beyond this many worlds. */
    keep(worlds: number) {
      const flown = kept.reduce((sum, { outcome }) => sum + outcome.length, 0);
      if (flown > worlds * each) kept = [viewOf(all(), 0, worlds * each)];
    },
    flights: all,
  };
}

/** No flight at all. */
function emptyOf(height: number): FlightColumns {
  return emptyColumns({ set: 'worlds', ids: new Uint32Array(0), heights: [height], detail: 'full' }, 0)[0];
}
