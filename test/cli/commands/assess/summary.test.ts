import { describe, expect, it } from 'vitest';
import { assessSummary, quietLines, verdictLines } from '../../../../cli/commands/assess/summary.js';
import { assess } from '../../../../sim/assess/assess.js';
import type { HelpRow, MeasureRow, StoppingNote, WorldsResult } from '../../../../sim/assess/decisions.js';
import type { AssessResult } from '../../../../sim/assess/result.js';
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
    [3, /^WITHIN the limits: throttling up at the planned 250 m/],
    [20, /^ABOVE the limits/],
    [6, /^NOT SHOWN[\s\S]*would settle it/],
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
    expect(text).toMatch(/Given up early: more than 55 % at 60 m/);
    expect(text).toMatch(/! The numbers are invented[\s\S]*Write your own/);
  });

  it('calls no height recommended where none was looked for', async () => {
    expect(summary(await fakeResult(3, 500))).not.toMatch(/ecommended/);
  });

  it('says when it is partial', async () => {
    expect(verdict({ ...(await fakeResult(3)), partial: true })).toContain(
      'Interrupted: a partial result, of 200 flights',
    );
  });

  it('names the criterion that decides where it is not the ground impact', async () => {
    const result = await fakeResult(1, 1000, 'criteria.recovery_circle.radius=1 m');
    expect(verdict(result)).toMatch(/^ABOVE.*What decides is "outside the recovery circle"/);
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
  const scenario = burdock(...overrides);
  const options = { seed: '1', flights: 1000, heights: { kind: 'standard' }, overrides } as const;
  const study = await assess(scenario, options, meansOf(scenario, fakeMaker(failuresAt).maker));
  return answered(study);
}

describe('the summary of an assessment that looked for a height', () => {
  const recommended = searched((height) => (height < 150 ? 40 : height > 450 ? 20 : 3));
  const help = (path: string, savedInHundred: number, lower: number) =>
    ({ path, heldAt: 'better end', savedInHundred, lower, upper: savedInHundred + 0.5 }) as HelpRow;
  const measure = (path: string, sdAfter: number, shown: boolean) => ({ path, sd: 0.01, sdAfter, shown }) as MeasureRow;
  const full = recommended.then((result): AssessResult => {
    const rows = ['pilot.reaction', 'can.drag_factor', 'rotors.thrust_factor', 'can.mass'];
    return {
      ...result,
      worlds,
      help: { height: 150, flights: 1000, failed: 30, rows: rows.map((path, i) => help(path, 2 - i / 2, 0.6 - i / 2)) },
      measureFirst: rows.map((path, i) => measure(path, 0.012 + i / 500, i === 0)),
    };
  });

  it('says the height, what it rests on, what to do and when, and how far up the limits are kept', async () => {
    const text = summary(await recommended);
    expect(text).toMatch(/^WITHIN[\s\S]*\nRecommended throttle-up height: 150 m; planned is 250 m\.\n/);
    expect(text).toMatch(
      /Risk +3\.0 % \(2\.1 to 4\.1 %\) on 1000 fresh flights: the lowest height shown\s+to be within every limit/,
    );
    expect(text).toMatch(/Order +full throttle when the height read aloud comes to 150 m/);
    expect(text).toMatch(/Seconds +\d+\.\d+ s \(9 flights of 10: \S+ to \S+ s\) after ejection, as a check/);
    expect(text).toMatch(/Window +every limit is kept from 150 m to 400 m; at 500 m one is broken/);
  });

  it('sets what sampling leaves open beside what nobody has measured', async () => {
    const text = summary(await full).replace(/\s+/g, ' ');
    expect(text).toMatch(/3\.0 % \(2\.1 to 4\.1 % from sampling\); what nobody has measured could make it 1 to 9 %\./);
    expect(text).toMatch(/In about 82 of 100 plausible worlds \(74 to 91\)/);
  });

  it('names the first three of what would help and of what to measure, and which of them may be chance', async () => {
    const text = summary(await full);
    expect(text).toMatch(/would help at 150 m.*\n +pilot\.reaction +at its better end +2\.0 \(0\.6 to 2\.5\)\n/);
    expect(text).toMatch(/rotors\.thrust_factor +at its better end +1\.0 \(-0\.4 to 1\.5\) +may be chance\n/);
    expect(text).toMatch(/measure first.*\n +pilot\.reaction +leaves a spread of 1\.2 of 2\.4\n.*may be chance\n/);
    expect(text).not.toContain('can.mass');
  });

  it('is no wall: at most 60 lines of 80 columns', async () => {
    const lines = assessSummary(await full, plain);
    expect(lines.length).toBeLessThanOrEqual(60);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('holds the verdict, the height and the hazards alone where it is to be quiet', async () => {
    const text = quietLines(await full, plain).join('\n');
    expect(text).toMatch(
      /^WITHIN[\s\S]*Recommended throttle-up height: 150 m[\s\S]*Seconds .*\n {2}! The motors may start[\s\S]*named\s+person's hand\.$/,
    );
    expect(text.split('\n').length).toBeLessThan(14);
  });

  it('says, where no height serves, the least risk and what would have to change', async () => {
    const text = summary(await searched(() => 20)).replace(/\s+/g, ' ');
    expect(text).toMatch(/^ABOVE.*No height serves.*The best height seen is .*20 % \(17 to 23 %\).*Change the design/);
  });

  it('says, where none is shown, how many flights would settle it', async () => {
    const text = summary(await searched(() => 4)).replace(/\s+/g, ' ');
    expect(text).toMatch(/No height is recommended: one may serve.*flights at each height would settle it/);
  });

  it.each([
    ['picture', /when the picture looks like 150 m/],
    ['automatic', /throttles up by itself when its barometer reads 150 m/],
    ['timer', /the timer fires when the ordinary flight would pass 150 m/],
  ])('says the order for the cue "%s"', async (cue, order) => {
    const result = await recommended;
    const scenario = { ...result.scenario, settings: { ...result.scenario.settings, 'plan.cue': cue } };
    expect(summary({ ...result, scenario })).toMatch(order);
  });
});

describe('the verdict', () => {
  const assured = (met: boolean) => ({ demanded: 0.9, worlds: { ...worlds, height: 250 }, met });

  it('says how many plausible worlds are within the limit where a share was demanded', async () => {
    const result = await fakeResult(3, 1000);
    expect(verdict({ ...result, assurance: assured(false) })).toMatch(
      /^WITHIN the limits, NOT ASSURED: .* at least 90 % of plausible worlds .* about 82 of 100 \(74 to 91\): not met\./,
    );
    expect(verdict({ ...result, assurance: assured(true) })).toMatch(/^WITHIN the limits: /);
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
