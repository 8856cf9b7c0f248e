import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { limits } from '../../../../cli/commands/limits/limits.js';
import { limitsLines, limitsSummary } from '../../../../cli/commands/limits/summary.js';
import { renderedPage } from '../../../../cli/commands/report/rendered.js';
import { runWords } from '../../../../cli/program.js';
import { criteriaOf } from '../../../../sim/decision/criteria.js';
import { parseLimits } from '../../../../sim/limits/json.js';
import { findLimits } from '../../../../sim/limits/limits.js';
import type { LimitsResult } from '../../../../sim/limits/result.js';
import { answered } from '../../../answers.js';
import { fallingRisk, plainBurdock } from '../../../compare/designs.js';
import { createSyntheticFlyer } from '../../../decision/synthetic-flyer.js';
import { BURDOCK, emptyFolder, filesIn } from '../../command-line.js';
import { runHere } from '../../in-process.js';

const plain = (_style: string, text: string) => text;

async function cardOf(rows: string, columns: string, floor = 0.01): Promise<LimitsResult> {
  const options = { seed: '1', flights: 500, rows, columns, heights: { kind: 'standard' }, overrides: [] } as const;
  const flyerFor = () => createSyntheticFlyer({ seed: '1', risk: fallingRisk(100, floor) });
  const scenario = plainBurdock();
  return answered(await findLimits(scenario, options, { flyerFor, criteria: criteriaOf(scenario) }));
}

describe('the summary of a day card', () => {
  it('fits 80 columns, also with the most columns', async () => {
    const eight = `pad.wait=${[10, 20, 30, 40, 50, 60, 70, 80].map((one) => `${one} min`)}`;
    for (const result of [await cardOf('wind.speed', 'pad.wait', 0.2), await cardOf('wind.speed', eight, 0.2)])
      for (const line of limitsSummary(result, plain)) expect(line.length).toBeLessThanOrEqual(80);
  });

  it("shows heights, closed cells and the launch code's ceiling", async () => {
    const text = limitsLines(await cardOf('wind.speed=4 m/s,12 m/s', 'pad.wait=10 min'), plain).join('\n');
    expect(text).toMatch(
      /4 m\/s +1\d\d m\n +12 m\/s +no launch\n +Launch code: no launch in more wind than 8\.94 m\/s\./,
    );
    const closed = limitsSummary(await cardOf('wind.speed=4 m/s', 'pad.wait=10 min', 0.2), plain).join('\n');
    expect(closed).toMatch(/do not fly[\s\S]*no height\s+keeps: ground impact/);
  });

  it('says how to read between values', async () => {
    const ordered = limitsSummary(await cardOf('wind.speed=4 m/s', 'pad.wait=10 min'), plain).join(' ');
    expect(ordered).toMatch(/take the harder one/);
    const free = limitsSummary(await cardOf('wind.from=0 deg,90 deg', 'pad.wait=10 min'), plain).join(' ');
    expect(free).toContain('take the greater height');
  });
});

describe('limits', () => {
  it('writes the card and its result, with exit code 1 where no cell has a height; the card can be rendered again', async () => {
    const folder = emptyFolder();
    const cells = [
      '--rows',
      'wind.speed=2 m/s,12 m/s',
      '--columns',
      'pad.wait=10 min',
      '--heights',
      '60',
      '--set',
      'site.keep_out=[]',
    ];
    const { code, stdout } = await runHere(folder, 'limits', BURDOCK, ...cells, '--flights', '60', '--threads', '2');
    expect(code).toBe(1);
    expect(stdout).toMatch(/2 m\/s +do not fly\n +12 m\/s +no launch/);
    expect(filesIn(folder)).toEqual(['burdock-limits.html', 'burdock-limits.json']);
    const json = readFileSync(join(folder, 'burdock-limits.json'), 'utf8');
    expect(parseLimits(json)).toMatchObject({ status: 'ok', value: { anyShown: false } });
    expect(await renderedPage(json)).toEqual({
      status: 'ok',
      value: readFileSync(join(folder, 'burdock-limits.html'), 'utf8'),
    });
  });

  it('interrupted before the first cell, says that nothing is kept, writes nothing and exits with 130', async () => {
    const folder = emptyFolder();
    // Ctrl-C comes as soon as it is listened for.
    const interrupt = (event: string | symbol, listener: () => void) => {
      if (event === 'SIGINT') setImmediate(listener);
    };
    process.on('newListener', interrupt);
    let said = '';
    const spy = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      said += text;
      return true;
    });
    try {
      const words = ['limits', BURDOCK, '--threads', '1', '--quiet', '--out', join(folder, 'card')];
      expect(await runWords([limits], words)).toBe(130);
    } finally {
      process.off('newListener', interrupt);
      spy.mockRestore();
    }
    expect(said).toContain('nothing is kept, nothing was written');
    expect(filesIn(folder)).toEqual([]);
  });

  it('refuses all that is wrong at once, before it flies', async () => {
    const folder = emptyFolder();
    const words = ['--rows', 'wind.speed=2', '--columns', 'pad.wiat', '--flights', '20'];
    const { code, stdout, stderr } = await runHere(folder, 'limits', BURDOCK, ...words);
    expect(stderr).toMatch(/--rows: found "2"[\s\S]*--columns: "pad\.wiat"[\s\S]*--flights is 20/);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(filesIn(folder)).toEqual([]);
  });
});
