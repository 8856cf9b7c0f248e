/**
 * What flights say about the inputs that nobody has measured. Each plausible world (one value of every unmeasured input)
 * flies 25 flights; a log weighs the worlds by how well their flights explain what it shows. Several logs multiply
 * within each world, never within a flight: what varies from flight to flight varied between the logs as well.
 */
import { FLIGHTS_PER_WORLD } from '../../draws/draw.js';
import { createDrawer } from '../../draws/drawer.js';
import type { FlightColumns } from '../../flight/record.js';
import type { LearnResult, ObservedQuantity, QuantityName, ReconstructResult } from '../../result/evidence.js';
import type { Warning } from '../../result/result.js';
import { inputByPath } from '../../scenario/lookup.js';
import type { Scenario } from '../../scenario/scenario.js';
import type { Flyer } from '../../study/flying/flyer.js';
import { presentVersions } from '../../version.js';
import { type Evidence, found, refuse } from '../evidence.js';
import { simulatedQuantity } from '../log/reconstruct.js';
import { learned, NARROWED, type WorldInput, worldInput, worldsRisk } from './posterior.js';
import { correlationsOf, fragmentOf } from './variant.js';
import { effectiveWorlds, logLikelihoods, weightedMoments, weightsOf } from './weigh.js';

export const WORLDS = 2000;
export const FLIGHTS_EACH = 25;
/** Fewer effective worlds carry no conclusion. */
export const LEAST_EFFECTIVE = 30;

/** What a log is weighed by, as far as it shows it. */
export const LEARNED_FROM: readonly QuantityName[] = [
  'speed_at_throttle_up',
  'throttle_up_time',
  'throttle_up_height',
  'stopping_height',
  'stopping_time',
];

/** Ids of the first flights of each world. */
export function worldIds(worlds: number, each: number = FLIGHTS_EACH): Uint32Array {
  return Uint32Array.from({ length: worlds * each }, (_, i) => Math.floor(i / each) * FLIGHTS_PER_WORLD + (i % each));
}

export interface LearnRequest {
  /** The scenario to learn about, and its flights at the planned height, world after world. */
  readonly scenario: Scenario;
  readonly flights: FlightColumns;
  /** The scenario in which the logs were flown, where it is another, with its flights in the same worlds. */
  readonly flownIn: { readonly scenario: Scenario; readonly flights: FlightColumns } | null;
  readonly seed: string;
  readonly worlds: number;
  readonly each: number;
  readonly logs: readonly ReconstructResult[];
  /** As the fragment should name the scenario's file. */
  readonly file: string;
}

/** Flies the worlds at one height. */
export async function flyLearnWorlds(
  flyer: Flyer,
  height: number,
  worlds: number,
  onFlown?: (flights: number) => void,
  stop?: AbortSignal,
): Promise<FlightColumns> {
  const [columns] = await flyer.fly(
    { set: 'worlds', ids: worldIds(worlds), heights: [height], detail: 'full' },
    onFlown,
    stop,
  );
  return columns;
}

export function learn(request: LearnRequest): Evidence<LearnResult> {
  const { scenario, flights, flownIn, seed, worlds, each } = request;
  const flown = flownIn ?? { scenario, flights };
  const inputs = sharedInputs(scenario, flown.scenario, seed, worlds);
  if (inputs.length === 0)
    return refuse(
      flownIn === null
        ? `${scenario.title} has no input that nobody has measured: there is nothing to learn. Say "kind: fixed but not measured" of what is a guess.`
        : `${scenario.title} and ${flownIn.scenario.title} share no unmeasured input: a flight of one says nothing about the other.`,
    );
  const weighed = weighLogs(request.logs, flown.flights, worlds, each);
  if (weighed.status === 'refused') return weighed;
  const { logLikelihood, logs } = weighed.value;
  const weights = weightsOf(logLikelihood);
  const effective = effectiveWorlds(weights);
  if (effective < LEAST_EFFECTIVE) return refuse(...tooFew(effective, worlds, logs));

  const failures = failuresOf(flights, worlds, each);
  const table = inputs.map((one) => learned(one, weights)).sort((a, b) => a.narrowed - b.narrowed);
  const narrow = inputs.filter((one) => (table.find(({ name }) => name === one.drawn.name)?.narrowed ?? 1) < NARROWED);
  const correlations = correlationsOf(narrow, weights);
  const even = new Float64Array(worlds).fill(1 / worlds);
  const result: LearnResult = {
    kind: 'learn',
    versions: presentVersions(),
    scenario: { title: scenario.title, hash: scenario.hash, invented: scenario.invented },
    flownIn: flownIn === null ? null : { title: flownIn.scenario.title, hash: flownIn.scenario.hash },
    seed,
    worlds,
    flightsEach: each,
    plannedHeight: flights.height,
    logs,
    effectiveWorlds: effective,
    inputs: table,
    riskBefore: worldsRisk(failures, each, even),
    riskAfter: worldsRisk(failures, each, weights),
    fragment: fragmentOf(request, narrow, weights, effective, correlations),
    correlations,
    warnings: warningsOf(request, effective, logs, narrow),
  };
  return found(result);
}

/** Unmeasured numbers that both scenarios draw from the same law, so that the same world is the same world in both. */
function sharedInputs(scenario: Scenario, other: Scenario, seed: string, worlds: number): readonly WorldInput[] {
  const drawer = createDrawer(scenario, seed);
  const ids = Uint32Array.from({ length: worlds }, (_, world) => world * FLIGHTS_PER_WORLD);
  return drawer.drawn
    .filter(({ unmeasured }) => unmeasured)
    .flatMap((drawn) => {
      const input = inputByPath(scenario, drawn.path);
      if (input === null || !sameLaw(scenario, other, drawn.path)) return [];
      return worldInput(drawn, input, drawer.uniforms(drawn.name, 'worlds', ids)) ?? [];
    });
}

function sameLaw(scenario: Scenario, other: Scenario, path: string): boolean {
  if (scenario === other) return true;
  const text = (one: Scenario) =>
    JSON.stringify([
      inputByPath(one, path)?.value ?? null,
      one.correlations.filter(({ between }) => between.includes(path)),
    ]);
  return text(scenario) === text(other);
}

interface Weighed {
  readonly logLikelihood: Float64Array;
  readonly logs: LearnResult['logs'];
}

function weighLogs(
  results: readonly ReconstructResult[],
  flights: FlightColumns,
  worlds: number,
  each: number,
): Evidence<Weighed> {
  const logLikelihood = new Float64Array(worlds);
  const logs: { file: string; observed: readonly ObservedQuantity[] }[] = [];
  for (const result of results) {
    const seen = LEARNED_FROM.flatMap((name) => {
      const one = result.quantities.find((quantity) => quantity.name === name);
      const values = simulatedQuantity(name, flights, flights.height);
      if (one === undefined || one.value === null || one.low === null || one.high === null || values === null)
        return [];
      return [{ name, value: one.value, error: (one.high - one.low) / (2 * 1.645), values }];
    });
    if (seen.length === 0)
      return refuse(`"${result.file}" shows nothing to learn from: no throttle-up whose time or height it tells.`);
    const own = logLikelihoods({ worlds, each, values: seen.map(({ values }) => values) }, seen);
    for (let i = 0; i < worlds; i++) logLikelihood[i] += own[i];
    logs.push({
      file: result.file,
      observed: seen.map(({ name, value, error, values }) => {
        const came = values.filter((one) => !Number.isNaN(one));
        const { mean, sd } = weightedMoments(came, new Float64Array(came.length).fill(1 / came.length));
        return { name, value, error, expected: mean, spread: sd };
      }),
    });
  }
  return found({ logLikelihood, logs });
}

function failuresOf({ outcome }: FlightColumns, worlds: number, each: number): Uint32Array {
  const failures = new Uint32Array(worlds);
  for (let i = 0; i < worlds * each; i++) if (outcome[i] !== 0) failures[Math.floor(i / each)] += 1;
  return failures;
}

/** How far, in standard deviations of flight, world and log together, a quantity is from what was expected. */
export function surprise({ value, error, expected, spread }: ObservedQuantity): number {
  return (value - expected) / Math.hypot(spread, error);
}

function tooFew(effective: number, worlds: number, logs: LearnResult['logs']): readonly string[] {
  const all = logs.flatMap(({ file, observed }) =>
    observed.map((one) => ({ file, ...one, off: Math.abs(surprise(one)) })),
  );
  const worst = all.sort((a, b) => b.off - a.off)[0];
  const first = `Only ${effective.toFixed(1)} of ${worlds} worlds carry the weight, under ${LEAST_EFFECTIVE}: what they say would be luck, so nothing is concluded.`;
  if (worst.off > 3)
    return [
      first,
      `${worst.file} shows a ${worst.name.replaceAll('_', ' ')} ${worst.off.toFixed(1)} standard deviations from what the scenario's flights do: the scenario hardly knows such a flight. Look at the inputs behind it, widen what was guessed too narrowly, or check the log's columns, units and planned height.`,
    ];
  return [
    first,
    `Fly more worlds, as --worlds ${Math.ceil((3 * worlds * LEAST_EFFECTIVE) / Math.max(effective, 1) / 1000) * 1000}; or learn from fewer logs at once and go on from the fragment.`,
  ];
}

function warningsOf(
  { flownIn, scenario }: LearnRequest,
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
  if (narrow.length === 0)
    warn(
      'nothing learnt',
      'No input became a tenth narrower: what these flights show depends more on luck than on what is not measured.',
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
