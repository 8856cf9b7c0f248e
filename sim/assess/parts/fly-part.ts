/**
 * One part of a study, to be put together with the others later. Every part makes the same plan, from the same screening that
 * it flies itself; then it flies its share of the flights at every height that the whole study may ask for.
 */

import { type Answer, ok } from '../../basics/answer.js';
import { pilotStep } from '../../decision/height-grid.js';
import { planHeights, shareFlights } from '../../decision/height-plan.js';
import type { SetName } from '../../draws/draw.js';
import { idsBetween } from '../../ensemble/columns.js';
import { remember } from '../../ensemble/flown.js';
import type { Detail } from '../../ensemble/flyer.js';
import { type KeepingFlyer, keepFlights } from '../../ensemble/keep-flights.js';
import type { Range } from '../../ensemble/logbook.js';
import type { Scenario } from '../../scenario/scenario.js';
import type { AssessHooks } from '../assess.js';
import { detailOf } from '../choose-height.js';
import { curveDetails, screenCurve } from '../fly-curve.js';
import { type AssessOptions, type AssessPlan, planAssess } from '../plan.js';
import { createStudyCount, type StudyCount } from '../progress.js';
import type { AssessMeans } from '../put-together.js';
import type { PartNumber } from './part.js';

/** The flights of a part: shares in the order of the parts, equal but for one flight. */
export function shareOf({ number, of }: PartNumber, flights: number): Range {
  return { from: Math.floor(((number - 1) * flights) / of), to: Math.floor((number * flights) / of) };
}

/** Whether the part is whole, which it is not where it was stopped; everything flown stands in the logbook. */
export async function flyPart(
  scenario: Scenario,
  options: AssessOptions,
  part: PartNumber,
  { flyer, criteria }: Pick<AssessMeans, 'flyer' | 'criteria'>,
  { onProgress, stop, logbook, pause }: AssessHooks,
): Promise<Answer<boolean>> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  if (options.until !== undefined) throw new Error('A study whose size is found on the way cannot be divided.');
  const plan = planned.value;
  const share = shareOf(part, options.flights);
  const count = createStudyCount(expectedOf(share, plan.heights.length, options), onProgress);
  const flying = keepFlights(count.counted(flyer), logbook, pause);
  const request = { options, plan, flyer: flying, criteria, count, stop };
  const asked = options.heights.kind === 'standard' ? await askedBySearch(request) : await askedByCurve(request);
  for (const { set, flights, details } of asked ?? []) {
    if (stop?.aborted) break;
    if (set === 'confirm') count.begin('fresh flights');
    const own = shareOf(part, flights);
    const batch = { set, ids: idsBetween(own.from, own.to), heights: [...details.keys()] };
    await flying.fly({ ...batch, detail: [...details.values()] }, undefined, stop);
  }
  return ok(stop?.aborted !== true);
}

/** Heights at which a share of a set is flown, ascending, with what is kept at each. */
interface AskedOfShare {
  readonly set: SetName;
  /** Of all parts together. */
  readonly flights: number;
  readonly details: ReadonlyMap<number, Detail>;
}

interface PartRequest {
  readonly options: AssessOptions;
  readonly plan: AssessPlan;
  readonly flyer: KeepingFlyer;
  readonly criteria: AssessMeans['criteria'];
  readonly count: StudyCount;
  readonly stop: AbortSignal | undefined;
}

/** All of `explore` and of `confirm` that the search may look at, once the screening is flown; null when stopped. */
async function askedBySearch({ options, plan, flyer, criteria, count, stop }: PartRequest) {
  const { heights: coarse, plannedHeight } = plan;
  const detail = detailOf(criteria);
  count.begin('search for a height');
  const { flights } = options;
  const found = await planHeights(remember(flyer, detail, undefined, stop), {
    criteria,
    coarse,
    step: pilotStep(plannedHeight),
    planned: plannedHeight,
    flights,
  });
  if (stop?.aborted) return null;
  const { others, band, confirmable, curve, upper, aims } = found;
  const asked = (set: SetName, number: number, heights: readonly number[]): AskedOfShare => ({
    set,
    flights: number,
    details: new Map(
      [...new Set(heights)]
        .sort((a, b) => a - b)
        .map((height) => [height, set === 'explore' && height === plannedHeight ? 'causes' : detail(set)] as const),
    ),
  });
  const inFull = new Set([...others, ...band]);
  const confirmed = new Set(confirmable);
  return [
    asked('explore', flights, [...inFull]),
    asked(
      'explore',
      shareFlights(flights),
      [...curve, ...upper].filter((height) => !inFull.has(height)),
    ),
    asked('confirm', flights, confirmable),
    asked(
      'confirm',
      shareFlights(flights),
      band.length === 0 ? [] : [...aims, plannedHeight].filter((height) => !confirmed.has(height)),
    ),
  ].filter(({ details }) => details.size > 0);
}

/** The planned height and the heights asked for, without heights that the screening shows to be hopeless; null when stopped. */
async function askedByCurve({ options, plan, flyer, criteria, stop }: PartRequest) {
  const request = {
    flights: options.flights,
    heights: plan.heights,
    plannedHeight: plan.plannedHeight,
    criteria,
  };
  const { goOn } = await screenCurve(request, flyer, undefined, stop);
  if (stop?.aborted) return null;
  const details = curveDetails(request, goOn);
  return [
    {
      set: 'explore',
      flights: options.flights,
      details: new Map(goOn.map((height, index) => [height, details[index]] as const)),
    },
  ] satisfies AskedOfShare[];
}

/** For the progress alone: heights that a search looks at on each set, as seen with the demo. */
const EXPLORED = 30;
const CONFIRMABLE = 22;
const PILOT = 600;

function expectedOf(share: Range, heights: number, { heights: { kind }, flights }: AssessOptions) {
  const own = share.to - share.from;
  const searches = kind === 'standard';
  return {
    'heights asked for': searches ? 0 : heights * own,
    'search for a height': searches ? 2 * heights * Math.min(PILOT, flights) + EXPLORED * own : 0,
    'fresh flights': searches ? CONFIRMABLE * own : 0,
    'what nobody has measured': 0,
    'what would help': 0,
  };
}
