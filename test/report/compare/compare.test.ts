import { beforeAll, describe, expect, test } from 'vitest';
import { compareView, renderComparison } from '../../../report/compare/compare.js';
import type { CompareResult } from '../../../sim/compare/result.js';
import { answered } from '../../answers.js';
import { compareSynthetic, fallingRisk } from '../../compare/designs.js';
import { collector, complaintsAbout, htmlComplaints } from '../checks.js';

const A = { risk: fallingRisk(150, 0.03), cause: () => 'reaction' as const };
const B = { risk: fallingRisk(110, 0.02), cause: () => 'lapse' as const };

const CASES: Readonly<Record<string, CompareResult>> = {
  'a safer B': answered(await compareSynthetic(A, B)),
  'a safer A at other heights': answered(
    await compareSynthetic(B, { ...A, overrides: ['plan.throttle_up_height=200 m'] }, { flights: 3000 }),
  ),
  'a design and itself': answered(await compareSynthetic(A, A, { flights: 500, aims: false })),
  'what is not settled, with names that hold markup': answered(
    await compareSynthetic(
      { risk: () => 0.05, overrides: ['title=<b>A & "B"</b>', 'about=</style><script>alert(1)</script>'] },
      { risk: () => 0.065, overrides: ['can.length=211 mm'] },
      { flights: 300, aims: false },
    ),
  ),
  'flights that never fail': answered(
    await compareSynthetic({ risk: () => 0 }, { risk: () => 0 }, { flights: 200, aims: false }),
  ),
};
const names = Object.keys(CASES);
const pages: Record<string, string> = {};
const { drawn, collect } = collector();

beforeAll(async () => {
  for (const name of names) {
    pages[name] = await renderComparison(CASES[name]);
    await compareView(CASES[name], collect);
  }
});

function textOf(html: string): string {
  return html
    .replace(/<(style|script)>[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/&#x27;/g, "'")
    .replace(/[\s\u00a0\u202f]+/g, ' ');
}

describe.each(names)('The page of %s', (name) => {
  test('is valid HTML', async () => {
    expect(await htmlComplaints(pages[name])).toEqual([]);
  });

  test('uses every id once, and every link and symbol finds its target', () => {
    const ids = [...pages[name].matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(ids).toEqual([...new Set(ids)]);
    const targets = [...pages[name].matchAll(/ (?:href|aria-labelledby)="#?([^"]*)"/g)].map((match) => match[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test('shows no number that is none, and refers to nothing outside itself', () => {
    expect(textOf(pages[name])).not.toMatch(/\bNaN\b|undefined|\bnull\b|Infinity|\[object/);
    expect(pages[name]).not.toMatch(/ (?:src|srcset|data)="|url\(|="[^"]*(?:NaN|undefined)/);
  });

  test('says who decides, and how to do it again', () => {
    expect(textOf(pages[name])).toMatch(/does not clear a flight.*range safety officer/);
    expect(textOf(pages[name])).toMatch(/fallmargin compare \S+\.yaml \S+\.yaml --flights \d+ --seed 1/);
  });
});

describe('The charts of a comparison', () => {
  test("compile without a warning, keep to vega-lite's schema and hold finite numbers only", () => {
    expect(drawn.length).toBeGreaterThan(20);
    expect(complaintsAbout(drawn)).toEqual([]);
  });
});

describe('The words of a comparison', () => {
  const text = (name: string) => textOf(pages[name]);

  test('give the verdict in one sentence with its interval', () => {
    expect(text('a safer B')).toMatch(
      /B is safer than A: it saves about 1\.\d+ \(\d\.\d+ to \d\.\d+\) flights in 100\./,
    );
    expect(text('a safer A at other heights')).toMatch(/A is safer than B: B loses about [\d.]+ \(/);
    expect(text('a design and itself')).toContain('There is no difference: all 500 pairs of flights ended alike.');
    expect(text('what is not settled, with names that hold markup')).toMatch(/not settled.*About [\d ]+ pairs would/);
  });

  test('list what differs as written, old and new', () => {
    expect(text('a safer A at other heights')).toMatch(/plan\.throttle_up_height 250 m 200 m/);
    expect(text('a design and itself')).toContain('The two scenarios say the same');
  });

  test('name what B saves by cause, and why a comparison is missing', () => {
    expect(text('a safer B')).toMatch(/B saves \d+, all from “reaction”, and B loses none/);
    expect(text('a safer B')).toContain("At A's planned height: Both plan the same height");
    expect(text('a safer A at other heights')).toMatch(/At A's planned height .*both at 250 m/);
  });

  test('keep markup in names as text', () => {
    const page = pages['what is not settled, with names that hold markup'];
    expect(page).toContain('&lt;b&gt;A &amp; &quot;B&quot;&lt;/b&gt;');
    expect(page).not.toContain('<script>alert');
  });
});
