/** Learning by flying, on a stand-in that answers from its inputs at once: what is held, what is told, what a stop leaves. */
import { describe, expect, it } from 'vitest';
import { ok } from '../../sim/basics/answer.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { emptyColumns, firstFlights } from '../../sim/ensemble/columns.js';
import type { Flyer } from '../../sim/ensemble/flyer.js';
import { learn, worldsThatWouldDo } from '../../sim/learn/learn.js';
import { worldInput } from '../../sim/learn/posterior.js';
import type { LearnResult } from '../../sim/learn/result.js';
import { scoreSpace } from '../../sim/learn/scores.js';
import { type LearnFlying, type LearnStudy, learnByFlying } from '../../sim/learn/study.js';
import type { ReconstructResult } from '../../sim/reconstruct/result.js';
import { diskFiles } from '../../sim/scenario/file/files.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { burdock } from '../ensemble/burdock.js';
import { notFinite } from '../fit/not-finite.js';
import { figure, howMany, widened } from '../in-full.js';

/** Burdock with two unmeasured inputs that go together. */
function tied(): Scenario {
  const text =
    'extends: configs/burdock.yaml\ntitle: Tied\ncorrelations:\n  - { between: [can.drag_factor, rotors.thrust_factor], rank: 0.6 }\n';
  const files = {
    ...diskFiles,
    read: (path: string) => (path === 'tied.yaml' ? ok(text) : diskFiles.read(path)),
  };
  const read = readScenario('tied.yaml', [], files);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.value;
}

/** Scatter of a stand-in flight, from an input that varies from flight to flight. */
const scatter = (reaction: number, share: number) => share * Math.sin(1e4 * reaction);

/** Fall speed by the drag factor, time by the thrust factor, height by the depth of the vortex ring: with little scatter. */
function standIn(scenario: Scenario, seed: string, stopAfter = Number.POSITIVE_INFINITY): Flyer {
  const drawer = createDrawer(scenario, seed);
  let flown = 0;
  return {
    async fly(batch, onFlown) {
      const [columns] = emptyColumns(batch, batch.ids.length);
      let done = 0;
      for (const [i, id] of batch.ids.entries()) {
        if (flown >= stopAfter) break;
        const { can, rotors, pilot } = drawer.draw(batch.set, id, batch.changes).inputs;
        const [fall, time, height] = [1, 2, 3].map((share) => scatter(pilot.reaction * share, 0.05));
        const set = (name: keyof typeof columns.columns, value: number) => {
          (columns.columns[name] as Float32Array)[i] = value;
        };
        set('speed_at_order', 20 * can.drag_factor + fall);
        set('running_time', 10 * rotors.thrust_factor + time);
        set('order_time', 10 * rotors.thrust_factor + time);
        set('order_height', 100 * rotors.vortex_ring_depth + 10 * height);
        set('arrest_height', Number.NaN);
        done += 1;
        flown += 1;
      }
      onFlown?.(done);
      return [firstFlights(columns, done)];
    },
    async close() {},
  };
}

/** Five logs of one world of seed "truth", shown to within 0.02 m/s, 0.02 s and 0.2 m (standard deviations). */
async function logsOf(scenario: Scenario, world: number): Promise<readonly ReconstructResult[]> {
  const ids = Uint32Array.from({ length: 5 }, (_, i) => world * 60 + i);
  const [{ columns }] = await standIn(scenario, 'truth').fly({ set: 'worlds', ids, heights: [250], detail: 'full' });
  return Array.from(ids, (_, i) => ({
    file: `log-${i}.csv`,
    quantities: (
      [
        ['speed_at_throttle_up', columns.speed_at_order?.[i] ?? 0, 0.02],
        ['throttle_up_time', columns.running_time?.[i] ?? 0, 0.02],
        ['throttle_up_height', columns.order_height?.[i] ?? 0, 0.2],
      ] as const
    ).map(([name, value, error]) => ({ name, value, low: value - 1.645 * error, high: value + 1.645 * error })),
  })) as unknown as readonly ReconstructResult[];
}

function studyOf(scenario: Scenario, logs: readonly ReconstructResult[], worlds = 600): LearnStudy {
  return { scenario, flownIn: null, seed: 'prior', worlds, logs, file: 'tied.yaml' };
}

async function learnt(study: LearnStudy, flying?: Partial<LearnFlying>): Promise<LearnResult> {
  const made = await learnByFlying(study, { flyers: [standIn(study.scenario, study.seed), null], ...flying });
  if (made.status !== 'ok') throw new Error(JSON.stringify(made));
  return made.value;
}

describe('the scores of a world', () => {
  it.each([
    ['Burdock', burdock()],
    ['Burdock with a correlation', tied()],
  ])('are all that is unmeasured, and hold it where it was drawn: %s', (_, scenario) => {
    const drawer = createDrawer(scenario, 's');
    const unmeasured = drawer.drawn.filter((one) => one.unmeasured).map(({ name }) => name);
    const space = scoreSpace(scenario, 's', new Set(unmeasured));
    expect(space.names).toEqual(unmeasured);
    const ids = [0, 60, 120];
    space.natural(0, 3).forEach((scores, world) => {
      const held = space.uniforms(scores);
      unmeasured.forEach((name, i) => {
        expect(held[i]).toBeCloseTo(drawer.uniforms(name, 'worlds', ids)[world], 9);
      });
      const inputs = structuredClone(drawer.draw('worlds', ids[world]).inputs);
      const again = drawer.draw('worlds', ids[world], space.changes(scores)).inputs;
      expect(again.can.drag_factor).toBeCloseTo(inputs.can.drag_factor, 9);
      expect(again.rotors.thrust_factor).toBeCloseTo(inputs.rotors.thrust_factor, 9);
      // Held by chance alone: whether an arm sticks in this flight stays to luck.
      expect(again.arms).toEqual(inputs.arms);
    });
  });

  it('leave out an input that is tied to one that is not wanted', () => {
    const space = scoreSpace(tied(), 's', new Set(['can.drag_factor', 'rotors.vortex_ring_depth']));
    expect(space.names).toEqual(['rotors.vortex_ring_depth']);
  });
});

describe('learning by flying', () => {
  const scenario = tied();

  it('goes after five precise logs, which plausible worlds alone cannot explain, and covers the truth', async () => {
    const drawer = createDrawer(scenario, 'truth');
    let [covered, of] = [0, 0];
    const worlds = howMany(2, 6);
    for (let world = 0; world < worlds; world++) {
      const logs = await logsOf(scenario, world);
      const result = await learnt(studyOf(scenario, logs));
      expect(result.waves.length).toBeGreaterThan(1);
      expect(result.waves.reduce((sum, one) => sum + one, 0)).toBe(result.worlds);
      expect(result.effectiveWorlds).toBeGreaterThan(100);
      expect(notFinite(result)).toEqual([]);
      for (const name of ['can.drag_factor', 'rotors.thrust_factor', 'rotors.vortex_ring_depth']) {
        const one = result.inputs.find((input) => input.name === name);
        const drawn = drawer.drawn.find((input) => input.name === name);
        const input = scenario.inputs.find(({ path }) => path === name);
        if (one === undefined || drawn === undefined || input === undefined) throw new Error(name);
        const truth = worldInput(drawn, input, drawer.uniforms(name, 'worlds', [world * 60]))?.values[0] ?? Number.NaN;
        expect(one.narrowed).toBeLessThan(0.5);
        of += 1;
        if (one.after[0] <= truth && truth <= one.after[2]) covered += 1;
      }
      // What nothing shows stays as it was, to the scatter of 100 effective worlds: four times 1/sqrt(200).
      const untouched = result.inputs.find(({ name }) => name === 'video.limit');
      expect(Math.abs((untouched?.narrowed ?? 0) - 1)).toBeLessThan(0.28);
    }
    figure('inputs that hold their truth', covered, 'of', of);
    // 16.2 of 18 are expected in full, three standard deviations are 3.8.
    expect(covered / of).toBeGreaterThan(0.9 - widened(0.22, worlds, 6));
  });

  it('would have refused without the further worlds, saying how many would do', async () => {
    const logs = await logsOf(scenario, 0);
    const flyer = standIn(scenario, 'prior');
    const ids = Uint32Array.from({ length: 600 * 25 }, (_, i) => Math.floor(i / 25) * 60 + (i % 25));
    const [flights] = await flyer.fly({ set: 'worlds', ids, heights: [250], detail: 'full' });
    const made = learn({ ...studyOf(scenario, logs), flights, flownIn: null, each: 25 });
    expect(made).toMatchObject({
      status: 'refused',
      messages: [
        expect.stringMatching(/^Only \S+ of 600 worlds carry/),
        expect.stringMatching(/worlds would do.*--worlds \d+/),
      ],
    });
  });

  it('estimates the worlds that would do in proportion, half as many again, rounded up', () => {
    // 15 effective of 2000: 30 need 4000, and half as many again 6000.
    expect(worldsThatWouldDo(15, 2000)).toBe(6000);
    expect(worldsThatWouldDo(29, 2000)).toBe(3200);
  });

  it('goes after no log that lies far outside what the scenario does', async () => {
    const logs = (await logsOf(scenario, 0)).map((log) => ({
      ...log,
      quantities: log.quantities.map((one) =>
        one.name === 'speed_at_throttle_up' ? { ...one, value: 60, low: 59, high: 61 } : one,
      ),
    }));
    let flown = 0;
    const made = await learnByFlying(studyOf(scenario, logs, 200), {
      flyers: [standIn(scenario, 'prior'), null],
      onProgress: (count) => {
        flown = count;
      },
    });
    expect(made).toMatchObject({
      status: 'refused',
      messages: [expect.stringMatching(/^Only/), expect.stringMatching(/standard deviations/)],
    });
    expect(flown).toBe(200 * 25);
  });

  it('comes out the same twice', async () => {
    const study = studyOf(scenario, await logsOf(scenario, 1), 200);
    expect(await learnt(study)).toEqual(await learnt(study));
  });

  it('stopped, concludes from the worlds flown whole where they suffice, and says so; else tells how few there were', async () => {
    const loose = (await logsOf(scenario, 2)).slice(0, 1).map((log) => ({
      ...log,
      quantities: log.quantities.map((one) => ({ ...one, low: (one.value ?? 0) - 20, high: (one.value ?? 0) + 20 })),
    }));
    // 123 worlds and some flights: as if an interrupt had come in the middle of one.
    const flying = (flights: number): LearnFlying => ({ flyers: [standIn(scenario, 'prior', flights), null] });
    const result = await learnt(studyOf(scenario, loose), flying(123 * 25 + 7));
    expect(result).toMatchObject({ worlds: 123, waves: [123], partial: true });
    expect(result.warnings.map(({ code }) => code)).toContain('partial');
    const few = await learnByFlying(studyOf(scenario, loose), flying(7 * 25 + 3));
    expect(few).toMatchObject({ status: 'stopped', worlds: 7 });
    expect(await learnByFlying(studyOf(scenario, loose), flying(3))).toEqual({
      status: 'stopped',
      worlds: 0,
      effective: 0,
    });
  });

  it('teaches another scenario in waves, both flown in the same worlds', async () => {
    const flownIn = burdock();
    const other = burdock('can.slender_body_factor=0.8');
    const made = await learnByFlying(
      { ...studyOf(other, await logsOf(flownIn, 3), 400), flownIn },
      { flyers: [standIn(other, 'prior'), standIn(flownIn, 'prior')] },
    );
    if (made.status !== 'ok') throw new Error(JSON.stringify(made));
    const names = made.value.inputs.map(({ name }) => name);
    expect(made.value.waves.length).toBeGreaterThan(1);
    expect(names).not.toContain('can.slender_body_factor');
    expect(names.slice(0, 3).sort()).toEqual(['can.drag_factor', 'rotors.thrust_factor', 'rotors.vortex_ring_depth']);
  });
});
