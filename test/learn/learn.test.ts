import seedrandom from 'seedrandom';
import { beforeAll, describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { LEARNED_FROM, learn, worldIds } from '../../sim/learn/learn.js';
import { posteriorPiece, weightedRankCorrelation, worldInput, worldsRisk } from '../../sim/learn/posterior.js';
import type { LearnRequest } from '../../sim/learn/request.js';
import type { LearnResult } from '../../sim/learn/result.js';
import {
  effectiveWorlds,
  logLikelihoods,
  weightedMoments,
  weightedQuantile,
  weightsOf,
} from '../../sim/learn/weigh.js';
import { simulatedQuantity } from '../../sim/reconstruct/reconstruct.js';
import type { LogQuantity, ReconstructResult } from '../../sim/reconstruct/result.js';
import { diskFiles } from '../../sim/scenario/file/files.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { placed } from '../../sim/scenario/file/write-into.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { notFinite } from '../fit/not-finite.js';

function normals(seed: string): () => number {
  const random = seedrandom.alea(seed);
  return () => {
    const u = Math.max(random.double(), 2 ** -53);
    return standardNormalQuantile(u, 1 - u);
  };
}

/** Worlds of one number m ~ N(0, 1), whose flights show m + N(0, s). */
function toyWorlds(worlds: number, each: number, s: number) {
  const normal = normals('toy');
  const means = Float64Array.from({ length: worlds }, normal);
  const values = Float64Array.from({ length: worlds * each }, (_, i) => means[Math.floor(i / each)] + s * normal());
  return { means, summaries: { worlds, each, values: [values] } };
}

describe('weighing worlds', () => {
  it('gives the closed-form posterior of a normal mean: y/(1 + s^2), variance s^2/(1 + s^2)', () => {
    const { means, summaries } = toyWorlds(4000, 25, 0.8);
    const weights = weightsOf(logLikelihoods(summaries, [{ value: 1.2, error: 0 }]));
    const { mean, sd } = weightedMoments(means, weights);
    // A flight's worth of scatter of the estimated means widens s^2 by 1/25.
    expect(mean).toBeCloseTo(1.2 / (1 + 0.64 * 1.04), 1);
    expect(sd).toBeCloseTo(Math.sqrt((0.64 * 1.04) / (1 + 0.64 * 1.04)), 1);
  });

  it('adds the error of the log to the scatter of the flights', () => {
    const { means, summaries } = toyWorlds(4000, 25, 0.3);
    const weights = weightsOf(logLikelihoods(summaries, [{ value: 1, error: 1 }]));
    const { mean, sd } = weightedMoments(means, weights);
    expect(mean).toBeCloseTo(1 / (1 + 0.09 * 1.04 + 1), 1);
    expect(sd).toBeCloseTo(Math.sqrt(1.0936 / 2.0936), 1);
  });

  it('multiplies logs within each world: five narrow as in closed form, and cover the truth as often as stated', () => {
    const { means, summaries } = toyWorlds(1200, 10, 0.8);
    const normal = normals('truths');
    let [covered, width] = [0, 0];
    for (let turn = 0; turn < 100; turn++) {
      const truth = normal();
      const logs = new Float64Array(1200);
      for (let flight = 0; flight < 5; flight++)
        logLikelihoods(summaries, [{ value: truth + 0.8 * normal(), error: 0.1 }]).forEach((one, i) => {
          logs[i] += one;
        });
      const weights = weightsOf(logs);
      const [low, high] = [0.05, 0.95].map((p) => weightedQuantile(means, weights, p));
      if (low <= truth && truth <= high) covered += 1;
      width += (high - low) / 2 / 100;
    }
    // 90 of 100 are expected, three standard deviations are 9.
    expect(covered).toBeGreaterThanOrEqual(81);
    expect(covered).toBeLessThanOrEqual(99);
    // Five flights leave (0.64 + 0.01)/5 of a mean; that each world's own mean comes from ten flights adds 0.64/10.
    const left = 0.65 / 5 + 0.64 / 10;
    expect(width).toBeCloseTo(1.645 * Math.sqrt(left / (1 + left)), 1);
  });

  it('counts a world whose flights never show the event as all but impossible', () => {
    const values = Float64Array.from([1, 1.1, 0.9, Number.NaN, Number.NaN, Number.NaN]);
    const logs = logLikelihoods({ worlds: 2, each: 3, values: [values] }, [{ value: 1, error: 0.1 }]);
    expect(logs[1]).toBe(Number.NEGATIVE_INFINITY);
    expect([...weightsOf(logs)]).toEqual([1, 0]);
  });

  it('counts effective worlds: all of equal weight, one of one', () => {
    expect(effectiveWorlds(new Float64Array(50).fill(0.02))).toBeCloseTo(50, 9);
    expect(effectiveWorlds(Float64Array.from([1, 0, 0]))).toBe(1);
  });

  it('takes quantiles, rank correlations and risks by weight', () => {
    const values = Float64Array.from([3, 1, 2]);
    const even = new Float64Array(3).fill(1 / 3);
    expect(weightedQuantile(values, even, 0.5)).toBe(2);
    expect(weightedQuantile(values, Float64Array.from([0, 1, 0]), 0.5)).toBe(1);
    expect(
      weightedRankCorrelation(
        values,
        values.map((one) => one ** 3),
        even,
      ),
    ).toBeCloseTo(1, 12);
    expect(
      weightedRankCorrelation(
        values,
        values.map((one) => -one),
        even,
      ),
    ).toBeCloseTo(-1, 12);
    expect(worldsRisk([5, 0, 10], 20, even).estimate).toBeCloseTo(0.25, 12);
    expect(worldsRisk([5, 0, 10], 20, Float64Array.from([0, 1, 0])).estimate).toBe(0);
  });
});

/** What a log without error but for a known one would show of a flight. */
function logOf(
  columns: FlightColumns,
  flight: number,
  errors: Readonly<Record<string, number>>,
): ReconstructResult | null {
  const quantities = LEARNED_FROM.map((name): LogQuantity => {
    const value = simulatedQuantity(name, columns, columns.height)?.[flight] ?? Number.NaN;
    const reach = 1.645 * errors[name];
    return {
      name,
      unit: '',
      status: 'known',
      value,
      low: value - reach,
      high: value + reach,
      why: '',
      percentile: null,
    };
  });
  if (quantities.some(({ value }) => Number.isNaN(value))) return null;
  return { file: `flight-${flight}.csv`, quantities } as unknown as ReconstructResult;
}

const ERRORS = {
  speed_at_throttle_up: 0.3,
  throttle_up_time: 0.05,
  throttle_up_height: 1,
  stopping_height: 1,
  stopping_time: 0.1,
};
const [WORLDS, EACH, HEIGHT] = [500, 16, 60];

/** Short flights, so that many worlds are flown in seconds. */
function dropTest(...overrides: readonly string[]): Scenario {
  const read = readScenario('configs/teasel.yaml', ['plan.throttle_up_height=60 m', ...overrides]);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.scenario;
}

async function flyWorlds(scenario: Scenario, seed: string, worlds: number, each: number): Promise<FlightColumns> {
  const flyer = createSerialFlyer(createMaker(scenario, seed));
  const [columns] = await flyer.fly({ set: 'worlds', ids: worldIds(worlds, each), heights: [HEIGHT], detail: 'full' });
  return columns;
}

function learnt(request: LearnRequest): LearnResult {
  const made = learn(request);
  if (made.status === 'refused') throw new Error(made.messages.join('\n'));
  return made.value;
}

describe('an input after learning', () => {
  const read = readScenario('configs/burdock.yaml', [
    'pilot.call_out.bias={ normal: { mean: 0 m, sd: 6 m }, at_least: -10 m, kind: fixed but not measured }',
  ]);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  const { scenario } = read;
  const drawer = createDrawer(scenario, '1');
  const unmeasured = drawer.drawn.filter((one) => one.unmeasured).map(({ name }) => name);

  it.each(unmeasured)('is written so that the scenario reads it: %s', (name) => {
    const drawn = drawer.drawn.find((one) => one.name === name);
    const input = scenario.inputs.find(({ path }) => path === drawn?.path);
    if (drawn === undefined || input === undefined) throw new Error(name);
    const ids = Uint32Array.from({ length: 200 }, (_, world) => world * 60);
    const world = worldInput(drawn, input, drawer.uniforms(name, 'worlds', ids));
    if (world === null) throw new Error(name);
    const middle = weightedMoments(world.values, new Float64Array(200).fill(1 / 200));
    const weights = weightsOf(world.values.map((one) => -0.5 * ((one - middle.mean) / (0.5 * middle.sd)) ** 2));
    const piece = posteriorPiece(input, [world], weights, 'learnt');
    expect(piece).not.toBeNull();
    const text = placed('extends: configs/burdock.yaml\ntitle: After\n', input.path.split('.'), piece ?? {});
    const files = {
      ...diskFiles,
      read: (path: string) => (path === 'after.yaml' ? ({ status: 'ok', text } as const) : diskFiles.read(path)),
    };
    const after = readScenario('after.yaml', [], files);
    if (after.status !== 'ok') throw new Error(`${text}${JSON.stringify(after.problems)}`);
    const again = createDrawer(after.scenario, '1');
    const own = after.scenario.inputs.find(({ path }) => path === input.path);
    const narrower = again.drawn.find((one) => one.name === name);
    if (own === undefined || narrower === undefined) throw new Error(name);
    const redrawn = worldInput(narrower, own, again.uniforms(name, 'worlds', ids));
    const spread = weightedMoments(redrawn?.values ?? [], new Float64Array(200).fill(1 / 200));
    expect(spread.sd / middle.sd).toBeLessThan(0.75);
    expect(Math.abs(spread.mean - weightedMoments(world.values, weights).mean)).toBeLessThan(0.25 * middle.sd);
    if (name === 'pilot.call_out.bias') expect(text).toContain('at_least: -10 m');
  });
});

describe('learning from flights of a known truth', () => {
  const scenario = dropTest();
  let flights: FlightColumns;
  let truths: FlightColumns;
  const TRUTHS = 48;

  beforeAll(async () => {
    flights = await flyWorlds(scenario, 'prior', WORLDS, EACH);
    truths = await flyWorlds(scenario, 'truth', TRUTHS, 5);
  }, 120_000);

  const request = (logs: readonly ReconstructResult[]): LearnRequest => ({
    scenario,
    flights,
    flownIn: null,
    seed: 'prior',
    worlds: WORLDS,
    each: EACH,
    logs,
    file: 'configs/teasel.yaml',
  });

  /** Up to `count` logs of one true world. */
  const logsOf = (truth: number, count: number) =>
    Array.from({ length: count }, (_, i) => logOf(truths, truth * 5 + i, ERRORS)).filter((one) => one !== null);

  /** The logs of five flights of one true world, fall speed and stopping height alone: more leave too few worlds. */
  const fiveOf = (truth: number) =>
    logsOf(truth, 5).map((log) => ({
      ...log,
      quantities: log.quantities.filter(({ name }) => name === 'speed_at_throttle_up' || name === 'stopping_height'),
    })) as readonly ReconstructResult[];

  /** Of the first true world whose five flights leave enough worlds. */
  function firstLearnt(): LearnResult {
    for (let truth = 0; truth < TRUTHS; truth++) {
      const made = learn(request(fiveOf(truth)));
      if (made.status === 'ok') return made.value;
    }
    throw new Error('no true world leaves enough worlds');
  }

  it('covers the truth from five flights about as often as stated', () => {
    const drawer = createDrawer(scenario, 'truth');
    let [covered, of, narrowest] = [0, 0, 1];
    for (let truth = 0; truth < TRUTHS; truth++) {
      const made = learn(request(fiveOf(truth)));
      if (made.status === 'refused') continue;
      for (const { name, path, after, narrowed } of made.value.inputs.slice(0, 3)) {
        const drawn = drawer.drawn.find((one) => one.name === name);
        const input = scenario.inputs.find((one) => one.path === path);
        if (drawn === undefined || input === undefined) throw new Error(name);
        const world = worldInput(drawn, input, drawer.uniforms(name, 'worlds', [truth * 60]));
        if (world === null) throw new Error(name);
        const value = world.values[0] * world.perSi + world.offset;
        of += 1;
        narrowest = Math.min(narrowest, narrowed);
        if (after[0] <= value && value <= after[2]) covered += 1;
      }
    }
    expect(of).toBeGreaterThan(30);
    expect(narrowest).toBeLessThan(0.9);
    // 90 % of about 60; three inputs of one truth go together, so three standard deviations are some 13 %.
    expect(covered / of).toBeGreaterThan(0.77);
  });

  it('narrows what the flights show: the drag through the fall speed', () => {
    const fast = logsOf(0, 1).map((log) => ({
      ...log,
      quantities: log.quantities
        .filter(({ name }) => name === 'speed_at_throttle_up')
        .map((one) => ({ ...one, low: (one.value ?? 0) - 0.2, high: (one.value ?? 0) + 0.2 })),
    }));
    const { inputs } = learnt(request(fast as readonly ReconstructResult[]));
    expect(inputs.slice(0, 4).map(({ name }) => name)).toContain('can.drag_factor');
    const untouched = inputs.find(({ name }) => name === 'video.thermal_resistance');
    expect(untouched?.narrowed ?? 1).toBeGreaterThan(0.85);
  });

  it('gives a fragment that the scenario reads, with the losses said and no input of other names', () => {
    const result = firstLearnt();
    const files = {
      ...diskFiles,
      read: (path: string) =>
        path === 'after.yaml' ? ({ status: 'ok', text: result.fragment } as const) : diskFiles.read(path),
    };
    const read = readScenario('after.yaml', [], files);
    expect(read).toMatchObject({ status: 'ok' });
    expect(result.fragment).toMatch(/^# What flights taught.*loses/);
    const first = result.inputs[0];
    if (read.status !== 'ok') return;
    const before = scenario.inputs.find(({ path }) => path === first.path);
    const after = read.scenario.inputs.find(({ path }) => path === first.path);
    expect(after?.value).not.toEqual(before?.value);
    expect(after?.source).toBe('measured');
  });

  it('refuses to conclude from a handful of worlds, and says what does not fit', () => {
    const odd = logsOf(2, 1).map((log) => ({
      ...log,
      quantities: log.quantities.map((one) =>
        one.name === 'speed_at_throttle_up' ? { ...one, value: 80, low: 79.5, high: 80.5 } : one,
      ),
    }));
    const made = learn(request(odd as readonly ReconstructResult[]));
    expect(made).toMatchObject({
      status: 'refused',
      messages: [
        expect.stringMatching(/Only .* of 500 worlds/),
        expect.stringMatching(/speed at throttle up .* standard deviations/),
      ],
    });
  });

  it('teaches another scenario what the two share', async () => {
    const other = dropTest('plan.throttle_up_height=65 m', 'can.drag_factor=1');
    const [logs] = [...Array(TRUTHS).keys()].map(fiveOf).filter((five) => learn(request(five)).status === 'ok');
    const made = learnt({ ...request(logs), scenario: other, flownIn: { scenario, flights } });
    expect(made.flownIn?.title).toBe('Teasel');
    expect(made.inputs.map(({ name }) => name)).not.toContain('can.drag_factor');
    expect(made.inputs.map(({ name }) => name)).toContain('rotors.vortex_ring_depth');
  });

  it('comes out the same twice, without a number that is none', () => {
    const logs = fiveOf(1);
    expect(learn(request(logs))).toEqual(learn(request(logs)));
    expect(notFinite(learn(request(logs)))).toEqual([]);
  });
});
