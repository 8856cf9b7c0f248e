/** Learning from real flights whose truth is known: what is learnt holds the truth as often as it says. */
import { beforeAll, describe, expect, it } from 'vitest';
import { ok } from '../../sim/basics/answer.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightColumns } from '../../sim/flight/record.js';
import { LEARNED_FROM, learn, worldIds } from '../../sim/learn/learn.js';
import { worldInput } from '../../sim/learn/posterior.js';
import type { LearnRequest } from '../../sim/learn/request.js';
import type { LearnResult } from '../../sim/learn/result.js';
import { simulatedQuantity } from '../../sim/reconstruct/reconstruct.js';
import type { LogQuantity, ReconstructResult } from '../../sim/reconstruct/result.js';
import { diskFiles } from '../../sim/scenario/file/files.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { notFinite } from '../fit/not-finite.js';
import { figure, howMany, widened } from '../in-full.js';

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
const TRUTHS = howMany(20, 48);

/** Short flights, so that many worlds are flown in seconds. */
function dropTest(...overrides: readonly string[]): Scenario {
  const read = readScenario('configs/teasel.yaml', ['plan.throttle_up_height=60 m', ...overrides]);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.value;
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

describe('learning from flights of a known truth', () => {
  const scenario = dropTest();
  let flights: FlightColumns;
  let truths: FlightColumns;

  beforeAll(async () => {
    flights = await flyWorlds(scenario, 'prior', WORLDS, EACH);
    truths = await flyWorlds(scenario, 'truth', TRUTHS, 5);
  });

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
    figure('inputs that hold their truth after five flights', covered, 'of', of);
    expect(of).toBeGreaterThan((30 / 48) * TRUTHS);
    expect(narrowest).toBeLessThan(0.9);
    // 90 % of about 60 in full; three inputs of one truth go together, so three standard deviations are some 13 %.
    expect(covered / of).toBeGreaterThan(0.9 - widened(0.13, TRUTHS, 48));
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
      read: (path: string) => (path === 'after.yaml' ? ok(result.fragment) : diskFiles.read(path)),
    };
    const read = readScenario('after.yaml', [], files);
    expect(read).toMatchObject({ status: 'ok' });
    expect(result.fragment).toMatch(/^# What flights taught.*loses/);
    const first = result.inputs[0];
    if (read.status !== 'ok') return;
    const before = scenario.inputs.find(({ path }) => path === first.path);
    const after = read.value.inputs.find(({ path }) => path === first.path);
    expect(after?.value).not.toEqual(before?.value);
    expect(after?.source).toBe('learnt');
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
    const logs = fiveOf([...Array(TRUTHS).keys()].find((truth) => learn(request(fiveOf(truth))).status === 'ok') ?? 0);
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
