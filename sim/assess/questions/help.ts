/**
 * What would help: every failed flight and a random sample of the soft ones flown again with one input held at its
 * median and at its better end.
 */

import seedrandom from 'seedrandom';
import type { Change, SetName } from '../../draws/draw.js';
import type { Flyer } from '../../ensemble/flyer.js';
import type { FlightColumns } from '../../flight/record.js';
import { isSoft } from '../../flight/record.js';
import { clopperPearson } from '../../statistics/proportion.js';
import type { HelpResult, HelpRow } from '../decisions.js';
import { type AskedInput, BETTER_END } from './held-input.js';

export interface HelpRequest {
  readonly flyer: Flyer;
  /** Plain flights 0 to n - 1 of the set at one height. */
  readonly plain: FlightColumns;
  readonly set: SetName;
  readonly seed: string;
  readonly inputs: readonly AskedInput[];
  readonly softSample?: number;
  /** Failed flights flown again at most; more are sampled. */
  readonly failedSample?: number;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

export const SOFT_SAMPLE = 800;
export const FAILED_SAMPLE = 1000;

/**
 * Flights saved in 100: share of failed flights that turn soft, times their share of all, less the same of the soft
 * flights that turn. Rows by what they save, most first.
 *
 * Cost: (failed + 800) flights for each input and each place where it is held: two (median and better end), three
 * where the better side is not known (median and both ends), one for an event and where the middle is best. With 300 failures and six
 * inputs about 13 000 flights. Rows whose flying was stopped are left out.
 */
export async function whatWouldHelp(request: HelpRequest): Promise<HelpResult> {
  const { plain, seed } = request;
  const failed = idsWhere(plain, (outcome) => !isSoft(outcome));
  const soft = idsWhere(plain, isSoft);
  const counts = { flights: plain.outcome.length, failed: failed.length, soft: soft.length };
  const samples = {
    failed: sample(failed, request.failedSample ?? FAILED_SAMPLE, `${seed} failed flights again`),
    soft: sample(soft, request.softSample ?? SOFT_SAMPLE, `${seed} soft flights again`),
  };
  const ids = Uint32Array.from([...samples.failed, ...samples.soft].sort((a, b) => a - b));
  const rows: HelpRow[] = [];
  for (const { path, heldAt, quantile } of request.inputs.flatMap(placesToHold)) {
    const turned = await flyAgain(request, ids, [{ path, quantile }]);
    if (turned === null) break;
    rows.push({ path, heldAt, quantile, ...savedInHundred({ ...turned, ...counts }) });
  }
  rows.sort((one, other) => other.savedInHundred - one.savedInHundred);
  return { height: plain.height, flights: counts.flights, failed: counts.failed, rows };
}

function placesToHold({
  path,
  better,
  isEvent,
}: AskedInput): { path: string; heldAt: HelpRow['heldAt']; quantile: number }[] {
  const median = { path, heldAt: 'median' as const, quantile: 0.5 };
  if (isEvent || better === 'middle') return [median];
  if (better === 'low') return [median, { path, heldAt: 'better end', quantile: BETTER_END }];
  if (better === 'high') return [median, { path, heldAt: 'better end', quantile: 1 - BETTER_END }];
  return [
    median,
    { path, heldAt: 'low end', quantile: BETTER_END },
    { path, heldAt: 'high end', quantile: 1 - BETTER_END },
  ];
}

function idsWhere({ outcome }: FlightColumns, holds: (outcome: number) => boolean): Uint32Array {
  const ids = new Uint32Array(outcome.length);
  let count = 0;
  for (let id = 0; id < outcome.length; id++) if (holds(outcome[id])) ids[count++] = id;
  return ids.subarray(0, count);
}

/** A random sample without replacement, ascending; all where there are no more. The ids are shuffled. */
function sample(drawn: Uint32Array, size: number, key: string): Uint32Array {
  if (drawn.length <= size) return drawn;
  const random = seedrandom.alea(key);
  for (let place = 0; place < size; place++) {
    const other = place + Math.floor(random.double() * (drawn.length - place));
    [drawn[place], drawn[other]] = [drawn[other], drawn[place]];
  }
  return drawn.slice(0, size).sort();
}

interface Turned {
  readonly saved: number;
  readonly failedFlown: number;
  readonly broken: number;
  readonly softFlown: number;
}

async function flyAgain(
  { flyer, plain, set, onFlown, stop }: HelpRequest,
  ids: Uint32Array,
  changes: readonly Change[],
): Promise<Turned | null> {
  const [again] = await flyer.fly({ set, ids, heights: [plain.height], detail: 'outcomes', changes }, onFlown, stop);
  if (again.outcome.length < ids.length) return null;
  const turned = { saved: 0, failedFlown: 0, broken: 0, softFlown: 0 };
  ids.forEach((id, index) => {
    const landed = isSoft(again.outcome[index]);
    if (isSoft(plain.outcome[id])) {
      turned.softFlown += 1;
      if (!landed) turned.broken += 1;
    } else {
      turned.failedFlown += 1;
      if (landed) turned.saved += 1;
    }
  });
  return turned;
}

/**
 * 100 (P(fails, then soft) - P(soft, then fails)) with a 90 % interval: Clopper-Pearson ends of the two parts, each
 * scaled by its share of all flights, joined in quadrature (method of variance estimates recovery), so that "none of
 * 800 broken" still counts as up to 0.37 %. Where failed flights were sampled, the scatter of their own number is
 * added in the same way.
 *
 * Source: Zou and Donner, Statistics in Medicine 27:1693, 2008 (cited from memory).
 */
export function savedInHundred(
  counts: Turned & { readonly flights: number; readonly failed: number; readonly soft: number },
): Turned & Pick<HelpRow, 'savedInHundred' | 'lower' | 'upper'> {
  const { saved, failedFlown, broken, softFlown, flights, failed, soft } = counts;
  const gain = part(saved, failedFlown, failed, flights);
  const loss = part(broken, softFlown, soft, flights);
  const estimate = gain.estimate - loss.estimate;
  return {
    saved,
    failedFlown,
    broken,
    softFlown,
    savedInHundred: 100 * estimate,
    lower: 100 * (estimate - Math.hypot(gain.estimate - gain.lower, loss.upper - loss.estimate)),
    upper: 100 * (estimate + Math.hypot(gain.upper - gain.estimate, loss.estimate - loss.lower)),
  };
}

/** Probability of being in a group of `size` among `flights` and turning, when `count` of `flown` of the group turn. */
function part(count: number, flown: number, size: number, flights: number) {
  if (flown === 0) return { estimate: 0, lower: 0, upper: 0 };
  if (flown === size) return { estimate: count / flights, ...clopperPearson(count, flights) };
  const share = size / flights;
  const ends = clopperPearson(size, flights);
  const turned = count / flown;
  const turnedEnds = clopperPearson(count, flown);
  const estimate = share * turned;
  return {
    estimate,
    lower: estimate - Math.hypot(share * (turned - turnedEnds.lower), turned * (share - ends.lower)),
    upper: estimate + Math.hypot(share * (turnedEnds.upper - turned), turned * (ends.upper - share)),
  };
}
