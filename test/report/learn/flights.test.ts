import { readFileSync } from 'node:fs';
import { HtmlValidate } from 'html-validate';
import { beforeAll, describe, expect, test } from 'vitest';
import { type ChartSpec, compileChart } from '../../../report/kit/draw.js';
import { learnPage, renderLearn } from '../../../report/learn/learn.js';
import { reconstructPage, renderReconstruct } from '../../../report/reconstruct/reconstruct.js';
import { createMaker } from '../../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../../sim/ensemble/serial-flyer.js';
import { learn, worldIds } from '../../../sim/learn/learn.js';
import type { LearnResult } from '../../../sim/learn/result.js';
import { knownFrom, NOTHING_KNOWN } from '../../../sim/reconstruct/known.js';
import { predictFlights } from '../../../sim/reconstruct/predict.js';
import { readLog } from '../../../sim/reconstruct/read-log.js';
import { reconstruct } from '../../../sim/reconstruct/reconstruct.js';
import type { ReconstructResult } from '../../../sim/reconstruct/result.js';
import { readScenario } from '../../../sim/scenario/file/read.js';
import { burdock } from '../../ensemble/burdock.js';

const validator = new HtmlValidate({ root: true, extends: ['html-validate:recommended'] });
const reconstructed = new Map<string, ReconstructResult>();
let learnt: LearnResult;

beforeAll(async () => {
  const scenario = burdock();
  const log = readLog(readFileSync('configs/burdock-flight-log.csv', 'utf8'), '<log>.csv', {
    time: null,
    reading: null,
    height: null,
  });
  if (log.status === 'refused') throw new Error(log.messages.join());
  const known = knownFrom(scenario);
  const cases = {
    'a log over its scenario': reconstruct(log.value, known, await predictFlights(scenario, '1', 250, 30)),
    'a log of both channels alone': reconstruct(log.value, NOTHING_KNOWN, null),
    'a g-meter alone': reconstruct({ ...log.value, height: null }, NOTHING_KNOWN, null),
    'a height alone': reconstruct({ ...log.value, reading: null }, known, null),
  };
  for (const [name, made] of Object.entries(cases)) if (made.status === 'ok') reconstructed.set(name, made.value);

  // A drop test is over in seconds; a coarse speed alone leaves enough worlds.
  const read = readScenario('configs/teasel.yaml');
  if (read.status !== 'ok') throw new Error('teasel');
  const flyer = createSerialFlyer(createMaker(read.scenario, '1'));
  const [flights] = await flyer.fly({ set: 'worlds', ids: worldIds(150, 6), heights: [60], detail: 'full' });
  const own = reconstructed.get('a log over its scenario') as ReconstructResult;
  const coarse = own.quantities
    .filter(({ name }) => name === 'speed_at_throttle_up')
    .map((one) => ({ ...one, value: 20, low: 17, high: 23 }));
  const made = learn({
    scenario: read.scenario,
    flights,
    flownIn: null,
    seed: '1',
    worlds: 150,
    each: 6,
    logs: [{ ...own, quantities: coarse }],
    file: 'teasel.yaml',
  });
  if (made.status === 'refused') throw new Error(made.messages.join());
  learnt = made.value;
}, 120_000);

async function complaints(html: string): Promise<readonly string[]> {
  const report = await validator.validateString(html);
  return report.results.flatMap(({ messages }) => messages.map(({ message, line }) => `${line}: ${message}`));
}

function warningsOf(specs: readonly ChartSpec[]): readonly string[] {
  const warnings: string[] = [];
  for (const spec of specs) compileChart(spec, (message) => warnings.push(message));
  return warnings;
}

describe('The page of a flight log', () => {
  test('is there for every kind of log', () => {
    expect([...reconstructed.keys()]).toHaveLength(4);
  });

  test('is valid HTML for every kind of log, and keeps foreign text out of its markup', async () => {
    for (const result of reconstructed.values()) {
      const html = await renderReconstruct(result);
      expect(await complaints(html)).toEqual([]);
      expect(html).not.toContain('<log>');
      expect(html).not.toMatch(/NaN|undefined|\[object/);
      expect(html).toContain('Invented data');
    }
  });

  test('draws charts that compile without a warning', async () => {
    const specs: ChartSpec[] = [];
    for (const result of reconstructed.values())
      await reconstructPage(result, async (spec) => {
        specs.push(spec);
        return '';
      });
    expect(warningsOf(specs)).toEqual([]);
    expect(specs.length).toBeGreaterThan(12);
  });

  test('says that a touchdown speed is not identifiable from a g-meter alone', async () => {
    const html = await renderReconstruct(reconstructed.get('a g-meter alone') as ReconstructResult);
    expect(html).toContain('not identifiable');
    expect(html).toContain('Heights cannot be told from this log.');
  });
});

describe('The page of what flights taught', () => {
  test('is valid HTML with the risk before and after', async () => {
    const html = await renderLearn(learnt);
    expect(await complaints(html)).toEqual([]);
    expect(html).toMatch(/Before the logs it was/);
    expect(html).not.toMatch(/NaN|undefined|\[object/);
  });

  test('draws a chart that compiles without a warning', async () => {
    const specs: ChartSpec[] = [];
    await learnPage(learnt, async (spec) => {
      specs.push(spec);
      return '';
    });
    expect(warningsOf(specs)).toEqual([]);
    expect(specs).toHaveLength(2);
  });
});
