/** A search flies what the three heights of a plan need: at the latest, not before, and the aim. */

import type { Flown } from '../ensemble/flown.js';
import type { FlightColumns } from '../flight/record.js';
import { mcNemar, type PairedCounts, pairsOf, tangoInterval } from '../statistics/paired.js';
import { clopperPearson } from '../statistics/proportion.js';
import { MATTERS, pickAim } from './aim.js';
import { type Criterion, groundImpactIn } from './criteria.js';
import {
  acceptedShare,
  curveFlights,
  type HeightPlan,
  type HeightPlanRequest,
  isFutile,
  planHeights,
  shareFlights,
} from './height-plan.js';
import { candidateOf, decideHeight, isWhole, near, nextToConfirm, type RuleTerms } from './height-rule.js';
import { broken, heightFigure, type Tally, tally } from './judge.js';
import type { HeightAim, HeightDecision, HeightFigure, HeightWindow, PlanAgainstHeights } from './result.js';

/** A height of the band is looked at after these shares of the full number, and given up where it cannot serve. */
const LOOKS = [1 / 4, 1 / 2, 1];

/** What a search has judged so far on `explore`. */
interface Search {
  readonly flown: Flown;
  readonly request: HeightPlanRequest;
  readonly plan: HeightPlan;
  readonly known: Map<number, HeightFigure>;
}

/**
 * Plans, explores and confirms.
 *
 * 1. "At the latest" (`height-rule.ts`): the band is flown from its lowest height up until the candidate is found; a height
 *    that is all but sure not to be within at the full number stops after a quarter or half of it. Fresh flights confirm it.
 * 2. The curve: every coarse height that may serve, with a quarter of the flights.
 * 3. "Not before": the highest coarse height that is within, then halving up to the next one. A height is within by a 99.5 %
 *    bound on the flights of the curve, or by the 95 % bound on all that it may take: under 5.5 % err so.
 * 4. The aim, picked on the smooth of the curve and flown again; the planned height on the same fresh flights.
 *
 * A divided study: each part makes the plan (`planHeights`) and flies its share of everything that these steps may ask for;
 * then this function over a store that holds them all (`Flown.put`) flies nothing, and gives what the undivided study gives.
 *
 * Cost: the screening; `flights` at the planned height; in the band `flights` at the candidate and the next step, a quarter
 * or half of that at most heights under it; `flights` for each confirmation; a quarter at each height of the curve; for the
 * upper end a quarter or all at three or four heights; all for the aim, and for the planned height beside it.
 */
export async function studyHeights(
  flown: Flown,
  request: HeightPlanRequest,
): Promise<{ readonly plan: HeightPlan; readonly decision: HeightDecision }> {
  const { criteria, flights, coarse, step } = request;
  const terms: RuleTerms = { criteria, flights, step, highest: coarse[coarse.length - 1] };
  const plan = await planHeights(flown, request);
  const search: Search = { flown, request, plan, known: new Map() };
  plan.screening.forEach((found) => {
    note(search, found);
  });
  await exploreBand(search);
  const fresh: HeightFigure[] = [];
  const ruled = explored(search);
  const decide = () => decideHeight(explored(search), fresh, terms, ruled);
  for (;;) {
    const { candidate, confirmed } = decide();
    const height = nextToConfirm(candidate, confirmed, terms);
    if (height === null) break;
    const [columns] = await flown.at('confirm', [height], flights);
    fresh.push(heightFigure(tally(columns, criteria), criteria, 'confirm', flights));
  }
  await exploreCurve(search);
  const { latest } = decide();
  if (latest === null) return { plan, decision: decide() };
  if (request.upperEnd !== false) await findUpperEnd(search, latest);
  const decision = decide();
  const aim = await findAim(search, decision.window as HeightWindow);
  const against = request.upperEnd === false ? null : await planAgainst(search, decision.window as HeightWindow, aim);
  const window = windowWith(decision.window as HeightWindow, aim, step);
  return { plan, decision: { ...decision, window, aim, plan: against } };
}

/** The fresh flights at the aim are its verdict: it is among the heights shown where they show it, else it is not. */
function windowWith(window: HeightWindow, { height, figure }: HeightAim, step: number): HeightWindow {
  const others = window.shown.filter((one) => !near(one, height) || near(one, window.from));
  const shown = figure.verdict === 'within' ? [...new Set([...others, height])].sort((a, b) => a - b) : others;
  const to = shown[shown.length - 1];
  const next = to < window.to ? { height, verdict: figure.verdict } : window.next;
  return { ...window, to, shown, isWhole: isWhole(window.from, to, shown, step), next };
}

function note({ known, request: { criteria, flights } }: Search, found: Tally): void {
  known.set(found.height, heightFigure(found, criteria, 'explore', flights));
}

function explored({ known }: Search): readonly HeightFigure[] {
  return [...known.values()].sort((a, b) => a.height - b.height);
}

/** The planned height and the band, up to the candidate and the step over it. */
async function exploreBand(search: Search): Promise<void> {
  const { flown, request, plan, known } = search;
  const { criteria, flights, step } = request;
  for (const columns of await flown.at('explore', plan.others, flights)) note(search, tally(columns, criteria));
  for (const height of plan.band) {
    // Over a height that is within, this one settles the candidate; else the next step is flown in any case.
    const settles = known.get(height - step)?.verdict === 'within';
    const partner = settles ? undefined : plan.band.find((one) => near(one, height + step));
    if ((known.get(height)?.flights ?? 0) < flights) note(search, await flyUpTo(flown, height, partner, request));
    if (candidateOf(explored(search), step, flights) !== null) break;
  }
}

/** All heights of the curve at once, because the fall is shared. */
async function exploreCurve(search: Search): Promise<void> {
  const { flown, request, plan, known } = search;
  const looks = curveFlights(request.flights);
  const lacking = plan.curve.filter((height) => (known.get(height)?.flights ?? 0) < looks);
  for (const columns of await flown.at('explore', lacking, looks)) {
    known.set(columns.height, lookedAt(tally(columns, request.criteria), request));
  }
}

/** Two-sided level whose upper end is a 99.5 % upper bound. */
const SETTLED_LEVEL = 0.99;

/** A height after the flights of the curve: within where every bound at 99.5 % is. */
function lookedAt(found: Tally, { criteria, flights }: HeightPlanRequest): HeightFigure {
  const settled = criteria.every(
    ({ limit }, index) => clopperPearson(found.counts[index], found.flights, SETTLED_LEVEL).upper <= limit,
  );
  return heightFigure(found, criteria, 'explore', settled ? found.flights : flights);
}

/**
 * The highest height within, to a step: from the top down the first coarse height that is within, and by halving on to
 * the height over it. Nothing is looked at over a height that is above a limit.
 */
async function findUpperEnd(search: Search, latest: number): Promise<void> {
  const { plan, request } = search;
  const barrier = explored(search).find(({ height, verdict }) => height > latest && verdict === 'above')?.height;
  const open = plan.curve.filter((height) => height > latest && height < (barrier ?? Number.POSITIVE_INFINITY));
  let top = barrier ?? request.coarse.find((height) => height > Math.max(latest, ...open)) ?? null;
  let shown = latest;
  for (const height of open.toReversed()) {
    if (await isShown(search, height)) {
      shown = height;
      break;
    }
    top = height;
  }
  shown = Math.max(
    shown,
    ...explored(search).flatMap(({ height, verdict }) =>
      verdict === 'within' && height < (top ?? Number.POSITIVE_INFINITY) ? [height] : [],
    ),
  );
  if (top === null) return;
  const between = plan.upper.filter((height) => height > shown && height < (top as number));
  let [low, high] = [-1, between.length];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (await isShown(search, between[middle])) low = middle;
    else high = middle;
  }
}

/** Whether a height keeps every limit, flown as far as that takes. */
async function isShown(search: Search, height: number): Promise<boolean> {
  const { flown, request, known } = search;
  const { criteria, flights } = request;
  const [looks, most] = [curveFlights(flights), shareFlights(flights)];
  const before = known.get(height);
  if (before !== undefined && (before.verdict === 'within' || before.flights >= most))
    return before.verdict === 'within';
  const first = tally((await flown.at('explore', [height], looks))[0], criteria);
  const accepted = criteria.map(({ limit }) => acceptedShare(limit, most));
  let figure = lookedAt(first, request);
  if (figure.verdict !== 'within' && !isFutile(first, accepted)) {
    const all = tally((await flown.at('explore', [height], most))[0], criteria);
    figure = heightFigure(all, criteria, 'explore', most);
  }
  known.set(height, figure);
  return figure.verdict === 'within';
}

/** Picked on `explore`, told by fresh flights, whatever they say. */
async function findAim({ flown, request, plan, known }: Search, { from, to }: HeightWindow): Promise<HeightAim> {
  const { criteria, flights } = request;
  const looks = curveFlights(flights);
  // A flank that is above a limit would bend the smooth where it matters.
  const heights = [...known.values()]
    .filter((figure) => figure.flights >= looks && figure.verdict !== 'above')
    .map(({ height }) => height);
  const groundImpact = groundImpactIn(criteria);
  const curve = (
    await flown.at(
      'explore',
      heights.sort((a, b) => a - b),
      looks,
    )
  ).map((columns) => ({
    height: columns.height,
    flights: columns.outcome.length,
    failures: broken(columns, groundImpact),
  }));
  const candidates = plan.aims.filter((height) => height >= from && height <= to);
  // Without a curve the search was stopped, and nothing is decided.
  const picked = pickAim(curve, candidates.length === 0 || curve.length === 0 ? [from] : candidates);
  const most = shareFlights(flights);
  const [columns] = await flown.at('confirm', [picked.height], most);
  return {
    height: picked.height,
    figure: heightFigure(tally(columns, criteria), criteria, 'confirm', most),
    about: { from: picked.from, to: picked.to },
  };
}

/** The planned height against the window, and against the aim on the same fresh flights. */
async function planAgainst(
  { flown, request, known }: Search,
  { from, to }: HeightWindow,
  aim: HeightAim,
): Promise<PlanAgainstHeights> {
  const { planned, criteria, flights } = request;
  const isKept = known.get(planned)?.verdict === 'within';
  const place = planned < from ? 'under' : planned > to ? 'over' : isKept ? 'inside' : 'not shown';
  if (near(planned, aim.height)) return { place, toAim: null };
  const [atPlanned, atAim] = await flown.at('confirm', [planned, aim.height], shareFlights(flights));
  return { place, toAim: differenceOf(pairsOfFlights(atPlanned, atAim, groundImpactIn(criteria))) };
}

function pairsOfFlights(a: FlightColumns, b: FlightColumns, criterion: Criterion): PairedCounts {
  const counts = { both: 0, onlyA: 0, onlyB: 0, neither: 0 };
  for (let flight = 0; flight < Math.min(a.outcome.length, b.outcome.length); flight++) {
    const [inA, inB] = [criterion.breaks(a, flight), criterion.breaks(b, flight)];
    counts[inA && inB ? 'both' : inA ? 'onlyA' : inB ? 'onlyB' : 'neither'] += 1;
  }
  return counts;
}

/** Level of the McNemar test. */
const LEVEL = 0.05;

/** What moving from A to B saves, by the verdicts of a comparison: an interval within -+ matters goes before the test. */
function differenceOf(counts: PairedCounts): NonNullable<PlanAgainstHeights['toAim']> {
  const flights = pairsOf(counts);
  const { lower, upper } = tangoInterval(counts);
  const estimate = flights === 0 ? 0 : (counts.onlyA - counts.onlyB) / flights;
  const verdict =
    lower >= -MATTERS && upper <= MATTERS
      ? 'no difference that matters'
      : mcNemar(counts) > LEVEL
        ? 'not settled'
        : counts.onlyA > counts.onlyB
          ? 'aim saves'
          : 'plan saves';
  return { flights, estimate, lower, upper, matters: MATTERS, verdict };
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
