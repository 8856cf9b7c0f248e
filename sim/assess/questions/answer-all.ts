/** Four questions are asked of the inputs at one height: what drives the risk, what would help, what to measure first, how wrong a guess may be. */

import type { Drawer } from '../../draws/drawer.js';
import { failedFlights, idsBetween } from '../../ensemble/columns.js';
import type { Flyer } from '../../ensemble/flyer.js';
import type { FlightColumns } from '../../flight/record.js';
import type { Scenario } from '../../scenario/scenario.js';
import { uniformDistance } from '../../statistics/kolmogorov.js';
import type { Decisions, DriversResult, WorldsResult } from '../decisions.js';
import { type DrawnUniforms, driversOf } from './drivers.js';
import { whatWouldHelp } from './help.js';
import { heldInput, unmeasuredAsked, unmeasuredDrawn, valueAtQuantile } from './inputs-to-hold.js';
import { measureFirst } from './measure-first.js';
import { pessimisticRow } from './pessimistic.js';
import { tippingValues } from './tipping.js';
import type { PlainSet } from './tipping-request.js';

export interface AskRequest {
  readonly scenario: Scenario;
  readonly seed: string;
  readonly flyer: Flyer;
  readonly drawer: Drawer;
  /** Plain flights 0 to n - 1 of the set at the height, with causes. */
  readonly plain: FlightColumns;
  readonly set: PlainSet;
  /** Plain flights of another set at the same height, if there are any. */
  readonly further?: { readonly plain: FlightColumns; readonly set: PlainSet };
  /** Of ground impact, of which every question speaks. */
  readonly limit: number;
  /** What nobody has measured, at the same height. */
  readonly worlds: WorldsResult | null;
  readonly stop: AbortSignal | undefined;
}

/** Inputs that are asked what they would save. */
const HELP_INPUTS = 5;
const HELP_SOFT = 400;
const HELP_FAILED = 200;
const PESSIMISTIC_FLIGHTS = 1000;
/** Failures under which nothing is asked of the inputs. */
const LEAST_FAILURES = 20;

export async function askInputs(request: AskRequest): Promise<Decisions> {
  const { scenario, seed, flyer, drawer, plain, set, limit, worlds, stop } = request;
  const { height } = plain;
  const means = { flyer, set, ...(stop ? { stop } : {}) };
  const ids = idsBetween(0, plain.outcome.length);
  const drivers = driversOfFailed(request);
  const rows = measureFirst(unmeasuredDrawn(scenario, drawer, set, ids), plain.outcome, worlds?.sd ?? null);
  if (failedFlights(plain).length < LEAST_FAILURES) return { drivers, measureFirst: rows };

  const guesses = unmeasuredAsked(drawer, set, plain);
  const tipping = await tippingValues({
    ...means,
    plain,
    ...(request.further ? { further: request.further } : {}),
    limit,
    inputs: guesses.map((guess) => ({
      ...guess,
      uniforms: (of, flights) => drawer.uniforms(guess.name, of, idsBetween(0, flights)),
      mustBeHeld: mustBeHeld(scenario, guess.name),
    })),
    valueAt: (path, quantile) => valueAtQuantile(scenario, path, quantile),
  });
  const help = await whatWouldHelp({
    ...means,
    seed,
    plain,
    inputs: suspects(request).map(heldInput),
    softSample: HELP_SOFT,
    failedSample: HELP_FAILED,
  });
  const pessimistic =
    guesses.length === 0
      ? null
      : await pessimisticRow({
          ...means,
          height,
          limit,
          flights: Math.min(PESSIMISTIC_FLIGHTS, plain.outcome.length),
          guesses,
        });
  return { drivers, measureFirst: rows, help, tipping, pessimistic };
}

/**
 * A guess with a rank correlation: in the plain flights its partners go with it, and "held, all else as drawn" is not
 * what they show. One given as samples: the risk jumps from sample to sample.
 */
function mustBeHeld({ correlations, inputs }: Scenario, name: string): boolean {
  const value = inputs.find(({ path }) => path === name)?.value;
  const hasFewValues = value?.form === 'uncertain' && value.distribution.family === 'samples';
  return hasFewValues || correlations.some(({ between }) => between.includes(name));
}

/** Only the failed flights are looked at, so only their uniform numbers are drawn again. */
function driversOfFailed({ drawer, plain, set }: AskRequest): DriversResult {
  const ids = failedFlights(plain);
  const take = (values: Uint8Array) => Uint8Array.from(ids, (id) => values[id]);
  const failed = { height: plain.height, outcome: take(plain.outcome), cause: take(plain.cause), columns: {} };
  const drawn: DrawnUniforms[] = drawer.drawn
    .filter(({ part }) => part !== 'luck')
    .map(({ name }) => ({ path: name, uniforms: drawer.uniforms(name, set, ids) }));
  return { ...driversOf(failed, drawn), flights: plain.outcome.length };
}

/**
 * Inputs most worth asking: those whose uniform numbers in the failed flights lie farthest from the uniform law, whether
 * or not the distance is significant (the bars carry their own intervals). An event counts by how much more often its
 * number stands in the top twentieth, where rare events happen, all its labels together.
 */
function suspects({ drawer, plain, set }: AskRequest): readonly string[] {
  const failed = failedFlights(plain);
  const distance = new Map<string, number>();
  for (const { name, path, part } of drawer.drawn) {
    if (part === 'luck') continue;
    const uniforms = drawer.uniforms(name, set, failed);
    const known = distance.get(path) ?? 0;
    distance.set(path, part === 'event' ? known + excessAtTop(uniforms) : Math.max(known, uniformDistance(uniforms)));
  }
  return [...distance]
    .sort(([, a], [, b]) => b - a)
    .slice(0, HELP_INPUTS)
    .map(([path]) => path);
}

const TOP = 0.95;

function excessAtTop(uniforms: Float64Array): number {
  return uniforms.filter((u) => u > TOP).length / uniforms.length - (1 - TOP);
}
