import { describe, expect, it } from 'vitest';
import { resultJson } from '../../sim/basics/result-json.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import { findLimits, type LimitsHooks, type LimitsMeans } from '../../sim/limits/limits.js';
import { type LimitsOptions, planLimits } from '../../sim/limits/plan.js';
import type { LimitsResult } from '../../sim/limits/result.js';
import type { InputPath } from '../../sim/scenario/definition/paths.js';
import { fixedValue } from '../../sim/scenario/lookup.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { answered, refusalOf } from '../answers.js';
import { plainBurdock } from '../compare/designs.js';
import { createSyntheticFlyer } from '../decision/synthetic-flyer.js';
import { burdock } from '../ensemble/burdock.js';

const OPTIONS: LimitsOptions = {
  seed: '1',
  flights: 2000,
  rows: 'wind.speed',
  columns: 'pad.wait',
  heights: { kind: 'standard' },
  overrides: [],
};

const fixedAt = (scenario: Scenario, path: InputPath) => fixedValue(scenario, path) ?? Number.NaN;

/** Wind moves the falling flank up, waiting lifts the floor. */
function synthetic(scenario: Scenario) {
  const wind = fixedAt(scenario, 'wind.speed');
  const wait = fixedAt(scenario, 'pad.wait');
  const risk = (height: number) => Math.min(1, 0.01 + 1e-5 * wait + 0.5 * Math.exp(-(height - 90 - 8 * wind) / 20));
  return createSyntheticFlyer({ seed: '1', risk });
}

function meansFor(scenario: Scenario): LimitsMeans {
  return { flyerFor: synthetic, criteria: criteriaOf(scenario) };
}

function card(options: Partial<LimitsOptions> = {}, hooks: LimitsHooks = {}, scenario = plainBurdock()) {
  return findLimits(scenario, { ...OPTIONS, ...options }, meansFor(scenario), hooks);
}

/** Row by row: the height, or the status where there is none. */
function grid({ cells, columns }: LimitsResult): readonly (readonly (number | string)[])[] {
  const width = columns.values.length;
  const shown = cells.map(({ status, height }) => (status === 'height shown' ? Number(height) : status));
  return Array.from({ length: cells.length / width }, (_, row) => shown.slice(row * width, (row + 1) * width));
}

/** The demo without keep-out circles, which so few flights do not show to be kept. */
const freeBurdock = (...changes: readonly string[]) => burdock('site.keep_out=[]', ...changes);

describe('a day card over a known risk', () => {
  it('has six winds by five waits, and heights that rise to the hard corner as the risk does', async () => {
    const result = answered(await card());
    const heights = grid(result);
    expect([heights.length, heights[0].length, result.anyShown, result.partial]).toEqual([6, 5, true, false]);
    // A cell accepts a risk of 4.15 % from 2000 flights: calm and 10 min, 0.016 + 0.5 exp(-(h - 90)/20) from 156 m on.
    expect(Number(heights[0][0])).toBeGreaterThanOrEqual(140);
    expect(Number(heights[0][0])).toBeLessThanOrEqual(180);
    // The same at the ceiling of 8.94 m/s, 72 m higher.
    expect(Number(heights[5][0])).toBeGreaterThanOrEqual(210);
    expect(Number(heights[5][0])).toBeLessThanOrEqual(260);
    const steps = heights.flatMap((row) => row.slice(1).map((height, column) => [row[column], height]));
    expect(steps.filter(([easier, harder]) => Number(easier) > Number(harder))).toEqual([]);
  });

  it('marks the launch code and flies nothing in more wind', async () => {
    const flown: number[] = [];
    const watch = (scenario: Scenario) => {
      flown.push(fixedAt(scenario, 'wind.speed'));
      return synthetic(scenario);
    };
    const options = { ...OPTIONS, rows: 'wind.speed=12 m/s,4 m/s,8 m/s', columns: 'pad.wait=10 min' };
    const result = answered(
      await findLimits(plainBurdock(), options, { ...meansFor(plainBurdock()), flyerFor: watch }),
    );
    expect(result.rows.values).toEqual([4, 8, 12]);
    expect(result.windCeiling).toEqual({ axis: 'rows', speed: expect.closeTo(8.94, 2) });
    expect(result.cells.map(({ status }) => status)).toEqual(['height shown', 'height shown', 'no launch']);
    expect(flown).toEqual([4, 8]);
  });

  it('does the same with the wind across', async () => {
    const result = answered(await card({ rows: 'pad.wait=10 min,20 min', columns: 'wind.speed=4 m/s,12 m/s' }));
    expect(grid(result).map((row) => row[1])).toEqual(['no launch', 'no launch']);
    expect(result.windCeiling?.axis).toBe('columns');
  });

  it('allows no flight where the floor is over the limit, and names what it breaks', async () => {
    const result = answered(await card({ columns: 'pad.wait=100 min' }));
    expect(result.anyShown).toBe(false);
    expect(result.cells.every(({ status }) => status === 'do not fly')).toBe(true);
    expect(result.cells[0].closest?.criteria.map(({ name }) => name)).toEqual(['ground impact']);
    expect(result.cells.slice(1).every(({ inherited, flights }) => inherited && flights === 0)).toBe(true);
  });

  it('searches each cell anew along an input whose harder end is not known, and says so', async () => {
    const rows = 'wind.speed=2 m/s';
    const result = answered(
      await findLimits(
        plainBurdock('pad.wait=10 min'),
        { ...OPTIONS, rows, columns: 'wind.from=0 deg,90 deg' },
        meansFor(plainBurdock()),
      ),
    );
    expect(result.columns.ordered).toBe(false);
    expect(result.cells[1].flights).toBeGreaterThan(2000);
    expect(result.warnings.map(({ code }) => code)).toContain('order not known');
  });

  it('says where a rank correlation does not hold on the card', async () => {
    const scenario = plainBurdock('correlations=[{between: [wind.speed, site.temperature], rank: 0.3}]');
    const result = answered(await card({ rows: 'wind.speed=2 m/s', columns: 'pad.wait=10 min' }, {}, scenario));
    expect(result.dropped).toHaveLength(1);
    expect(result.warnings.map(({ code }) => code)).toContain('correlation dropped');
  });

  it('keeps, interrupted, the cells found until then and marks them partial', async () => {
    const stop = new AbortController();
    const onProgress = (cells: number) => cells === 7 && stop.abort();
    const result = answered(await card({}, { onProgress, stop: stop.signal }));
    expect(result.partial).toBe(true);
    expect(result.cells.filter(({ status }) => status === 'not reached')).toHaveLength(23);
    expect(await card({}, { stop: AbortSignal.abort() })).toEqual({ status: 'nothing flown' });
  });

  it('is a pure function of its request', async () => {
    const text = async () => [...resultJson(answered(await card({ rows: 'wind.speed=2 m/s,4 m/s' })))].join('');
    expect(await text()).toBe(await text());
  });

  it('takes the heights that it is given and no other', async () => {
    const heights = { kind: 'list', heights: [160, 200, 240] } as const;
    const result = answered(await card({ heights, rows: 'wind.speed=2 m/s', columns: 'pad.wait=10 min' }));
    expect(result.heights).toEqual([160, 200, 240]);
    expect(grid(result)).toEqual([[200]]);
  });
});

describe('the plan of a day card', () => {
  it.each([
    ['too few flights', { flights: 50 }, /cannot show.*at least 59/],
    ['a billion flights', { flights: 1e9 }, /GB of memory/],
    ['one input twice', { columns: 'wind.speed=2 m/s' }, /both name wind\.speed/],
    ['no wind that allows a launch', { rows: 'wind.speed=10 m/s,12 m/s' }, /over the launch code's ceiling/],
    ['a height above the ejection', { heights: { kind: 'list', heights: [900] } }, /900 m/],
    ['an input that is none', { rows: 'wind.sped' }, /--rows: "wind\.sped".*Did you mean "wind\.speed"/],
  ] as const)('refuses %s', (_what, change, why) => {
    const planned = planLimits(freeBurdock(), { ...OPTIONS, ...change }, criteriaOf(freeBurdock()));
    expect(refusalOf(planned).join()).toMatch(why);
  });

  it('says everything that is wrong at once', () => {
    const planned = planLimits(
      freeBurdock(),
      { ...OPTIONS, rows: 'a', columns: 'b', flights: 1 },
      criteriaOf(freeBurdock()),
    );
    expect(planned).toMatchObject({ messages: expect.objectContaining({ length: 3 }) });
  });
});

describe('a day card of real flights', () => {
  it('flies each cell as the scenario with both values set', async () => {
    const flown: string[] = [];
    const flyerOf = (scenario: Scenario) => {
      flown.push(scenario.hash);
      return createSerialFlyer(createMaker(scenario, '1'));
    };
    const options: LimitsOptions = {
      ...OPTIONS,
      flights: 60,
      rows: 'wind.speed=2 m/s',
      columns: 'pad.wait=10 min,90 min',
      heights: { kind: 'list', heights: [60] },
    };
    const result = answered(
      await findLimits(freeBurdock(), options, { ...meansFor(freeBurdock()), flyerFor: flyerOf }),
    );
    // 60 m is far too low: nothing stops within it.
    expect(grid(result)).toEqual([['do not fly', 'do not fly']]);
    expect(result.cells[0].closest?.criteria[0].risk.estimate).toBeGreaterThan(0.8);
    expect(flown).toEqual([freeBurdock('wind.speed=2 m/s', 'pad.wait=10 min').hash]);
  });
});
