/** The pages about bench data and flight logs in a real browser, from the disk, as people open them. */
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { renderFit } from '../../report/fit/fit.js';
import { renderLearn } from '../../report/learn/learn.js';
import { COMES_WITH_BROWSER, startBrowser } from '../../report/page/picture/browser.js';
import { renderReconstruct } from '../../report/reconstruct/reconstruct.js';
import type { Answer } from '../../sim/basics/answer.js';
import { presentVersions } from '../../sim/basics/versions.js';
import { fitColumn, fitTrials } from '../../sim/fit/fit.js';
import { fitThrustStand } from '../../sim/fit/thrust-stand.js';
import type { LearnedInput, LearnResult } from '../../sim/learn/result.js';
import { NOTHING_KNOWN } from '../../sim/reconstruct/known.js';
import { readLog } from '../../sim/reconstruct/read-log.js';
import { reconstruct } from '../../sim/reconstruct/reconstruct.js';
import { ground, openAll, rules, sideways, widerThanPaper } from './in-page.js';
import { patientContext } from './patience.js';

function made<T>(one: Answer<T>): T {
  if (one.status === 'refused') throw new Error(one.messages.join('\n'));
  return one.value;
}

function inputLearnt(name: string, unit: string, scale: number, narrowed: number): LearnedInput {
  const around = (width: number) => [1 - width, 1, 1 + width].map((one) => scale * one) as [number, number, number];
  return { name, path: name, unit, before: around(0.5), after: around(0.5 * narrowed), narrowed };
}

/** Invented, in the shape of a study of 150 worlds. */
const LEARNT: LearnResult = {
  kind: 'learn',
  versions: presentVersions(),
  scenario: { title: 'Burdock', hash: '5f0c7a7be1a2', invented: true, changed: [] },
  flownIn: { title: 'Burdock in spring', hash: '1a2b3c4d5e6f' },
  seed: '1',
  worlds: 150,
  waves: [100, 50],
  partial: false,
  flightsEach: 6,
  plannedHeight: 250,
  logs: [
    {
      file: 'a-flight-log-with-quite-a-long-name.csv',
      observed: [{ name: 'speed_at_throttle_up', value: 28, error: 0.4, expected: 27, spread: 1.2 }],
    },
  ],
  effectiveWorlds: 36,
  inputs: [
    inputLearnt('can.drag_factor', '', 1, 0.4),
    inputLearnt('pilot.picture.judgement.median', 's', 0.9, 0.9),
    inputLearnt('rotors.zero_thrust_speed', 'm/s', 37, 1),
  ],
  riskBefore: { estimate: 0.07, lower: 0.044, upper: 0.097, between: 0.18 },
  riskAfter: { estimate: 0.046, lower: 0.031, upper: 0.059, between: null },
  fragment: `extends: burdock.yaml\ncan:\n  drag_factor:\n    note: "learnt from ${'a very long name '.repeat(8)}"\n`,
  correlations: [],
  warnings: [{ code: 'few worlds', text: 'Few worlds are left.', advice: 'Fly more of them.' }],
};

const few = 'reaction_s\n1.1\n1.1\n0.9\n1.3\n';
const stand =
  '# invented\nthrottle,thrust,current,voltage\n0,0,0,16.6\n50,110,2.4,16.3\n100,300,7.4,15.9\n100,280,7,15.1\n100,262,6.6,14.6\n';
const standard = { column: 'reaction_s', unit: 's', family: 'auto', path: 'pilot.reaction' } as const;
const log = readFileSync('configs/burdock-flight-log.csv', 'utf8');

const PAGES: Readonly<Record<string, () => Promise<string>>> = {
  'of a few values': () => renderFit(made(fitColumn(few, 'bench.csv', { ...standard, family: 'triangular' })).result),
  'of a chance': () => renderFit(made(fitTrials(40, 0, null)).result),
  'of a thrust stand': () => renderFit(made(fitThrustStand(stand, 'stand.csv', { rotors: 1, density: null })).result),
  'of a flight log': () => {
    const read = made(readLog(log, 'a-flight-log.csv', { time: null, reading: null, height: null }));
    return renderReconstruct(made(reconstruct(read, NOTHING_KNOWN, null)));
  },
  'of what flights taught': () => renderLearn(LEARNT),
};
const NAMES = Object.keys(PAGES);

const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const started = await startBrowser();
if (started.status === 'none' && COMES_WITH_BROWSER)
  throw new Error(`No Chromium starts. Name one that does, CHROME=/path/to/chrome.\n${started.tried.join('\n')}`);
if (started.status === 'none') process.stderr.write('No Chromium here: these pages are not looked at in a browser.\n');

describe.skipIf(started.status === 'none')('A page', () => {
  const { browser } = started as { readonly browser: Browser };
  let folder = '';
  const addresses = new Map<string, string>();

  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'evidence-'));
    for (const [index, name] of NAMES.entries()) {
      const file = join(folder, `${index}.html`);
      await writeFile(file, await PAGES[name]());
      addresses.set(name, pathToFileURL(file).href);
    }
  });

  afterAll(async () => {
    await browser.close();
    await rm(folder, { recursive: true, force: true });
  });

  async function withPage<T>(name: string, options: BrowserContextOptions, work: (page: Page) => Promise<T>) {
    const context = await patientContext(browser, { viewport: { width: 1200, height: 900 }, ...options });
    try {
      const page = await context.newPage();
      const [said, asked]: [string[], string[]] = [[], []];
      page.on('console', (message) => said.push(message.text()));
      page.on('pageerror', (error) => said.push(String(error)));
      page.on('request', (request) => asked.push(request.url()));
      await page.goto(addresses.get(name) ?? '');
      const result = await work(page);
      return { result, said, asked };
    } finally {
      await context.close();
    }
  }

  test.each(NAMES)('%s asks for nothing else and has nothing to complain of, whatever is touched', async (name) => {
    const { result, said, asked } = await withPage(name, {}, async (page) => {
      for (const summary of await page.$$('summary')) await summary.click();
      const button = page.locator('#theme-button');
      await button.click();
      return button.textContent();
    });
    expect(result).toBe('Light mode');
    expect(asked).toEqual([addresses.get(name)]);
    expect(said).toEqual([]);
  });

  test.each(NAMES)('%s keeps every rule of axe, light and dark', async (name) => {
    const { result } = await withPage(name, { colorScheme: 'light' }, async (page) => {
      await page.$$eval('details', openAll);
      await page.evaluate(axe);
      const [light, lightRules] = [await page.evaluate(ground), await page.evaluate(rules)];
      await page.emulateMedia({ colorScheme: 'dark' });
      return { grounds: new Set([light, await page.evaluate(ground)]), both: [lightRules, await page.evaluate(rules)] };
    });
    expect(result.grounds.size).toBe(2);
    for (const one of result.both) {
      expect(broken(one.violations)).toEqual([]);
      expect(one.passes.length).toBeGreaterThan(18);
    }
  });

  test.each(NAMES)('%s fits a phone of 360 px without scrolling sideways, every table opened', async (name) => {
    const { result } = await withPage(name, { viewport: { width: 360, height: 800 } }, async (page) => {
      await page.$$eval('details', openAll);
      return page.$$eval('main section > *, header *', sideways);
    });
    expect(result).toEqual({ width: 360, beyond: [] });
  });

  test.each(NAMES)('%s loses nothing at the edge of the paper', async (name) => {
    // A4 less the margins of the page in the print style: 210 - 28 mm at 96 dots an inch.
    const viewport = { width: Math.floor((182 * 96) / 25.4), height: 900 };
    const { result } = await withPage(name, { viewport }, async (page) => {
      await page.emulateMedia({ media: 'print' });
      return page.$$eval('.fragment, .table-box, .chart, p, figcaption', widerThanPaper);
    });
    expect(result).toEqual([]);
  });
});

function broken(violations: AxeResults['violations']): readonly string[] {
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}
