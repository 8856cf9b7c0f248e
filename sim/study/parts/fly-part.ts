/**
 * One part of a study, to be put together with the others later. Every part makes the same plan, from the same pilot that
 * it flies itself; then it flies its share of the flights at every height that the whole study may ask for.
 */
import { remember } from '../../decision/flown.js';
import { planHeights } from '../../decision/height-plan.js';
import type { SetName } from '../../draws/draw.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import type { AssessHooks } from '../assess/assess.js';
import { detailOf } from '../assess/choose-height.js';
import { curveDetails, flyCurvePilot } from '../assess/fly-curve.js';
import { pilotStep } from '../assess/height-grid.js';
import { type AssessOptions, type AssessPlan, planAssess } from '../assess/plan-assess.js';
import { idsBetween } from '../flying/columns.js';
import type { Detail, Flyer } from '../flying/flyer.js';
import { type KeepingFlyer, keepFlights } from '../flying/keep-flights.js';
import type { Range } from '../flying/logbook.js';
import { requirementsOf } from '../requirements-of.js';
import { createStudyCount, type StudyCount } from '../study-progress.js';
import type { PartNumber } from './part.js';

export type FlownPart =
  | { readonly status: 'ok'; readonly share: Range; readonly heights: number }
  | { readonly status: 'refused'; readonly message: string }
  /** What was flown stands in the logbook. */
  | { readonly status: 'stopped' };

/** The flights of a part: shares in the order of the parts, equal but for one flight. */
export function shareOf({ number, of }: PartNumber, flights: number): Range {
  return { from: Math.floor(((number - 1) * flights) / of), to: Math.floor((number * flights) / of) };
}

/** Everything flown stands in the logbook afterwards. */
export async function flyPart(
  scenario: Scenario,
  options: AssessOptions,
  part: PartNumber,
  flyer: Flyer,
  { onProgress, stop, logbook, pause }: AssessHooks,
): Promise<FlownPart> {
  const planned = planAssess(scenario, options);
  if (planned.status === 'refused') return planned;
  if (options.until !== undefined) throw new Error('A study whose size is found on the way cannot be divided.');
  const share = shareOf(part, options.flights);
  const count = createStudyCount(expectedOf(share, planned.plan.heights.length, options), onProgress);
  const flying = keepFlights(count.counted(flyer), logbook, pause);
  const request = { scenario, options, plan: planned.plan, flyer: flying, count, stop };
  const asked = options.heights.kind === 'standard' ? await askedBySearch(request) : await askedByCurve(request);
  let heights = 0;
  for (const { set, details } of asked ?? []) {
    if (stop?.aborted) break;
    if (set === 'confirm') count.begin('fresh flights');
    const batch = { set, ids: idsBetween(share.from, share.to), heights: [...details.keys()] };
    await flying.fly({ ...batch, detail: [...details.values()] }, undefined, stop);
    heights += details.size;
  }
  return stop?.aborted ? { status: 'stopped' } : { status: 'ok', share, heights };
}

/** Heights at which a share of a set is flown, ascending, with what is kept at each. */
interface AskedOfShare {
  readonly set: SetName;
  readonly details: ReadonlyMap<number, Detail>;
}

interface PartRequest {
  readonly scenario: Scenario;
  readonly options: AssessOptions;
  readonly plan: AssessPlan;
  readonly flyer: KeepingFlyer;
  readonly count: StudyCount;
  readonly stop: AbortSignal | undefined;
}

/** All of `explore` and of `confirm` that the search may look at, once the pilot is flown; null when stopped. */
async function askedBySearch({ scenario, options, plan, flyer, count, stop }: PartRequest) {
  const { heights: coarse, plannedHeight } = plan;
  const requirements = requirementsOf(scenario);
  const detail = detailOf(requirements);
  count.begin('search for a height');
  const { others, band, confirmable } = await planHeights(remember(flyer, detail, undefined, stop), {
    requirements,
    coarse,
    step: pilotStep(plannedHeight),
    planned: plannedHeight,
    flights: options.flights,
  });
  if (stop?.aborted) return null;
  const explored = [...new Set([...others, ...band])].sort((a, b) => a - b);
  const explore = explored.map((height) => [height, height === plannedHeight ? 'causes' : detail('explore')] as const);
  const confirm = confirmable.map((height) => [height, 'facts and causes'] as const);
  return [
    { set: 'explore', details: new Map(explore) },
    { set: 'confirm', details: new Map(confirm) },
  ] satisfies AskedOfShare[];
}

/** The planned height and those asked for, without the ones that the pilot shows to be hopeless; null when stopped. */
async function askedByCurve({ scenario, options, plan, flyer, stop }: PartRequest) {
  const request = {
    flights: options.flights,
    heights: plan.heights,
    plannedHeight: plan.plannedHeight,
    acceptableRisk: fixedInput(scenario, 'criteria.ground_impact_risk'),
  };
  const { goOn } = await flyCurvePilot(request, flyer, undefined, stop);
  if (stop?.aborted) return null;
  const details = curveDetails(request, goOn);
  return [
    { set: 'explore', details: new Map(goOn.map((height, index) => [height, details[index]] as const)) },
  ] satisfies AskedOfShare[];
}

/** For the progress alone: heights that a search looks at on each set, as seen with the demo. */
const EXPLORED = 10;
const CONFIRMABLE = 9;
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
