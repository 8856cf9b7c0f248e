import { describe, expect, test } from 'vitest';
import { renderLimits } from '../../../report/limits/limits.js';
import { criteriaOf } from '../../../sim/decision/criteria.js';
import { findLimits } from '../../../sim/limits/limits.js';
import type { LimitsResult } from '../../../sim/limits/result.js';
import { fixedValue } from '../../../sim/scenario/lookup.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { answered } from '../../answers.js';
import { plainBurdock } from '../../compare/designs.js';
import { createSyntheticFlyer } from '../../decision/synthetic-flyer.js';
import { htmlComplaints } from '../checks.js';

async function cardOf(rows: string, columns: string, floor = 0.01, ...overrides: readonly string[]) {
  const flyerFor = (scenario: Scenario) => {
    const flank = 100 + 8 * (fixedValue(scenario, 'wind.speed') ?? 0);
    return createSyntheticFlyer({
      seed: '1',
      risk: (height) => Math.min(1, floor + 0.5 * Math.exp(-(height - flank) / 15)),
    });
  };
  const options = { seed: '1', flights: 500, rows, columns, heights: { kind: 'standard' }, overrides } as const;
  const scenario = plainBurdock(...overrides);
  return answered(await findLimits(scenario, options, { flyerFor, criteria: criteriaOf(scenario) }));
}

const LONG = `title=${'A very long name of a payload '.repeat(8)}`;
const CASES: Readonly<Record<string, LimitsResult>> = {
  'an ordinary day': await cardOf('wind.speed', 'pad.wait'),
  'wind across and over the ceiling': await cardOf('pad.wait=10 min,20 min', 'wind.speed=4 m/s,8 m/s,12 m/s'),
  'no height at all': await cardOf('wind.speed', 'pad.wait', 0.2),
  'the largest table, a long name and many changes': await cardOf(
    `wind.speed=${[1, 2, 3, 4, 5, 6, 7, 8].map((one) => `${one} m/s`)}`,
    `video.thermal_resistance=${[11, 12, 13, 14, 15, 16, 17, 18].map((one) => `${one} K/W`)}`,
    0.01,
    LONG,
    'can.length=211 mm',
    'can.diameter=81 mm',
    'site.elevation=1181 m',
    'pilot.lapse=2 %',
  ),
  'an input without an order': await cardOf('wind.from=0 deg,90 deg', 'pad.wait=10 min'),
};
const pages = Object.fromEntries(
  await Promise.all(Object.entries(CASES).map(async ([name, result]) => [name, await renderLimits(result)])),
);

function textOf(html: string): string {
  return html
    .replace(/<style>[\s\S]*?<\/style>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/[\s\u00a0\u202f\u2009]+/g, ' ');
}

describe.each(Object.keys(CASES))('The card of %s', (name) => {
  const page = pages[name];

  test('is valid HTML without a script and without anything from outside', async () => {
    expect(await htmlComplaints(page)).toEqual([]);
    expect(page).not.toMatch(/<script| (?:src|href|srcset)="|url\(/);
  });

  test('carries the hash, the seed, a field for the date, the cautions and who decides', () => {
    const text = textOf(page);
    expect(text).toContain(CASES[name].scenario.hash.slice(0, 12));
    expect(text).toMatch(/Seed 1 /);
    expect(text).toMatch(/Date .*Seen by the range safety officer, who decides/);
    expect(text).not.toMatch(/\bGo\b|no-go/);
    expect(text).toMatch(/does not clear a flight\. The range safety officer, the launch site\u2019s rules/);
    expect(text).toContain('invented data');
  });

  test('shows every cell, and no number that is none', () => {
    const cells = [...page.matchAll(/<td class="(open|closed)/g)];
    expect(cells).toHaveLength(CASES[name].cells.length);
    expect(cells.filter(([, kind]) => kind === 'open')).toHaveLength(
      CASES[name].cells.filter(({ status }) => status === 'height shown').length,
    );
    expect(textOf(page)).not.toMatch(/\bNaN\b|undefined|\bnull\b|Infinity|\[object/);
  });

  test('crosses closed cells out in lines, so that black and white tells them apart', () => {
    const closed = page.match(/<td class="closed/g)?.length ?? 0;
    expect(page.match(/<svg class="cross"/g)?.length ?? 0).toBe(closed);
    const style = /<style>([\s\S]*?)<\/style>/.exec(page)?.[1] ?? '';
    expect([...style.matchAll(/#[0-9a-f]{3,6}\b/g)].map(([colour]) => colour)).not.toContainEqual(
      expect.stringMatching(/^#(?!000$|fff$|e4e4e0$)/),
    );
  });
});

describe('The words of a card', () => {
  const text = (name: string) => textOf(pages[name]);

  test("mark the launch code's ceiling with a line, as written in the scenario", () => {
    expect(text('an ordinary day')).toContain('Launch code: no launch in more wind than 8.94 m/s (20 mph)');
    expect(pages['an ordinary day']).toContain('<tr class="ceiling">');
    expect(text('wind across and over the ceiling')).toMatch(/Thick line: Launch code.*no launch/);
    expect(pages['wind across and over the ceiling'].match(/ edge"/g)).toHaveLength(2);
    expect(pages['an input without an order']).not.toContain('Launch code');
  });

  test('say that each cell stands by itself, how far it may be off, and why heights rise or do not', () => {
    expect(text('an ordinary day')).toMatch(/Each cell stands by itself\..*95 of 100 cells.*about 2 may be/);
    expect(text('an ordinary day')).toMatch(/steps of 10 m from 60 m to 500 m/);
    expect(text('an ordinary day')).toMatch(/worse value of wind\.speed and pad\.wait makes no landing easier/);
    expect(text('an input without an order')).toMatch(/Which values of wind\.from are the harder ones is not known/);
    expect(text('an input without an order')).toContain('take the greater of their heights');
  });

  test('give the reason in a closed cell', () => {
    expect(text('no height at all')).toMatch(/do not fly impact \d+ %/);
    expect(text('no height at all')).toContain('as in the easier cell');
  });

  test('star a cell that passed over heights', async () => {
    const result = CASES['an ordinary day'];
    const [first, ...rest] = result.cells;
    const starred = await renderLimits({ ...result, cells: [{ ...first, untried: 3 }, ...rest] });
    expect(textOf(starred)).toMatch(/\d+ m \* risk/);
    expect(textOf(starred)).toMatch(/cell with \* passed over up to 3 heights.*\(30 m\) too high/);
  });

  test('shorten what would push the table off the sheet', () => {
    expect(text('the largest table, a long name and many changes')).toMatch(/A very long.{40,60}…/);
    expect(text('the largest table, a long name and many changes')).toMatch(
      /Changed on the command line: .*\(the scenario says Burdock\); and 4 more\./,
    );
  });
});
