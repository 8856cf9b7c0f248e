/** Tipping values: how far each guess may be off before the verdict on one height turns. */
import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import type { SetName } from '../draws/draw.js';
import type { FlightColumns } from '../flight/record.js';
import type { TippingResult, TippingRow } from '../result/decisions.js';
import { proportion } from '../statistics/proportion.js';
import type { Flyer } from '../study/flyer.js';
import { idsBetween } from './flown.js';
import type { AskedInput } from './guesses.js';

export interface TippingRequest {
  readonly flyer: Flyer;
  /** Plain flights 0 to n - 1 of the set at the height. */
  readonly plain: FlightColumns;
  readonly set: SetName;
  readonly limit: number;
  /** Guesses, each one fixed value that nobody has measured (or a parameter of a distribution). */
  readonly inputs: readonly AskedInput[];
  /** The value of an input at a quantile of its own law, SI. */
  readonly valueAt: (path: string, quantile: number) => number;
  readonly sample?: number;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

/** Flights flown at the end of the range; twice as many at each value between. */
export const TIPPING_SAMPLE = 1000;
/** Normal score of the end of the plausible range: the 1 % and 99 % quantiles. */
const END = 2.3263478740408408;
/** The range from median to end is halved so often: to an eighth of it, 0.3 standard deviations of a normal guess. */
const HALVINGS = 3;
/** Standard normal deviate of a one-sided 95 % bound. */
const Z = 1.6448536269514722;

/** One value tried: its distance from the median as a normal score, and how the risk there lies to the limit. */
interface Tried {
  readonly score: number;
  readonly risk: number;
  readonly error: number;
}

/**
 * For each guess the value, held in every flight with all else as drawn, at which the estimated risk crosses the
 * limit. Searched from the median outwards: on the worse side while the plain risk is at or under the limit, on the
 * better side when it is over; on both sides where the better one is not known.
 *
 * The risk at a value is the plain risk plus the difference that the value makes on 1000 or 2000 of the same flights. The two
 * quantiles named are the last value clearly on the verdict's side (by one-sided 95 %) and the first clearly beyond, so
 * the bracket holds the crossing with its sampling error; one crossing between median and end is assumed.
 *
 * Cost: 1000 flights for a guess (each side) that does not turn the verdict within its range, 7000 to 9000 for one
 * that does.
 */
export async function tippingValues(request: TippingRequest): Promise<TippingResult> {
  const { plain, limit } = request;
  const risk = proportion(countFailed(plain.outcome), plain.outcome.length);
  const rows: TippingRow[] = [];
  for (const input of request.inputs) {
    for (const side of sidesToTry(input, risk.estimate <= limit)) {
      const row = await tip(request, input.path, side, risk.estimate);
      if (row === null) return { height: plain.height, limit, plain: risk, rows };
      rows.push(row);
    }
  }
  return { height: plain.height, limit, plain: risk, rows };
}

function sidesToTry({ better }: AskedInput, within: boolean): readonly TippingRow['side'][] {
  if (better === 'low') return [within ? 'high' : 'low'];
  if (better === 'high') return [within ? 'low' : 'high'];
  return ['low', 'high'];
}

async function tip(
  request: TippingRequest,
  path: string,
  side: TippingRow['side'],
  plainRisk: number,
): Promise<TippingRow | null> {
  const { limit, valueAt } = request;
  const within = plainRisk <= limit;
  const quantileAt = (score: number) => normalCdf(side === 'low' ? -score : score, 0, 1);
  const beyond = ({ risk }: Tried) => risk <= limit !== within;
  const clearly = ({ risk, error }: Tried) => Math.abs(risk - limit) > Z * error;
  const tried: Tried[] = [];
  let flights = 0;
  const attempt = async (score: number): Promise<Tried | null> => {
    const size = (request.sample ?? TIPPING_SAMPLE) * (score === END ? 1 : 2);
    const found = await riskHeldAt(request, path, quantileAt(score), plainRisk, size);
    if (found === null) return null;
    flights += found.flights;
    tried.push({ score, ...found });
    return tried[tried.length - 1];
  };
  const row = (status: TippingRow['status'], scores: readonly [number, number] | null, riskAtEnd: number) => {
    const quantiles = scores && ([quantileAt(scores[0]), quantileAt(scores[1])] as const);
    const values = quantiles && ([valueAt(path, quantiles[0]), valueAt(path, quantiles[1])] as const);
    return { path, status, side, quantiles, values, riskAtEnd, flights };
  };

  const end = await attempt(END);
  if (end === null) return null;
  if (!beyond(end)) return row('holds', null, end.risk);
  let [inner, outer] = [0, END];
  for (let halving = 0; halving < HALVINGS; halving++) {
    const middle = await attempt((inner + outer) / 2);
    if (middle === null) return null;
    if (beyond(middle)) outer = middle.score;
    else inner = middle.score;
  }
  if (inner === 0) {
    const median = await attempt(0);
    if (median === null) return null;
    if (beyond(median)) return row('not on this side', null, end.risk);
  }
  const keeps = tried.filter((one) => one.score <= inner && clearly(one)).map(({ score }) => score);
  const turns = tried.filter((one) => one.score >= outer && clearly(one)).map(({ score }) => score);
  return row('turns', [Math.max(0, ...keeps), Math.min(END, ...turns)], end.risk);
}

async function riskHeldAt(
  { flyer, plain, set, onFlown, stop }: TippingRequest,
  path: string,
  quantile: number,
  plainRisk: number,
  size: number,
): Promise<{ readonly risk: number; readonly error: number; readonly flights: number } | null> {
  const flights = Math.min(size, plain.outcome.length);
  const batch = { set, ids: idsBetween(0, flights), heights: [plain.height], detail: 'outcomes' as const };
  const [held] = await flyer.fly({ ...batch, changes: [{ path, quantile }] }, onFlown, stop);
  if (held.outcome.length < flights) return null;
  let [worse, better] = [0, 0];
  for (let id = 0; id < flights; id++) {
    const [before, after] = [plain.outcome[id] !== 0, held.outcome[id] !== 0];
    if (after && !before) worse += 1;
    if (before && !after) better += 1;
  }
  const change = (worse - better) / flights;
  const spread = (worse + better) / flights - change ** 2;
  const error = Math.sqrt((plainRisk * (1 - plainRisk)) / plain.outcome.length + spread / flights);
  return { risk: Math.min(1, Math.max(0, plainRisk + change)), error, flights };
}

function countFailed(outcome: Uint8Array): number {
  return outcome.reduce((count, one) => count + (one === 0 ? 0 : 1), 0);
}
