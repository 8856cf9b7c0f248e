/** The report in a real browser, from the disk, as people open it. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderReport } from '../../report/assess/assess.js';
import { COMES_WITH_BROWSER, startBrowser } from '../../report/page/picture/browser.js';
import { renderTrace } from '../../report/trace/trace.js';
import { makeResult } from '../report/assess/fixture.js';
import { DECISIONS } from '../report/assess/fixture-decisions.js';
import { makeTrace } from '../report/trace/fixture-trace.js';
import {
  captionsInside,
  copied,
  countReachable,
  firstAndLastWords,
  focus,
  ground,
  heightsAndBreaks,
  openAll,
  rules,
  selected,
  shownPanels,
  sideways,
} from './in-page.js';
import { patientContext } from './patience.js';
import { pdfPages } from './pdf-text.js';

const RESULT = { ...makeResult({ flights: 2000 }), ...DECISIONS };
const HEIGHTS = RESULT.curve.map(({ height }) => String(height));
const DATE = '14 March, second rehearsal';
const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const started = await startBrowser();
if (started.status === 'none' && COMES_WITH_BROWSER)
  throw new Error(
    `No Chromium starts, so that the report cannot be looked at. Name one that does, CHROME=/path/to/chrome.\n${started.tried.join('\n')}`,
  );
if (started.status === 'none') process.stderr.write('No Chromium here: the report is not looked at in a browser.\n');

describe.skipIf(started.status === 'none')('The report in a browser', () => {
  const { browser } = started as { readonly browser: Browser };
  let folder = '';
  let address = '';
  let flightAddress = '';

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'report-'));
    const file = join(folder, 'report.html');
    await writeFile(file, await renderReport(RESULT, { date: DATE }));
    address = pathToFileURL(file).href;
    const flight = join(folder, 'flight.html');
    await writeFile(flight, await renderTrace(makeTrace('soft')));
    flightAddress = pathToFileURL(flight).href;
  });

  afterAll(async () => {
    await browser.close();
    await rm(folder, { recursive: true, force: true });
  });

  /** Opens the report, and closes it when the work is done. */
  async function withReport<T>(options: BrowserContextOptions, work: (page: Page) => Promise<T>): Promise<T> {
    const context = await patientContext(browser, { viewport: { width: 1200, height: 900 }, ...options });
    try {
      const page = await context.newPage();
      await page.goto(address);
      return await work(page);
    } finally {
      await context.close();
    }
  }

  const shownHeights = (page: Page) => page.$$eval('.panel', shownPanels);
  // biome-ignore lint/performance/useDomNodeTextContent: what can be seen, not what is there
  const seenText = (page: Page, selector: string) => page.innerText(selector);

  const broken = (violations: AxeResults['violations']) =>
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
  const rulesOf = async (page: Page): Promise<AxeResults> => {
    await page.evaluate(axe);
    return page.evaluate(rules);
  };

  test('opens from the disk, asks for nothing else and has nothing to complain of, whatever is touched', async () => {
    const context = await patientContext(browser);
    const page = await context.newPage();
    const [said, asked]: [string[], string[]] = [[], []];
    page.on('console', (message) => said.push(message.text()));
    page.on('pageerror', (error) => said.push(String(error)));
    page.on('request', (request) => asked.push(request.url()));
    await page.goto(address);
    for (const button of await page.$$('button')) if (await button.isVisible()) await button.click();
    for (const summary of await page.$$('summary')) if (await summary.isVisible()) await summary.click();
    await page.locator('#height-slider').press('ArrowLeft');
    await context.close();
    expect(asked).toEqual([address]);
    expect(said).toEqual([]);
  });

  test.each(['light', 'dark'] as const)('keeps every rule of axe, %s', async (colorScheme) => {
    const found = await withReport({ colorScheme }, async (page) => {
      await page.$$eval('details', openAll);
      return rulesOf(page);
    });
    expect(broken(found.violations)).toEqual([]);
    expect(found.passes.length).toBeGreaterThan(20);
  });

  test('fits a phone of 360 px without scrolling sideways, with every table opened', async () => {
    const wide = await withReport({ viewport: { width: 360, height: 800 } }, async (page) => {
      await page.$$eval('details', openAll);
      return page.$$eval('main section > *, header *, .slider *', sideways);
    });
    expect(wide).toEqual({ width: 360, beyond: [] });
  });

  test('is complete without JavaScript: every section, every chart, every number', async () => {
    const withScript = await withReport({}, (page) => seenText(page, 'main'));
    await withReport({ javaScriptEnabled: false }, async (page) => {
      expect(await page.locator('h2').count()).toBe(13);
      expect(await shownHeights(page)).toEqual(['250', '250']);
      expect(await page.locator('button:visible, input:visible, select:visible').count()).toBe(0);
      const text = await seenText(page, 'main');
      const numbers = (one: string) => one.match(/\d+(?:\.\d+)?/g) ?? [];
      const without = new Set(numbers(text));
      expect(numbers(withScript).filter((number) => !without.has(number))).toEqual([]);
      const summary = page.locator('summary').first();
      await summary.click();
      expect(await page.locator('details[open] table').first().isVisible()).toBe(true);
    });
  });

  test('moves verdict, icons and histogram over every height flown, by keyboard', async () => {
    await withReport({}, async (page) => {
      const slider = page.locator('#height-slider');
      const seen = new Map<string, string>();
      await slider.press('Home');
      for (const height of HEIGHTS) {
        expect(await shownHeights(page)).toEqual([height, height]);
        seen.set(await seenText(page, '#height-output'), String(await page.getAttribute('#height-symbol', 'href')));
        await slider.press('ArrowRight');
      }
      expect([...seen.keys()].map((text) => text.split('\u00a0')[0])).toEqual(HEIGHTS);
      expect(new Set(seen.values())).toEqual(new Set(['#verdict-above', '#verdict-not-shown', '#verdict-within']));
      expect(await slider.getAttribute('aria-valuetext')).toBe('400\u00a0m');
      await page.locator('#height-back').press('Enter');
      expect(await shownHeights(page)).toEqual(['250', '250']);
    });
  });

  test('keeps the same rules on the page of one flight', async () => {
    const { width, violations } = await withReport({ viewport: { width: 360, height: 800 } }, async (page) => {
      await page.goto(flightAddress);
      await page.$$eval('details', openAll);
      return { ...(await page.$$eval('main section > *', sideways)), ...(await rulesOf(page)) };
    });
    expect(width).toBe(360);
    expect(broken(violations)).toEqual([]);
  });

  test.each([
    ['copies a command', ['clipboard-read', 'clipboard-write'], 'Copied', copied],
    ['selects a command where the browser will not copy', [], 'Selected', selected],
  ] as const)('%s', async (_, permissions, word, taken) => {
    await withReport({ permissions: [...permissions] }, async (page) => {
      // The word goes after two seconds, which here pass when told: a slow machine would miss it.
      await page.clock.install();
      await page.goto(address);
      await page.clock.pauseAt(new Date(Date.now() + 60_000));
      const command = page.locator('.command').last();
      const button = command.locator('.copy');
      await button.press('Enter');
      await expect.poll(() => button.textContent()).toBe(word);
      const text = await command.locator('code').textContent();
      expect(text).toMatch(/^fallmargin assess /);
      expect(await page.evaluate(taken)).toBe(text);
      await page.clock.runFor(2000);
      expect(await button.textContent()).toBe('Copy');
    });
  });

  test('sorts the inputs by any column, and back', async () => {
    await withReport({}, async (page) => {
      const table = page.locator('table[data-sortable]');
      const column = (index: number) => table.locator(`tbody tr > :nth-child(${index + 1})`).allTextContents();
      const given = await column(0);
      const choice = page.locator('.sorting select');
      await choice.selectOption({ label: 'source' });
      const sources = await column(3);
      expect(sources).toEqual([...sources].sort((a, b) => a.localeCompare(b, 'en', { numeric: true })));
      expect(await table.locator('th[aria-sort="ascending"]').textContent()).toBe('Source');
      await choice.selectOption({ index: 0 });
      expect(await column(0)).toEqual(given);
    });
  });

  test('turns dark and light again by its button', async () => {
    await withReport({ colorScheme: 'light' }, async (page) => {
      const light = await page.evaluate(ground);
      const button = page.locator('#theme-button');
      await button.press('Enter');
      const dark = await page.evaluate(ground);
      expect(dark).not.toBe(light);
      expect(await button.textContent()).toBe('Light mode');
      await button.press('Enter');
      expect(await page.evaluate(ground)).toBe(light);
    });
  });

  test('reaches everything that can be used by the tab key, in view and marked', async () => {
    await withReport({}, async (page) => {
      const wanted = await page.$$eval('a[href], button, input, select, summary, [tabindex]', countReachable);
      const reached = new Set<number>();
      for (let step = 0; step < wanted + 2; step++) {
        await page.keyboard.press('Tab');
        const found = await page.evaluate(focus);
        if (found === null) break;
        expect(found.marked).toBe(true);
        reached.add(found.place);
      }
      expect(reached.size).toBe(wanted);
    });
  });

  describe.each([
    ['A4', 210, 297, true],
    ['Letter', 215.9, 279.4, false],
  ] as const)('printed on %s', (format, width, height, javaScriptEnabled) => {
    /** Margins of the page in the print style, mm. */
    const [sides, ends] = [28, 33];
    const pixels = (millimetres: number) => (millimetres * 96) / 25.4;

    test('cuts no figure and no short table: each may not be broken, and none is higher than a page', async () => {
      const size = { width: Math.floor(pixels(width - sides)), height: 900 };
      const found = await withReport({ viewport: size }, async (page) => {
        await page.emulateMedia({ media: 'print' });
        return page.$$eval('figure, table.short, .cautions', heightsAndBreaks);
      });
      expect(found.length).toBeGreaterThan(20);
      expect(found.filter(({ rule }) => rule !== 'avoid')).toEqual([]);
      expect(Math.max(...found.map((one) => one.height))).toBeLessThan(pixels(height - ends));
    });

    test('names scenario, seed, hash and date on every page, with every figure whole and every table opened, with JavaScript or without', async () => {
      const { pdf, figures, tables } = await withReport({ javaScriptEnabled }, async (page) => ({
        figures: await page.$$eval('figure', firstAndLastWords),
        tables: await page.$$eval('details', captionsInside),
        pdf: await page.pdf({ format }),
      }));
      const pages = pdfPages(pdf);
      const solid = (text: string) => text.normalize('NFKC').replace(/\s+/g, '');
      expect(pages.length).toBeGreaterThan(8);
      for (const [index, text] of pages.entries()) {
        expect(text).toContain('Burdock');
        expect(text).toContain(solid(`${DATE} - seed 1 - scenario 5f0c7a7be1a2`));
        expect(text).toContain(solid('An estimate. It does not clear a flight.'));
        expect(text).toContain(solid(`${index + 1} of ${pages.length}`));
      }
      const whole = ({ caption, last }: (typeof figures)[number]) =>
        pages.some((text) => text.includes(solid(caption)) && text.includes(solid(last)));
      expect(figures.filter((figure) => !whole(figure))).toEqual([]);
      expect(tables.filter((caption) => !pages.some((text) => text.includes(solid(caption))))).toEqual([]);
    });
  });
});
