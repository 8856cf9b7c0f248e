import type { SetName } from '../../draws/draw.js';
import { idsBetween } from '../../ensemble/columns.js';
import type { Flyer } from '../../ensemble/flyer.js';
import { isSoft } from '../../flight/record.js';
import { proportion, verdictOf } from '../../statistics/proportion.js';
import type { PessimisticResult } from '../decisions.js';
import { type AskedInput, PESSIMISTIC_QUARTER, worseQuantile } from './held-input.js';

export interface PessimisticRequest {
  readonly flyer: Flyer;
  readonly set: SetName;
  readonly height: number;
  readonly limit: number;
  readonly flights: number;
  readonly guesses: readonly AskedInput[];
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

/**
 * The risk when every guess stands at the edge of its pessimistic quarter at once. Guesses whose worse side is not
 * known stay as drawn and are named. All of them bad together is much rarer than one in four: a stress test, not a
 * probability. Cost: `flights`. Null when stopped.
 */
export async function pessimisticRow(request: PessimisticRequest): Promise<PessimisticResult | null> {
  const { flyer, set, height, limit, flights, guesses } = request;
  const placed = guesses.map((guess) => ({ path: guess.path, quantile: worseQuantile(guess, PESSIMISTIC_QUARTER) }));
  const held = placed.flatMap(({ path, quantile }) => (quantile === null ? [] : [{ path, quantile }]));
  const batch = { set, ids: idsBetween(0, flights), heights: [height], detail: 'outcomes' as const, changes: held };
  const [{ outcome }] = await flyer.fly(batch, request.onFlown, request.stop);
  if (outcome.length < flights) return null;
  const risk = proportion(
    outcome.reduce((count, one) => count + (isSoft(one) ? 0 : 1), 0),
    flights,
  );
  const left = placed.filter(({ quantile }) => quantile === null).map(({ path }) => path);
  return { height, limit, held, left, risk, verdict: verdictOf(risk, limit) };
}
