import { describe, expect, it } from 'vitest';
import { assessPage } from '../../../../cli/commands/assess/page.js';
import { assessSummary, quietLines, verdictLines } from '../../../../cli/commands/assess/summary.js';
import { headlineMark, headlineSign } from '../../../../report/assess/doubt.js';
import { assess } from '../../../../sim/assess/assess.js';
import type { HelpRow, MeasureRow, StoppingNote, WorldsResult } from '../../../../sim/assess/decisions.js';
import type { AssessResult } from '../../../../sim/assess/result.js';
import type { HeightDecision } from '../../../../sim/decision/result.js';
import { proportion } from '../../../../sim/statistics/proportion.js';
import { answered } from '../../../answers.js';
import { fakeResult } from '../../../assess/fake-result.js';
import { burdock } from '../../../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../../../ensemble/fake-maker.js';

const plain = (_style: string, text: string) => text;
const summary = (result: AssessResult) => assessSummary(result, plain).join('\n');
/** As one line, so that it does not matter where lines are broken. */
const verdict = (result: AssessResult) => verdictLines(result, plain).join(' ');

describe('the summary of an assessment', () => {
  it.each([
    [3, /^◐ WITHIN the limits: throttling up at the planned 250 m/],
    [20, /^△ ABOVE the limits/],
    [6, /^◇ NOT SHOWN[\s\S]*would settle it/],
  ])('with %d failures in 100 begins with the verdict', async (failures, beginning) => {
    expect(summary(await fakeResult(failures, 1000))).toMatch(beginning);
  });

  it('fits 80 columns, whatever the scenario is called', async () => {
    const result = await fakeResult(7, 500, `title=${'Long '.repeat(40)}`);
    for (const line of assessSummary(result, plain)) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('names criteria with limit and value, causes, heights and warnings with advice', async () => {
    const text = summary(await fakeResult(7, 500));
    expect(text).toMatch(/ground impact +limit 5 % +7\.\d % .* above/);
    expect(text).toMatch(/reaction +7\.\d % /);
    expect(text).toMatch(/250 m .* planned/);
    expect(text).toMatch(/Over a limit, given up early: 60[^%]*m\./);
    expect(text).toMatch(/! The numbers are invented[\s\S]*Write your own/);
  });

  it('names no aim and no latest height where none was looked for, and recommends nothing', async () => {
    expect(summary(await fakeResult(3, 500))).not.toMatch(/ecommend|At the latest|Aim/);
  });

  it('says when it is partial', async () => {
    expect(verdict({ ...(await fakeResult(3)), partial: true })).toContain(
      'Interrupted: a partial result, of 200 flights',
    );
  });

  it('names the criterion that decides where it is not the ground impact', async () => {
    const result = await fakeResult(1, 1000, 'criteria.recovery_circle.radius=1 m');
    expect(verdict(result)).toMatch(/^△ ABOVE.*What decides is "outside the recovery circle"/);
  });
});

const worlds: WorldsResult = {
  height: 150,
  limit: 0.05,
  worlds: 100,
  flightsEach: 60,
  counts: [],
  mean: 0.031,
  status: 'spread',
  sd: 0.024,
  lower: 0.0098,
  median: 0.03,
  upper: 0.0912,
  law: { a: 1, b: 30 },
  shareWithin: { estimate: 0.82, lower: 0.741, upper: 0.903 },
};

async function searched(failuresAt: (height: number) => number, ...overrides: readonly string[]) {
  const scenario = burdock('site.keep_out=[]', ...overrides);
  const options = { seed: '1', flights: 1000, heights: { kind: 'standard' }, overrides } as const;
  const study = await assess(scenario, options, meansOf(scenario, fakeMaker(failuresAt).maker));
  return answered(study);
}

describe('the summary of an assessment that looked for a height', () => {
  const found = searched((height) => (height < 150 ? 40 : height > 450 ? 20 : 3));
  const help = (path: string, savedInHundred: number, lower: number) =>
    ({ path, heldAt: 'better end', savedInHundred, lower, upper: savedInHundred + 0.5 }) as HelpRow;
  const measure = (path: string, sdAfter: number, shown: boolean) => ({ path, sd: 0.01, sdAfter, shown }) as MeasureRow;
  const full = found.then((result): AssessResult => {
    const rows = ['pilot.reaction', 'can.drag_factor', 'rotors.thrust_factor', 'can.mass'];
    return {
      ...result,
      worlds,
      help: { height: 150, flights: 1000, failed: 30, rows: rows.map((path, i) => help(path, 2 - i / 2, 0.6 - i / 2)) },
      measureFirst: rows.map((path, i) => measure(path, 0.012 + i / 500, i === 0)),
    };
  });

  it('says the three heights, what each is, and the plan against them', async () => {
    const text = summary(await found).replace(/\s+/g, ' ');
    expect(text).toMatch(/^◐ WITHIN/);
    expect(text).toMatch(
      /The planned 250 m lies inside the window of 150 m to 450 m; to the aim of 2\d0 m there is no difference that matters \(-?\S+ to \S+ flights in 100\): keep your plan\./,
    );
    expect(text).toMatch(/Aim 2\d0 m: risk 3\.0 % \(2\.1 to 4\.1 %\) on 1000 fresh flights\. From 160 m to 4\d0 m/);
    expect(text).toMatch(/At the latest 150 m: risk 3\.0 % .* the riskiest that is still acceptable\./);
    expect(text).toMatch(/its figure is still a little low, because it had to pass/);
    expect(text).toMatch(/Not before 450 m, the highest height shown to keep every limit; at 460 m one is broken\./);
    expect(text).toMatch(/Shown to keep every limit at 150, 160, .*450 m; heights between them were not judged\./);
    expect(text).not.toMatch(/ecommend/);
  });

  it('says order and seconds of the plan and of the aim alone', async () => {
    const text = summary(await found);
    const orders = text.match(/full\s+throttle when the height read aloud comes to \d+ m: \d+\.\d+ s/g);
    expect(orders).toHaveLength(2);
    expect(orders?.join()).not.toContain('150 m');
  });

  it('has one verdict a height, in the result, in the terminal and on the page', async () => {
    const result = await found;
    const { window, explored, confirmed, aim } = result.heightDecision as HeightDecision;
    const page = (await assessPage(result)).replace(/[\s\u00a0]+/g, ' ');
    const lines = assessSummary(result, plain);
    for (const { height, verdict: told } of result.curve) {
      const figures = [...confirmed, ...(aim === null ? [] : [aim.figure]), ...explored];
      const decided = figures.find((figure) => figure.height === height)?.verdict;
      expect([height, told]).toEqual([height, height === 250 ? result.overall : decided]);
      expect([height, window?.shown.includes(height)]).toEqual([height, told === 'within']);
      const row = lines.find((line) => line.startsWith(`  ${height} m `) && line.includes('%'));
      if (row !== undefined) expect(row).toContain(told);
      const cells = page.match(new RegExp(`>${height} m ?</th>.*?</tr>`))?.[0] ?? '';
      expect(cells.includes('within the limit')).toBe(told === 'within');
    }
  });

  it('sets what nobody has measured right under the risk, and how many inputs are guesses', async () => {
    const result = await full;
    const doubt = { ...result.doubt, status: 'spread', lower: 0.0098, upper: 0.0912, shareWithin: 0.82 } as const;
    const text = verdict({ ...result, doubt }).replace(/\s+/g, ' ');
    expect(text).toMatch(
      /Risk 3\.0 % \(2\.1 to 4\.1 %\), acceptable 5 %\. What nobody has measured could make it 1 to 9 %: within the acceptable 5 % in about 82 of 100 plausible cases\. \d+ of \d+ inputs are guesses\. Changed on the command line/,
    );
  });

  it('tells the flights that would settle it of the criterion that decides alone', async () => {
    const result = await full;
    const said = verdict({ ...result, overall: 'above', verdict: 'not shown', flightsToSettle: 1332 });
    expect(said).not.toContain('1332');
    expect(verdict({ ...result, overall: 'not shown', verdict: 'not shown', flightsToSettle: 1332 })).toContain('1332');
  });

  it('names the first three of what would help and of what to measure, and which of them may be chance', async () => {
    const text = summary(await full);
    expect(text).toMatch(/would help at 150 m.*\n +pilot\.reaction +at its better end +2\.0 \(0\.6 to 2\.5\)\n/);
    expect(text).toMatch(/rotors\.thrust_factor +at its better end +1\.0 \(-0\.4 to 1\.5\) +may be chance\n/);
    expect(text).toMatch(/measure first.*\n +pilot\.reaction +leaves a spread of 1\.2 of 2\.4\n.*may be chance\n/);
    expect(text).not.toContain('can.mass');
  });

  it('is no wall: at most 80 lines of 80 columns', async () => {
    const lines = assessSummary(await full, plain);
    expect(lines.length).toBeLessThanOrEqual(80);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('holds the verdict, the heights and the hazards alone where it is to be quiet', async () => {
    const text = quietLines(await full, plain).join('\n');
    expect(text).toMatch(
      /^◐ WITHIN[\s\S]*The planned 250 m[\s\S]*At the latest[\s\S]*after ejection, as a\s+check\n {2}! The scenario names no place[\s\S]*\n {2}! The motors may start[\s\S]*named\s+person's hand\.$/,
    );
    expect(text.split('\n').length).toBeLessThan(36);
  });

  it('says, where no height serves, the least risk and what would have to change', async () => {
    const text = summary(await searched(() => 20)).replace(/\s+/g, ' ');
    expect(text).toMatch(
      /^△ ABOVE.*No height serves.*The best height seen is .*20 % \(17 to 23 %\).*Change the design/,
    );
  });

  it('says, where none is shown, how many flights would settle it', async () => {
    const text = summary(await searched(() => 4)).replace(/\s+/g, ' ');
    expect(text).toMatch(/No height is shown to serve: one may.*flights at each height would settle it/);
  });

  it.each([
    ['picture', /when the picture looks like 250 m/],
    ['automatic', /throttles up by itself when its barometer reads 250 m/],
    ['timer', /the timer fires when the ordinary flight would pass 250 m/],
  ])('says the order for the cue "%s"', async (cue, order) => {
    const result = await found;
    const scenario = { ...result.scenario, settings: { ...result.scenario.settings, 'plan.cue': cue } };
    expect(summary({ ...result, scenario }).replace(/\s+/g, ' ')).toMatch(order);
  });
});

describe('the verdict', () => {
  const assured = (met: boolean) => ({ demanded: 0.9, worlds: { ...worlds, height: 250 }, met });

  it('says how many plausible worlds are within the limit where a share was demanded', async () => {
    const result = await fakeResult(3, 1000);
    expect(verdict({ ...result, assurance: assured(false) })).toMatch(
      /^◐ WITHIN the limits, NOT ASSURED: .* at least 90 % of plausible worlds .* about 82 of 100 \(74 to 91\): not met\./,
    );
    expect(verdict({ ...result, assurance: assured(true) })).toMatch(/^◐ WITHIN the limits: /);
  });

  it('says how a study stopped by itself, and that the verdict did not stop it', async () => {
    const stopping: StoppingNote = { asked: 0.005, reached: 0.00448, flights: 4000, reason: 'narrow enough' };
    const result = { ...(await fakeResult(3, 1000)), risk: proportion(120, 4000), flights: 4000 };
    expect(verdict({ ...result, stopping })).toMatch(
      /as narrow as .0\.5\d* in 100: after 4000 flights it is .0\.45 in 100\. .* Flying on until exit 0 is no evidence/,
    );
    expect(verdict({ ...result, stopping: { ...stopping, reason: 'most flights reached' } })).toContain(
      'the most that are flown',
    );
  });
});

describe('the mark of the headline', () => {
  const judged = (overall: AssessResult['overall'], shareHolding: number | null) => ({
    overall,
    doubt: { shareHolding, isFirm: shareHolding !== null && shareHolding >= 0.9 } as AssessResult['doubt'],
  });

  it('is full only where the verdict holds in nine of ten plausible cases', () => {
    expect(headlineSign(judged('within', 0.9))).toBe('●');
    expect(headlineSign(judged('within', 0.89))).toBe('◐');
    expect(headlineSign(judged('within', null))).toBe('◐');
    expect(headlineSign(judged('above', 0.95))).toBe('▲');
    expect(headlineSign(judged('above', 0.5))).toBe('△');
    expect(headlineMark(judged('within', 0.9))).toBe('verdict-within');
    expect(headlineMark(judged('within', null))).toBe('verdict-within-half');
    expect(headlineMark(judged('above', 0.5))).toBe('verdict-above-half');
  });

  it('has no colour that clears', async () => {
    const painted: string[] = [];
    const hear = (style: string, text: string) => {
      painted.push(style);
      return text;
    };
    verdictLines(await fakeResult(1, 1000), hear);
    expect(new Set(painted)).toEqual(new Set(['bold']));
  });
});
