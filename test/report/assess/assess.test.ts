import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { renderReport } from '../../../report/assess/assess.js';
import { htmlComplaints } from '../checks.js';
import { makeResult } from './fixture.js';
import { DECISIONS } from './fixture-decisions.js';

/** What a reader sees: the page without styles, scripts and tags. */
function textOf(html: string): string {
  return html
    .replace(/<(style|script)>[\s\S]*?<\/\1>/g, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');
}

/** Heights of the pages that are not about many: each height draws charts of its own. */
const FEW = [120, 200, 250, 320];

const CASES = {
  'an ordinary result': makeResult({ flights: 2000, heights: FEW }),
  'a result with everything decided': { ...makeResult({ flights: 2000 }), ...DECISIONS },
  'a result without a single failure': makeResult({ flights: 1500, rare: true, heights: FEW }),
  'an interrupted result of one height and few flights': {
    ...makeResult({ flights: 60, heights: [250] }),
    partial: true,
  },
};
type Case = keyof typeof CASES;
const names = Object.keys(CASES) as Case[];
const pages = {} as Record<Case, string>;

beforeAll(async () => {
  for (const name of names) pages[name] = await renderReport(CASES[name]);
});

describe.each(names)('The page of %s', (name) => {
  test('is valid HTML', async () => {
    expect(await htmlComplaints(pages[name])).toEqual([]);
  });

  test('uses every id once and every link and every symbol finds its target', () => {
    const ids = [...pages[name].matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(ids).toEqual([...new Set(ids)]);
    const targets = [...pages[name].matchAll(/ href="#([^"]*)"/g)].map((match) => match[1]);
    expect(targets.filter((target) => !ids.includes(target))).toEqual([]);
    const named = [...pages[name].matchAll(/ aria-labelledby="([^"]*)"/g)].map((match) => match[1]);
    expect(named.filter((target) => !ids.includes(target))).toEqual([]);
  });

  test('allows its own style and script by their hashes, and nothing else', () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(pages[name])?.[1] ?? '';
    const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
    const style = /<style>([\s\S]*?)<\/style>/.exec(pages[name])?.[1] ?? '';
    const script = /<script>([\s\S]*?)<\/script>/.exec(pages[name])?.[1] ?? '';
    expect(policy.split('; ')).toEqual([
      "default-src 'none'",
      `style-src ${hash(style)}`,
      `script-src ${hash(script)}`,
      "base-uri 'none'",
      "form-action 'none'",
    ]);
    expect(pages[name].match(/<style|<script/g)).toHaveLength(2);
    expect(pages[name]).not.toMatch(/ style="| on[a-z]+="/);
  });

  test('refers to nothing outside itself', () => {
    expect(pages[name]).not.toMatch(/ (?:src|srcset|action|data)="/);
    expect(pages[name]).not.toMatch(/@import|@font-face|url\(/);
    const links = [...pages[name].matchAll(/ href="([^"]*)"/g)].map((match) => match[1]);
    expect(links.filter((link) => !link.startsWith('#'))).toEqual([]);
  });

  test('shows no number that is none and no hole', () => {
    expect(textOf(pages[name])).not.toMatch(/\bNaN\b|undefined|\bnull\b|Infinity|\[object/);
    expect(pages[name]).not.toMatch(/="[^"]*(?:NaN|undefined|Infinity)/);
  });

  test('has one main heading and skips no level of heading', () => {
    const levels = [...pages[name].matchAll(/<h([1-6])/g)].map((match) => Number(match[1]));
    expect(levels.filter((level) => level === 1)).toHaveLength(1);
    const steps = levels.slice(1).map((level, index) => level - levels[index]);
    expect(Math.max(...steps)).toBeLessThanOrEqual(1);
  });

  test('gives every picture words, and every chart its numbers in a table', () => {
    const pictures = pages[name].match(/<svg(?![^>]*aria-hidden="true")[^>]*>/g) ?? [];
    expect(pictures.length).toBeGreaterThan(10);
    for (const picture of pictures) expect(picture).toMatch(/role="img" aria-label="[^"]{20,}"|aria-label="[^"]{20,}"/);
    const figures = pages[name].match(/<figure/g) ?? [];
    const captions = pages[name].match(/<figcaption>[^<]{20,}</g) ?? [];
    expect(captions).toHaveLength(figures.length);
    for (const table of pages[name].match(/<table[\s\S]*?<\/table>/g) ?? []) {
      expect(table).toMatch(/<caption><span>[^<]{10,}[.;]<\/span><\/caption>/);
      expect(table).toMatch(/<th scope="col"/);
    }
  });

  test('stays well under 1.5 MB', () => {
    expect(pages[name].length).toBeLessThan(1_000_000);
  });

  test('carries the cautions and says that the data are invented', () => {
    const text = textOf(pages[name]);
    expect(text).toContain('it does not clear a flight');
    expect(text).toContain('The range safety officer');
    expect(text).toContain('Invented data.');
  });
});

describe('The report', () => {
  test('is a pure function of the result: the same bytes twice, also side by side', async () => {
    const result = makeResult({ flights: 300, heights: [200, 250] });
    const [one, two] = await Promise.all([renderReport(result), renderReport(result)]);
    expect(one).toBe(two);
  });

  test('has its sections in order, and closes up where a result cannot fill one', () => {
    const titles = (html: string) =>
      [...html.matchAll(/<h2 id="[^"]*"><span class="number">(\d+)<\/span> ([^<]*)</g)].map((m) => `${m[1]} ${m[2]}`);
    expect(titles(pages['a result with everything decided'])).toEqual([
      '1 The verdict',
      '2 Risk against throttle-up height',
      '3 Out of 100 flights',
      '4 How fast it touches down',
      '5 What nobody has measured',
      '6 What goes wrong',
      '7 What would help, what to measure first',
      '8 Height and speed over time',
      '9 Where it comes down',
      '10 Battery and time margins',
      '11 Every input',
      '12 Method, limits, cautions',
      '13 Glossary',
    ]);
    expect(titles(pages['an ordinary result'])).toHaveLength(11);
  });

  test('marks a partial result at the top, before the verdict', () => {
    const text = textOf(pages['an interrupted result of one height and few flights']);
    expect(text.indexOf('Partial result.')).toBeGreaterThan(0);
    expect(text.indexOf('Partial result.')).toBeLessThan(text.indexOf('The verdict'));
    expect(textOf(pages['an ordinary result'])).not.toContain('Partial result.');
  });

  test('names three heights where the study found them, and recommends none', () => {
    for (const page of Object.values(pages)) expect(textOf(page)).not.toMatch(/recommend/i);
    expect(textOf(pages['an ordinary result'])).not.toMatch(/At the latest|Not before/);
    expect(textOf(pages['a result with everything decided'])).toMatch(
      /Aim 280 m.*At the latest 220 m.*Not before 320 m/,
    );
  });

  test('keeps markup in names as text, in the page, in its styles and in its command', async () => {
    const title = '</style><script>alert("1")</script> & <b>';
    const base = makeResult({ flights: 100, heights: [250] });
    const html = await renderReport({
      ...base,
      seed: `"><img src=x onerror='alert(2)'>`,
      overrides: ['title=<script>alert(3)</script>'],
      scenario: {
        ...base.scenario,
        title,
        about: '<iframe src="https://example.org">',
        settings: {
          ...base.scenario.settings,
          'site.keep_out': [{ name: '<svg onload=alert(4)>', east: 1, north: 2, radius: 3 }],
        },
      },
      warnings: [{ code: 'x', text: '<script>alert(5)</script>', advice: '{{title}}' }],
    });
    expect(html.match(/<script/g)).toHaveLength(1);
    expect(html.match(/<\/style>/g)).toHaveLength(1);
    expect(html).not.toMatch(/<(?:img|iframe|b)\b/);
    expect(html).not.toMatch(/<svg onload/);
    expect(html).toContain('&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;');
    expect(html).toContain('fallmargin assess burdock.yaml');
    // The validator counts the entities of a title as they are written, a browser does not.
    expect((await htmlComplaints(html)).filter((complaint) => !complaint.includes('long-title'))).toEqual([]);
  });

  test('names scenario, seed and hash in the margins of every printed page', () => {
    expect(pages['an ordinary result']).toMatch(/@page\{@top-left\{[^}]*content:"Burdock"\}@top-right\{[^}]*seed 1/);
    expect(pages['an ordinary result']).toContain('5f0c7a7be1a2');
  });

  test('says when it was made only where the user gives it, at the top and on every printed page', async () => {
    const result = makeResult({ flights: 60, heights: [250] });
    expect(await renderReport(result)).toContain('<p class="origin">Seed 1');
    const html = await renderReport({ ...result, date: '14 March <b>' });
    expect(html).toContain('<p class="origin">14 March &lt;b&gt; · Seed 1');
    expect(html).toMatch(/@top-right\{[^}]*content:"14 March /);
    expect(await renderReport({ ...result, date: 'one' }, { date: 'other' })).toContain('>other · Seed 1');
  });

  test('without JavaScript shows the planned height and hides only what needs a script', () => {
    const page = pages['an ordinary result'];
    const shown = [...page.matchAll(/<div class="panel" data-height="(\d+)">/g)].map((match) => match[1]);
    expect(shown).toEqual(['250', '250']);
    const hidden = [...page.matchAll(/<[^>]* hidden>/g)].map((match) => match[0]);
    for (const tag of hidden) expect(tag).toMatch(/class="(?:panel|slider|quiet-button)/);
  });
});
