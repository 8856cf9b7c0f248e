import { describe, expect, it } from 'vitest';
import { assess } from '../../../sim/assess/assess.js';
import { shareOf } from '../../../sim/assess/parts/fly-part.js';
import { partFile, readPart } from '../../../sim/assess/parts/part-file.js';
import type { AssessOptions } from '../../../sim/assess/plan.js';
import { resultJson } from '../../../sim/basics/result-json.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import type { Flyer } from '../../../sim/ensemble/flyer.js';
import { createLogbook, type Logbook } from '../../../sim/ensemble/logbook.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { answered } from '../../answers.js';
import { burdock } from '../../ensemble/burdock.js';
import { type FailuresInHundred, fakeMaker, meansOf } from '../../ensemble/fake-maker.js';
import { bytesOf, countsPlain, flyInParts } from './fly-in-parts.js';

const SEARCH: AssessOptions = { seed: '1', flights: 1000, heights: { kind: 'standard' }, overrides: [] };
const CIRCLE = ['criteria.recovery_circle.radius=40 m', 'criteria.recovery_circle.chance_outside=5 %'];
/** Surely too risky under 150 m, within the 5 % from there on. */
const steep: FailuresInHundred = (height) => (height < 150 ? 40 : 3);

/** Other flights in every set, as the real ones are. */
function meansFor(scenario: Scenario, failures: FailuresInHundred) {
  const means = meansOf(scenario, fakeMaker(failures).maker);
  const { flyer } = means;
  const apart = { explore: 0, confirm: 17, worlds: 31 };
  const fly: Flyer['fly'] = (batch, onFlown, stop) =>
    flyer.fly({ ...batch, ids: batch.ids.map((id) => id + apart[batch.set]) }, onFlown, stop);
  return { ...means, flyer: { ...flyer, fly } };
}

function together(
  options: AssessOptions,
  of: number,
  failures = steep,
  ...overrides: readonly string[]
): Promise<Logbook> {
  const scenario = burdock('site.keep_out=[]', ...overrides);
  return flyInParts(scenario, options, of, () => meansFor(scenario, failures));
}

/** The result, and the plain flights flown for it besides what the logbook holds. */
async function resultFrom(options: AssessOptions, logbook: Logbook, failures = steep, ...overrides: string[]) {
  const scenario = burdock('site.keep_out=[]', ...overrides);
  const means = meansFor(scenario, failures);
  const flyer = countsPlain(means.flyer);
  const result = answered(await assess(scenario, options, { ...means, flyer }, { logbook }));
  return { text: [...resultJson(result)].join(''), result, plain: flyer.plain() };
}

describe('parts put together', () => {
  it.each([
    ['a search', SEARCH, 3, steep, []],
    ['a search with a recovery circle', SEARCH, 2, steep, CIRCLE],
    ['a search that finds nothing', SEARCH, 3, () => 40, []],
    ['a search near the limit', { ...SEARCH, flights: 3000 }, 3, () => 4, []],
    ['a list of heights, some hopeless', { ...SEARCH, heights: { kind: 'list', heights: [60, 200] } }, 3, steep, []],
    ['the planned height alone', { ...SEARCH, heights: { kind: 'planned' }, assurance: 0.9 }, 2, steep, []],
    ['more parts than flights', { ...SEARCH, flights: 3, heights: { kind: 'planned' } }, 5, steep, []],
    ['one part', { ...SEARCH, flights: 400 }, 1, steep, []],
  ] as const)(
    'give the bytes of the undivided study and fly nothing of it again: %s',
    async (_what, options, of, failures, overrides) => {
      const undivided = await resultFrom(options, createLogbook(), failures, ...overrides);
      const merged = await resultFrom(
        options,
        await together(options, of, failures, ...overrides),
        failures,
        ...overrides,
      );
      expect(merged.text).toBe(undivided.text);
      expect(undivided.plain).toBeGreaterThan(0);
      expect(merged.plain).toBe(0);
    },
  );

  it('hold the fresh flights of the aim and of the plan beside it', async () => {
    const { result } = await resultFrom(SEARCH, await together(SEARCH, 2));
    expect(result.aim?.risk.flights).toBe(SEARCH.flights);
    expect(result.heightDecision?.plan?.toAim?.flights).toBe(SEARCH.flights);
  });
});

describe('the shares of the parts', () => {
  it('are all flights, each once, in order', () => {
    for (const [flights, of] of [
      [1000, 7],
      [3, 5],
      [1, 1],
      [1_000_000, 64],
    ] as const) {
      const shares = Array.from({ length: of }, (_, index) => shareOf({ number: index + 1, of }, flights));
      expect(shares[0].from).toBe(0);
      expect(shares[of - 1].to).toBe(flights);
      shares.slice(1).forEach(({ from }, index) => {
        expect(from).toBe(shares[index].to);
      });
      const sizes = shares.map(({ from, to }) => to - from);
      expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
    }
  });
});

describe('an unfinished study', () => {
  const whole = resultFrom(SEARCH, createLogbook());

  it.each([1, 1200, 3500, 9000, 20_000])(
    'stopped after %d flights goes on, from its file, to the same bytes, and flies only what is missing',
    async (after) => {
      const scenario = burdock('site.keep_out=[]');
      const logbook = createLogbook();
      const stop = new AbortController();
      let first = 0;
      await assess(scenario, SEARCH, meansFor(scenario, steep), {
        logbook,
        stop: stop.signal,
        onProgress({ flown }) {
          first = flown;
          if (flown >= after) stop.abort();
        },
      });
      expect(stop.signal.aborted).toBe(true);
      const part = {
        versions: presentVersions(),
        scenario,
        options: SEARCH,
        part: null,
        whole: false,
        name: 'burdock',
      };
      const read = answered(readPart(bytesOf(partFile(part, logbook.entries()))));
      const kept = createLogbook();
      for (const entry of read.entries) kept.enter(entry);
      let second = 0;
      const study = await assess(scenario, SEARCH, meansFor(scenario, steep), {
        logbook: kept,
        onProgress({ flown }) {
          second = flown;
        },
      });
      const { text } = await whole;
      expect([...resultJson(answered(study))].join('')).toBe(text);
      expect(first + second).toBe(await flownInOneGo());
    },
  );
});

let inOneGo: Promise<number> | undefined;

/** Flights that the study flies when nothing stops it. */
function flownInOneGo(): Promise<number> {
  inOneGo ??= (async () => {
    const scenario = burdock('site.keep_out=[]');
    let all = 0;
    const onProgress = ({ flown }: { flown: number }) => {
      all = flown;
    };
    await assess(scenario, SEARCH, meansFor(scenario, steep), { onProgress });
    return all;
  })();
  return inOneGo;
}
