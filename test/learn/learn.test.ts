import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { ok } from '../../sim/basics/answer.js';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { narrowedUnder, posteriorPiece, worldInput, worldsRisk } from '../../sim/learn/posterior.js';
import { logLikelihoods } from '../../sim/learn/weigh.js';
import { diskFiles } from '../../sim/scenario/file/files.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { placed } from '../../sim/scenario/file/write-into.js';
import { weightedMoments, weightedQuantile, weightsOf } from '../../sim/statistics/weighted.js';

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

  it('takes risks by weight', () => {
    const even = new Float64Array(3).fill(1 / 3);
    expect(worldsRisk([5, 0, 10], 20, even).estimate).toBeCloseTo(0.25, 12);
    expect(worldsRisk([5, 0, 10], 20, Float64Array.from([0, 1, 0])).estimate).toBe(0);
  });
});

describe('an input after learning', () => {
  const read = readScenario('configs/burdock.yaml', [
    'pilot.call_out.bias={ normal: { mean: 0 m, sd: 6 m }, at_least: -10 m, kind: fixed but not measured }',
  ]);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  const scenario = read.value;
  const drawer = createDrawer(scenario, '1');
  const unmeasured = drawer.drawn.filter((one) => one.unmeasured).map(({ name }) => name);
  const single = unmeasured.filter((name) => !name.endsWith(']'));

  it.each(unmeasured.filter((name) => name.endsWith(']')))('is not written for one axis or rotor: %s', (name) => {
    const drawn = drawer.drawn.find((one) => one.name === name);
    const input = scenario.inputs.find(({ path }) => path === drawn?.path);
    if (drawn === undefined || input === undefined) throw new Error(name);
    const world = worldInput(drawn, input, drawer.uniforms(name, 'worlds', Uint32Array.from([0, 60, 120])));
    if (world === null) throw new Error(name);
    expect(posteriorPiece(input, [world], Float64Array.from([0.2, 0.3, 0.5]), 'learnt')).toBeNull();
  });

  it.each(single)('is written so that the scenario reads it: %s', (name) => {
    const drawn = drawer.drawn.find((one) => one.name === name);
    const input = scenario.inputs.find(({ path }) => path === drawn?.path);
    if (drawn === undefined || input === undefined) throw new Error(name);
    const ids = Uint32Array.from({ length: 200 }, (_, world) => world * 60);
    const world = worldInput(drawn, input, drawer.uniforms(name, 'worlds', ids));
    if (world === null) throw new Error(name);
    const middle = weightedMoments(world.values, new Float64Array(200).fill(1 / 200));
    const weights = weightsOf(world.values.map((one) => -0.5 * ((one - middle.mean) / (0.5 * middle.sd)) ** 2));
    const piece = posteriorPiece(input, [world], weights, 'learnt', { logs: 3, spreadLeft: 0.48 });
    expect(piece).toMatchObject({ source: 'learnt', logs: 3, spread_left: 0.48 });
    const text = placed('extends: configs/burdock.yaml\ntitle: After\n', input.path.split('.'), piece ?? {});
    const files = {
      ...diskFiles,
      read: (path: string) => (path === 'after.yaml' ? ok(text) : diskFiles.read(path)),
    };
    const after = readScenario('after.yaml', [], files);
    if (after.status !== 'ok') throw new Error(`${text}${JSON.stringify(after.problems)}`);
    const again = createDrawer(after.value, '1');
    const own = after.value.inputs.find(({ path }) => path === input.path);
    const narrower = again.drawn.find((one) => one.name === name);
    if (own === undefined || narrower === undefined) throw new Error(name);
    const redrawn = worldInput(narrower, own, again.uniforms(name, 'worlds', ids));
    const spread = weightedMoments(redrawn?.values ?? [], new Float64Array(200).fill(1 / 200));
    expect(spread.sd / middle.sd).toBeLessThan(0.75);
    expect(Math.abs(spread.mean - weightedMoments(world.values, weights).mean)).toBeLessThan(0.25 * middle.sd);
    if (name === 'pilot.call_out.bias') expect(text).toContain('at_least: -10 m');
  });

  it('is not written where each rotor has a number of its own and the file one law for all of them', () => {
    const several = drawer.drawn.find(
      ({ unmeasured: one, part, name }) => one && part === 'value' && name.includes('['),
    );
    const input = scenario.inputs.find(({ path }) => path === several?.path);
    if (several === undefined || input === undefined) throw new Error('none is drawn several times');
    const ids = Uint32Array.from({ length: 200 }, (_, world) => world * 60);
    const world = worldInput(several, input, drawer.uniforms(several.name, 'worlds', ids));
    if (world === null) throw new Error(several.name);
    expect(posteriorPiece(input, [world], new Float64Array(200).fill(1 / 200), 'learnt')).toBeNull();
  });

  it('learnt again adds its logs and multiplies what is left of the spread', () => {
    const law =
      'normal: { mean: 1, sd: 0.04 }, kind: fixed but not measured, source: learnt, logs: 2, spread_left: 0.7';
    const again = readScenario('configs/burdock.yaml', [`can.drag_factor={ ${law} }`]);
    if (again.status !== 'ok') throw new Error(again.messages.join());
    const input = again.value.inputs.find(({ path }) => path === 'can.drag_factor');
    const drawn = drawer.drawn.find(({ name }) => name === 'can.drag_factor');
    if (input === undefined || drawn === undefined) throw new Error('no drag factor');
    const world = worldInput(
      drawn,
      input,
      Float64Array.from({ length: 9 }, (_, i) => (i + 1) / 10),
    );
    if (world === null) throw new Error('no world');
    const piece = posteriorPiece(input, [world], new Float64Array(9).fill(1 / 9), 'learnt', {
      logs: 1,
      spreadLeft: 0.8,
    });
    expect(piece).toMatchObject({ logs: 3, spread_left: 0.56 });
  });

  // A spread of n equal worlds is known to 1/sqrt(2 n) of itself: two of that are 26 % from 30 worlds, 10 % from 200.
  it('counts as narrowed by more than its effective worlds leave to chance, and by a tenth at least', () => {
    expect(narrowedUnder(30)).toBeCloseTo(1 - 2 / Math.sqrt(60), 12);
    expect(narrowedUnder(200)).toBeCloseTo(0.9, 12);
    expect(narrowedUnder(5000)).toBe(0.9);
  });
});
