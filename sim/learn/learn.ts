/**
 * What flights say about the inputs that nobody has measured. Each plausible world (a value of every unmeasured input)
 * flies 25 flights; the logs weigh the worlds by how well the flights of a world explain what the logs show. All logs are
 * weighed within each world, never within a flight, because what varies from flight to flight varied between the logs as
 * well.
 */

import { type Answer, ok, refused } from '../basics/answer.js';
import { presentVersions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import { FLIGHTS_PER_WORLD } from '../draws/draw.js';
import { createDrawer } from '../draws/drawer.js';
import type { FlightColumns } from '../flight/record.js';
import { isSoft } from '../flight/record.js';
import { simulatedQuantity } from '../reconstruct/reconstruct.js';
import type { QuantityName, ReconstructResult } from '../reconstruct/result.js';
import { hazardWarnings, perfectWarning } from '../scenario/hazards.js';
import { inputNamed } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { weightedMoments, weightsOf } from '../statistics/weighted.js';
import { learned, narrowedUnder, type WorldInput, worldInput, worldsRisk } from './posterior.js';
import type { LearnRequest, MovedWorlds } from './request.js';
import type { LearnResult, ObservedQuantity } from './result.js';
import { correlationsOf, fragmentOf } from './variant.js';
import type { LogGroup } from './waves.js';
import { effectiveWorlds, jointLogLikelihoods } from './weigh.js';

export const WORLDS = 2000;
export const FLIGHTS_EACH = 25;
/** Fewer effective worlds than this carry no conclusion. */
export const LEAST_EFFECTIVE = 30;

/** The quantities that a log is weighed by, as far as it shows them. */
export const LEARNED_FROM: readonly QuantityName[] = [
  'speed_at_throttle_up',
  'throttle_up_time',
  'throttle_up_height',
  'stopping_height',
  'stopping_time',
];

/** Ids of the first `each` flights of `worlds` worlds, from world `from` on. */
export function worldIds(worlds: number, each: number = FLIGHTS_EACH, from = 0): Uint32Array {
  return Uint32Array.from(
    { length: worlds * each },
    (_, i) => (from + Math.floor(i / each)) * FLIGHTS_PER_WORLD + (i % each),
  );
}

export function learn(request: LearnRequest): Answer<LearnResult> {
  const { scenario, flights, flownIn, seed, worlds, each, moved } = request;
  const waves = moved?.waves ?? [worlds];
  const [first] = waves;
  const flown = flownIn ?? { scenario, flights };
  const inputs = sharedInputs(scenario, flown.scenario, seed, worlds, moved);
  if (inputs.length === 0) return refused(nothingToLearn(scenario, flownIn?.scenario ?? null));
  const seen = logGroups(request.logs, flown.flights);
  if (seen.status === 'refused') return seen;
  const logWeights = moved?.corrections.slice() ?? new Float64Array(worlds);
  for (const { values, logs } of seen.value)
    jointLogLikelihoods({ worlds, each, values }, logs).forEach((one, i) => {
      logWeights[i] += one;
    });
  const weights = weightsOf(logWeights);
  const effective = effectiveWorlds(logWeights);
  const logs = observedIn(request.logs, flown.flights, first * each);
  if (effective < LEAST_EFFECTIVE) return refused(...tooFew(effective, waves, logs));

  const failures = failuresOf(flights, worlds, each);
  const table = inputs.map((one) => learned(one, weights, first)).sort((a, b) => a.narrowed - b.narrowed);
  const narrow = inputs.filter(
    (one) => (table.find(({ name }) => name === one.drawn.name)?.narrowed ?? 1) < narrowedUnder(effective),
  );
  const correlations = correlationsOf(narrow, weights);
  const even = new Float64Array(first).fill(1 / first);
  const result: LearnResult = {
    kind: 'learn',
    versions: presentVersions(),
    scenario: { title: scenario.title, hash: scenario.hash, invented: scenario.invented, changed: scenario.changed },
    flownIn: flownIn === null ? null : { title: flownIn.scenario.title, hash: flownIn.scenario.hash },
    seed,
    worlds,
    waves,
    partial: request.partial ?? false,
    flightsEach: each,
    plannedHeight: flights.height,
    logs,
    effectiveWorlds: effective,
    inputs: table,
    riskBefore: worldsRisk(failures.subarray(0, first), each, even),
    riskAfter: worldsRisk(failures, each, weights),
    fragment: fragmentOf(request, narrow, table, weights, effective, correlations),
    correlations,
    warnings: [
      ...hazardWarnings(scenario),
      ...perfectWarning(scenario),
      ...warningsOf(request, effective, logs, narrow),
      ...unexplained(request.logs, flown.flights, each, weights),
    ],
  };
  return ok(result);
}

export function nothingToLearn(scenario: Scenario, flownIn: Scenario | null): string {
  return flownIn === null
    ? `${scenario.title} has no input that nobody has measured: there is nothing to learn. Say "kind: fixed but not measured" of what is a guess.`
    : `${scenario.title} and ${flownIn.title} share no unmeasured input: a flight of one says nothing about the other.`;
}

/** Unmeasured numbers that both scenarios draw from equal laws, so that a world is the same world in both. */
export function sharedInputs(
  scenario: Scenario,
  other: Scenario,
  seed: string,
  worlds: number,
  moved?: MovedWorlds,
): readonly WorldInput[] {
  const drawer = createDrawer(scenario, seed);
  const ids = Uint32Array.from({ length: worlds }, (_, world) => world * FLIGHTS_PER_WORLD);
  return drawer.drawn
    .filter(({ unmeasured }) => unmeasured)
    .flatMap((drawn) => {
      const input = inputNamed(scenario, drawn.path);
      if (input === null || !sameLaw(scenario, other, drawn.path)) return [];
      const uniforms = moved?.uniforms(drawn.name) ?? drawer.uniforms(drawn.name, 'worlds', ids);
      return worldInput(drawn, input, uniforms) ?? [];
    });
}

function sameLaw(scenario: Scenario, other: Scenario, path: string): boolean {
  if (scenario === other) return true;
  const text = (one: Scenario) =>
    JSON.stringify([
      inputNamed(one, path)?.value ?? null,
      one.correlations.filter(({ between }) => between.includes(path)),
    ]);
  return text(scenario) === text(other);
}

interface Shown {
  readonly name: QuantityName;
  readonly value: number;
  readonly error: number;
  /** Of all flights. */
  readonly values: Float64Array;
}

/** What a log shows that the flights have too. */
function shownBy(result: ReconstructResult, flights: FlightColumns): readonly Shown[] {
  return LEARNED_FROM.flatMap((name) => {
    const one = result.quantities.find((quantity) => quantity.name === name);
    const values = simulatedQuantity(name, flights, flights.height);
    if (one === undefined || one.value === null || one.low === null || one.high === null || values === null) return [];
    return [{ name, value: one.value, error: (one.high - one.low) / (2 * 1.645), values }];
  });
}

/** Logs that show the same quantities together. */
export function logGroups(results: readonly ReconstructResult[], flights: FlightColumns): Answer<readonly LogGroup[]> {
  const groups = new Map<string, { values: Float64Array[]; logs: Shown[][] }>();
  for (const result of results) {
    const shown = [...shownBy(result, flights)];
    if (shown.length === 0)
      return refused(`"${result.file}" shows nothing to learn from: no throttle-up whose time or height it tells.`);
    const key = shown.map(({ name }) => name).join();
    const group = groups.get(key) ?? { values: shown.map(({ values }) => values), logs: [] };
    group.logs.push(shown);
    groups.set(key, group);
  }
  return ok([...groups.values()]);
}

/** What each log shows, beside what the first flights do, which are flown in plausible worlds as drawn. */
export function observedIn(
  results: readonly ReconstructResult[],
  flights: FlightColumns,
  first: number,
): LearnResult['logs'] {
  return results.map((result) => ({
    file: result.file,
    observed: shownBy(result, flights).map(({ name, value, error, values }) => {
      const came = values.subarray(0, first).filter((one) => !Number.isNaN(one));
      const { mean, sd } = weightedMoments(came, new Float64Array(came.length).fill(1 / came.length));
      return { name, value, error, expected: mean, spread: sd };
    }),
  }));
}

/** No world explains a log that is further than this, in standard deviations, from the flights of every weighed world. */
const UNEXPLAINED = 3.5;

function unexplained(
  results: readonly ReconstructResult[],
  flights: FlightColumns,
  each: number,
  weights: Float64Array,
): readonly Warning[] {
  return results.flatMap((result) =>
    shownBy(result, flights).flatMap(({ name, value, error, values }) => {
      const came = Array.from(values, (one, i) => [one, weights[Math.floor(i / each)]]).filter(
        ([one, weight]) => !Number.isNaN(one) && weight > 0,
      );
      const total = came.reduce((sum, [, weight]) => sum + weight, 0);
      const { mean, sd } = weightedMoments(
        came.map(([one]) => one),
        came.map(([, weight]) => weight / total),
      );
      const off = Math.abs(value - mean) / Math.hypot(sd, error);
      if (!(off > UNEXPLAINED)) return [];
      return [
        {
          code: 'not explained',
          text: `${result.file}: after learning, the ${name.replaceAll('_', ' ')} still lies ${off.toFixed(1)} standard deviations from what the weighed worlds' flights do.`,
          advice: 'No plausible world explains it: the scenario leaves something out, or the log is wrong there.',
        },
      ];
    }),
  );
}

function failuresOf({ outcome }: FlightColumns, worlds: number, each: number): Uint32Array {
  const failures = new Uint32Array(worlds);
  for (let i = 0; i < worlds * each; i++) if (!isSoft(outcome[i])) failures[Math.floor(i / each)] += 1;
  return failures;
}

/** How far, in standard deviations of flight, world and log together, a quantity is from what was expected. */
export function surprise({ value, error, expected, spread }: ObservedQuantity): number {
  return (value - expected) / Math.hypot(spread, error);
}

/** A scenario hardly knows a flight that is further off than this, and going after the flight would stretch every guess. */
export const FAR_OFF = 4;

/** Distance of a quantity from the plausible worlds, in standard deviations; infinite where no plausible flight shows it. */
function offBy(one: ObservedQuantity): number {
  const off = Math.abs(surprise(one));
  return Number.isNaN(off) ? Number.POSITIVE_INFINITY : off;
}

export function farthest(logs: LearnResult['logs']) {
  return logs
    .flatMap(({ file, observed }) => observed.map((one) => ({ file, ...one, off: offBy(one) })))
    .sort((a, b) => b.off - a.off)[0];
}

/** --worlds takes no more. */
export const MOST_WORLDS = 100_000;

/**
 * The number of worlds to ask for next time: effective worlds grow in proportion to worlds, so it is half as many again as
 * would just do, to two digits.
 */
export function worldsThatWouldDo(effective: number, first: number): number {
  const wanted = (1.5 * first * LEAST_EFFECTIVE) / Math.max(effective, 1);
  const digit = 10 ** Math.max(2, Math.floor(Math.log10(wanted)) - 1);
  return Math.ceil(wanted / digit) * digit;
}

function tooFew(effective: number, waves: readonly number[], logs: LearnResult['logs']): readonly string[] {
  const worst = farthest(logs);
  const worlds = waves.reduce((sum, one) => sum + one, 0);
  const told =
    waves.length > 1
      ? `${worlds} worlds, ${worlds - waves[0]} of them drawn near what the logs say,`
      : `${worlds} worlds`;
  const first = `Only ${effective.toFixed(1)} of ${told} carry the weight, under ${LEAST_EFFECTIVE}: what they say would be luck, so nothing is concluded.`;
  if (worst.off === Number.POSITIVE_INFINITY)
    return [
      first,
      `${worst.file} shows a ${worst.name.replaceAll('_', ' ')}, which no flight of the scenario has: look at what keeps them from it, or check the log's columns, units and planned height.`,
    ];
  if (worst.off > 3)
    return [
      first,
      `${worst.file} shows a ${worst.name.replaceAll('_', ' ')} ${worst.off.toFixed(1)} standard deviations from what the scenario's flights do: the scenario hardly knows such a flight. Look at the inputs behind it, widen what was guessed too narrowly, or check the log's columns, units and planned height.`,
    ];
  const enough = worldsThatWouldDo(effective, waves[0]);
  const fewer =
    logs.length > 1
      ? ' Or learn from fewer logs at once; not one after the other on the fragment of the same logs.'
      : '';
  if (enough > MOST_WORLDS)
    return [
      first,
      `More worlds would hardly do: about ${enough}, by these. See whether each log by itself is explained, and whether an input that may matter is held fixed.${fewer}`,
    ];
  const about = effective < 5 ? 'at least ' : 'about ';
  return [first, `${capital(about)}${enough} worlds would do, by these: --worlds ${enough}.${fewer}`];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function warningsOf(
  { flownIn, scenario, partial, worlds }: LearnRequest,
  effective: number,
  logs: LearnResult['logs'],
  narrow: readonly WorldInput[],
): readonly Warning[] {
  const warnings: Warning[] = [];
  const warn = (code: string, text: string, advice: string) => warnings.push({ code, text, advice });
  for (const { file, observed } of logs)
    for (const one of observed)
      if (Math.abs(surprise(one)) > 2.5)
        warn(
          'surprise',
          `${file}: the ${one.name.replaceAll('_', ' ')} lies ${Math.abs(surprise(one)).toFixed(1)} standard deviations from what the scenario's flights do.`,
          'Learning moves the worlds as far as they go; ask first whether the scenario leaves something out.',
        );
  if (effective < 100)
    warn(
      'few worlds',
      `${effective.toFixed(0)} effective worlds: figures after learning scatter by about ${(100 / Math.sqrt(effective)).toFixed(0)} % of their spread.`,
      'More --worlds make them steadier.',
    );
  if (partial === true)
    warn(
      'partial',
      `The study was stopped after ${worlds} worlds.`,
      'What is here was weighed from those; the whole study is steadier.',
    );
  if (narrow.length === 0)
    warn(
      'nothing learnt',
      'No input became narrower by a tenth and by more than chance: what these flights show depends more on luck than on what is not measured.',
      'Measure on the bench what the report names first; a flight tells little of it.',
    );
  if (flownIn !== null)
    warn(
      'other scenario',
      `The logs were flown in ${flownIn.scenario.title}; only what it shares with ${scenario.title} was learnt.`,
      'What differs between the two is not touched.',
    );
  return warnings;
}
