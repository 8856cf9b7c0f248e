/**
 * "At the latest": the lowest throttle-up height that is shown to serve. Candidate: the lowest height, in steps a pilot can fly, at which every bound on
 * `explore` is at or under its limit, and at the next step up too. It is flown again on `confirm`; if its bounds hold
 * there, it is taken with the fresh figures; if not, one step up on the same fresh flights, at most twice.
 * No monotone curve is assumed. A height that is too risky is taken only if both sets of flights err: under
 * 5 % each by construction, under 1 % together in the tests.
 */

import { flightsToSettle } from '../statistics/proportion.js';
import type { Criterion } from './criteria.js';
import { upFrom } from './height-plan.js';
import type { HeightDecision, HeightFigure, HeightWindow } from './result.js';

/** What the rule needs to know besides the tallies. */
export interface RuleTerms {
  readonly criteria: readonly Criterion[];
  readonly step: number;
  readonly flights: number;
  /** No step up goes over it, m. */
  readonly highest: number;
}

/** The lowest height within on `explore`, the next step up too, both at the planned number of flights; or null. */
export function candidateOf(explored: readonly HeightFigure[], step: number, flights = 0): number | null {
  const full = explored.filter((figure) => figure.verdict === 'within' && figure.flights >= flights);
  const within = full.map(({ height }) => height);
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
 * on `confirm`, of which it takes those that the rule asks for. The candidate is taken from `ruled`, where heights were
 * explored after it was found.
 */
export function decideHeight(
  explored: readonly HeightFigure[],
  fresh: readonly HeightFigure[],
  terms: RuleTerms,
  ruled: readonly HeightFigure[] = explored,
): HeightDecision {
  const { flights, step } = terms;
  const candidate = candidateOf(ruled, step, flights);
  const confirmed: HeightFigure[] = [];
  for (;;) {
    const height = nextToConfirm(candidate, confirmed, terms);
    const found = fresh.find((one) => height !== null && near(one.height, height));
    if (found === undefined) break;
    confirmed.push(found);
  }
  const last = confirmed.at(-1);
  const latest = last?.verdict === 'within' ? last : null;
  const settled = explored.every(({ verdict, moreThan }) => verdict === 'above' || moreThan !== null);
  const least = leastOf(explored);
  return {
    status: latest ? 'shown' : settled ? 'none serves' : 'not shown',
    latest: latest?.height ?? null,
    candidate,
    confirmed,
    explored,
    window: latest ? windowFrom(latest.height, explored, step) : null,
    aim: null,
    plan: null,
    least,
    flightsToSettle: latest || settled ? null : settlingFlights(last ?? least),
    step,
    flights,
  };
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

/** Up from the lowest height to the highest shown within, not past a height that is above. */
function windowFrom(from: number, explored: readonly HeightFigure[], step: number): HeightWindow {
  const higher = explored.filter(({ height }) => height > from);
  const stop = higher.findIndex(({ verdict }) => verdict === 'above');
  const open = stop === -1 ? higher : higher.slice(0, stop);
  const shown = [from, ...open.filter(({ verdict }) => verdict === 'within').map(({ height }) => height)];
  const to = shown[shown.length - 1];
  const next = higher.find(({ height }) => height > to);
  return {
    from,
    to,
    shown,
    isWhole: isWhole(from, to, shown, step),
    next: next === undefined ? null : { height: next.height, verdict: next.verdict },
  };
}

/** Whether every step is among the heights shown. */
export function isWhole(from: number, to: number, shown: readonly number[], step: number): boolean {
  const steps = Array.from({ length: Math.floor((to - from) / step + 1e-3) + 1 }, (_, index) => from + index * step);
  return steps.every((height) => shown.some((one) => near(one, height)));
}

/** Heights are metres in steps of half a metre or more; a thousandth tells them apart. */
export function near(one: number, other: number): boolean {
  return Math.abs(one - other) < 1e-3;
}

function isMultiple(height: number, step: number): boolean {
  return near(Math.round(height / step) * step, height);
}
