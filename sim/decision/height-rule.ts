/**
 * The recommended throttle-up height. Candidate: the lowest height, in steps a pilot can fly, at which every bound on
 * `explore` is at or under its limit, and at the next step up too. It is flown again on `confirm`; if its bounds hold
 * there, it is recommended with the fresh figures; if not, one step up on the same fresh flights, at most twice.
 * No monotone curve is assumed. A height that is too risky is recommended only if both sets of flights err: under
 * 5 % each by construction, under 1 % together in the tests.
 */

import type { Flown } from '../ensemble/flown.js';
import { clopperPearson, flightsToSettle } from '../statistics/proportion.js';
import type { Criterion } from './criteria.js';
import {
  acceptedShare,
  type HeightPlan,
  type HeightPlanRequest,
  isFutile,
  planHeights,
  upFrom,
} from './height-plan.js';
import { heightFigure, type Tally, tally } from './judge.js';
import type { HeightDecision, HeightFigure } from './result.js';

/** What the rule needs to know besides the tallies. */
export interface RuleTerms {
  readonly criteria: readonly Criterion[];
  readonly step: number;
  readonly flights: number;
  /** No step up goes over it, m. */
  readonly highest: number;
}

/** The lowest height within on `explore`, the next step up too, both at the planned number of flights; or null. */
export function candidateOf(explored: readonly HeightFigure[], step: number): number | null {
  const within = explored.filter(({ verdict }) => verdict === 'within').map(({ height }) => height);
  return within.find((height) => isMultiple(height, step) && within.some((one) => near(one, height + step))) ?? null;
}

/** The next height to fly on `confirm`: null when the last one held, or when the steps up are used up. */
export function nextToConfirm(
  candidate: number | null,
  confirmed: readonly HeightFigure[],
  { step, highest }: RuleTerms,
): number | null {
  if (candidate === null || confirmed.at(-1)?.verdict === 'within') return null;
  return upFrom(candidate, step, highest)[confirmed.length] ?? null;
}

/**
 * The decision from the figures of what was flown: `explored` at every height, ascending, `fresh` at heights flown again
 * on `confirm`, of which it takes those that the rule asks for.
 */
export function decideHeight(
  explored: readonly HeightFigure[],
  fresh: readonly HeightFigure[],
  terms: RuleTerms,
): HeightDecision {
  const { flights, step } = terms;
  const candidate = candidateOf(explored, step);
  const confirmed: HeightFigure[] = [];
  for (;;) {
    const height = nextToConfirm(candidate, confirmed, terms);
    const found = fresh.find((one) => height !== null && near(one.height, height));
    if (found === undefined) break;
    confirmed.push(found);
  }
  const last = confirmed.at(-1);
  const recommended = last?.verdict === 'within' ? last : null;
  const settled = explored.every(({ verdict, moreThan }) => verdict === 'above' || moreThan !== null);
  const least = leastOf(explored);
  return {
    status: recommended ? 'recommended' : settled ? 'none serves' : 'not shown',
    height: recommended?.height ?? null,
    candidate,
    confirmed,
    explored,
    window: recommended ? windowFrom(recommended.height, explored) : null,
    least,
    flightsToSettle: recommended || settled ? null : settlingFlights(last ?? least),
    step,
    flights,
  };
}

/** A height of the band is looked at after these shares of the full number, and given up where it cannot serve. */
const LOOKS = [1 / 4, 1 / 2, 1];

/**
 * Plans, explores and confirms. The band is flown from its lowest height up until the candidate is found; a height
 * that is all but sure not to be within at the full number stops after a quarter or half of it.
 *
 * A divided study: each part makes the plan (`planHeights`) and flies its share of the band, the others and the
 * confirmable heights in full; then this function over a store that holds them all (`Flown.put`) flies nothing, and
 * gives what the undivided study gives.
 *
 * Cost: the screening; `flights` at the planned height, a quarter of that or all at each other one; in the band `flights` at the candidate and the next step, a quarter
 * or half of that at most heights under it; `flights` for each confirmation.
 */
export async function studyHeights(
  flown: Flown,
  request: HeightPlanRequest,
): Promise<{ readonly plan: HeightPlan; readonly decision: HeightDecision }> {
  const { criteria, flights, step, coarse, planned } = request;
  const terms: RuleTerms = { criteria, flights, step, highest: coarse[coarse.length - 1] };
  const plan = await planHeights(flown, request);
  const known = new Map<number, HeightFigure>();
  const note = (found: Tally) => known.set(found.height, heightFigure(found, criteria, 'explore', flights));
  plan.screening.forEach(note);
  const [columns] = await flown.at('explore', [planned], flights);
  note(tally(columns, criteria));
  for (const height of plan.others)
    if (height !== planned) known.set(height, await settleOther(flown, height, request));
  const explored = () => [...known.values()].sort((a, b) => a.height - b.height);
  for (const height of plan.band) {
    // Over a height that is within, this one settles the candidate; else the next step is flown in any case.
    const settles = known.get(height - step)?.verdict === 'within';
    const partner = settles ? undefined : plan.band.find((one) => near(one, height + step));
    if ((known.get(height)?.flights ?? 0) < flights) note(await flyUpTo(flown, height, partner, request));
    if (candidateOf(explored(), step) !== null) break;
  }
  const fresh: HeightFigure[] = [];
  for (;;) {
    const decision = decideHeight(explored(), fresh, terms);
    const height = nextToConfirm(decision.candidate, decision.confirmed, terms);
    if (height === null) return { plan, decision };
    const [columns] = await flown.at('confirm', [height], flights);
    fresh.push(heightFigure(tally(columns, criteria), criteria, 'confirm', flights));
  }
}

/** Two-sided level whose upper end is a 99.5 % upper bound. */
const SETTLED_LEVEL = 0.99;

/**
 * A height that is not in the band, such as the one for the window's upper end: within if every bound at 99.5 % is, after a
 * quarter of the full number; if not, it is flown in full and judged as all are. Under 5.5 % err so.
 */
async function settleOther(
  flown: Flown,
  height: number,
  { criteria, flights }: HeightPlanRequest,
): Promise<HeightFigure> {
  const look = Math.ceil(flights * LOOKS[0]);
  const first = tally((await flown.at('explore', [height], look))[0], criteria);
  const settled = criteria.every(
    ({ limit }, index) => clopperPearson(first.counts[index], first.flights, SETTLED_LEVEL).upper <= limit,
  );
  if (settled) return heightFigure(first, criteria, 'explore', first.flights);
  const all = tally((await flown.at('explore', [height], flights))[0], criteria);
  return heightFigure(all, criteria, 'explore', flights);
}

/**
 * Flies a height on `explore` in full, or until it is all but sure not to be within. A partner that will be flown next goes
 * along while it may serve, because the fall is shared.
 */
async function flyUpTo(
  flown: Flown,
  height: number,
  partner: number | undefined,
  { criteria, flights }: HeightPlanRequest,
): Promise<Tally> {
  const accepted = criteria.map(({ limit }) => acceptedShare(limit, flights));
  let together = partner === undefined ? [height] : [height, partner];
  for (const share of LOOKS) {
    const found = (await flown.at('explore', together, Math.ceil(share * flights))).map((one) => tally(one, criteria));
    if (share === 1 || isFutile(found[0], accepted)) return found[0];
    together = together.filter((_, index) => !isFutile(found[index], accepted));
  }
  throw new Error('The last look is at all flights.');
}

/** The height whose worst criterion takes the least share of its limit, among those with the most flights. */
function leastOf(explored: readonly HeightFigure[]): HeightFigure {
  const most = Math.max(...explored.map(({ flights }) => flights));
  const strain = ({ criteria }: HeightFigure) => Math.max(...criteria.map(({ risk, limit }) => risk.estimate / limit));
  return explored
    .filter(({ flights }) => flights === most)
    .reduce((best, figure) => (strain(figure) < strain(best) ? figure : best));
}

/** The most flights that any open criterion of a height asks for. */
function settlingFlights({ criteria }: HeightFigure): number | null {
  const asked = criteria.map(({ risk, limit }) => flightsToSettle(risk, limit)).filter((flights) => flights !== null);
  return asked.length === 0 ? null : Math.max(...asked);
}

/** Up from the recommended height to the highest shown within, not past a height that is above. */
function windowFrom(from: number, explored: readonly HeightFigure[]): HeightDecision['window'] {
  const higher = explored.filter(({ height }) => height > from);
  const stop = higher.findIndex(({ verdict }) => verdict === 'above');
  const open = stop === -1 ? higher : higher.slice(0, stop);
  const to = open.filter(({ verdict }) => verdict === 'within').at(-1)?.height ?? from;
  const next = higher.find(({ height }) => height > to);
  return { from, to, next: next === undefined ? null : { height: next.height, verdict: next.verdict } };
}

/** Heights are metres in steps of half a metre or more; a thousandth tells them apart. */
function near(one: number, other: number): boolean {
  return Math.abs(one - other) < 1e-3;
}

function isMultiple(height: number, step: number): boolean {
  return near(Math.round(height / step) * step, height);
}
