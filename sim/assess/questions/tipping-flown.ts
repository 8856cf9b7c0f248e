/** The tipping value of a guess that cannot be read off the plain flights: the same flights with it held. */

import { standardNormalBelow } from '../../distributions/families/normal.js';
import { idsBetween } from '../../ensemble/columns.js';
import { isSoft } from '../../flight/record.js';
import { ONE_SIDED, type RiskBand } from '../../statistics/risk-along.js';
import { clearly, END, type FoundTipping, type Side } from './tipping-read.js';
import type { TippingRequest } from './tipping-request.js';

/** Flights flown at the end of the range; twice as many at each value between. */
export const TIPPING_SAMPLE = 500;
/** The range from median to end is halved so often: to an eighth of it, 0.3 standard deviations of a normal guess. */
const HALVINGS = 3;

/** One value tried: its distance from the median as a normal score, and the risk there. */
interface Tried extends RiskBand {
  readonly score: number;
}

/**
 * The risk at a value is the plain risk plus the difference that the value makes on 500 or 1000 of the same flights; the
 * crossing is closed in by halving, so one between median and end is assumed. Null when stopped.
 *
 * Cost: 500 flights for a guess that does not turn the verdict within its range, 3500 to 4500 for one that does.
 */
export async function flyTipping(
  request: TippingRequest,
  path: string,
  side: Side,
  plainRisk: number,
): Promise<(FoundTipping & { readonly flights: number }) | null> {
  const { limit } = request;
  const within = plainRisk <= limit;
  const beyond = ({ estimate }: RiskBand) => estimate <= limit !== within;
  const tried: Tried[] = [];
  let flights = 0;
  const attempt = async (score: number): Promise<Tried | null> => {
    const size = (request.sample ?? TIPPING_SAMPLE) * (score === END ? 1 : 2);
    const quantile = standardNormalBelow(side === 'low' ? -score : score);
    const found = await riskHeldAt(request, path, quantile, plainRisk, size);
    if (found === null) return null;
    flights += found.flights;
    tried.push({ score, ...found.risk });
    return tried[tried.length - 1];
  };

  const end = await attempt(END);
  if (end === null) return null;
  const riskAtEnd = { estimate: end.estimate, lower: end.lower, upper: end.upper };
  if (!beyond(end)) {
    const keeps = clearly(end, limit, within) ? END : null;
    return { status: 'holds', crossing: null, keeps, turned: null, riskAtEnd, flights };
  }
  let [inner, outer] = [0, END];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = await attempt((inner + outer) / 2);
    if (middle === null) return null;
    if (beyond(middle)) outer = middle.score;
    else inner = middle.score;
  }
  const median = inner === 0 ? await attempt(0) : undefined;
  if (median === null) return null;
  const keeping = tried.filter((one) => one.score <= inner && clearly(one, limit, within));
  const turning = tried.filter((one) => one.score >= outer && clearly(one, limit, !within));
  const turned = turning.length === 0 ? null : Math.min(...turning.map(({ score }) => score));
  if (median !== undefined && beyond(median))
    return { status: 'not on this side', crossing: null, keeps: null, turned, riskAtEnd, flights };
  return {
    status: 'turns',
    crossing: (inner + outer) / 2,
    keeps: keeping.length === 0 ? null : Math.max(...keeping.map(({ score }) => score)),
    turned,
    riskAtEnd,
    flights,
  };
}

async function riskHeldAt(
  { flyer, plain, set, onFlown, stop }: TippingRequest,
  path: string,
  quantile: number,
  plainRisk: number,
  size: number,
): Promise<{ readonly risk: RiskBand; readonly flights: number } | null> {
  const flights = Math.min(size, plain.outcome.length);
  const batch = { set, ids: idsBetween(0, flights), heights: [plain.height], detail: 'outcomes' as const };
  const [held] = await flyer.fly({ ...batch, changes: [{ path, quantile }] }, onFlown, stop);
  if (held.outcome.length < flights) return null;
  let [worse, better] = [0, 0];
  for (let id = 0; id < flights; id++) {
    const [before, after] = [!isSoft(plain.outcome[id]), !isSoft(held.outcome[id])];
    if (after && !before) worse += 1;
    if (before && !after) better += 1;
  }
  const change = (worse - better) / flights;
  const spread = (worse + better) / flights - change ** 2;
  const half = ONE_SIDED * Math.sqrt((plainRisk * (1 - plainRisk)) / plain.outcome.length + spread / flights);
  const [estimate, lower, upper] = [0, -half, half].map((shift) =>
    Math.min(1, Math.max(0, plainRisk + change + shift)),
  );
  return { risk: { estimate, lower, upper }, flights };
}
