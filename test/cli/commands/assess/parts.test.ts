import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { flyAssessment } from '../../../../cli/commands/assess/fly.js';
import { planUnfinished } from '../../../../cli/commands/assess/unfinished.js';
import { readScenario } from '../../../../sim/scenario/file/read.js';
import { answered } from '../../../answers.js';
import { emptyFolder, filesIn } from '../../command-line.js';
import { runHere } from '../../in-process.js';

/** A low drop: quick. */
const LOW = `extends: ${resolve('configs/teasel.yaml')}\nplan: { throttle_up_height: 75 m }\n`;
const LIST = ['assess', 'low.yaml', '--flights', '40', '--heights', '50', '--threads', '1'] as const;
const PLANNED = ['assess', 'low.yaml', '--flights', '20', '--heights', 'planned', '--threads', '1'] as const;
const RECIPE = resolve('configs/recipes/gnu-parallel.sh');
const PROGRAM = resolve('dist/program/main.js');

const folder = emptyFolder();
writeFileSync(join(folder, 'low.yaml'), LOW);
const here = (...words: readonly string[]) => runHere(folder, ...words);
const bytes = (name: string) => readFileSync(join(folder, name));

async function flyParts(words: readonly string[], of: number, out: string): Promise<readonly string[]> {
  const names = Array.from({ length: of }, (_, index) => `${out}-${index + 1}-of-${of}.part`);
  for (const index of names.keys())
    expect(await here(...words, '--part', `${index + 1}/${of}`, '--out', out, '--quiet')).toMatchObject({
      code: 0,
      stdout: `Written: ${names[index]}\n`,
      stderr: '',
    });
  return names;
}

describe('a study flown in parts', () => {
  it('gives the same result, report and table as in one go', async () => {
    const { code } = await here(...LIST, '--csv', '--out', 'whole', '--quiet');
    const parts = await flyParts(LIST, 2, 'list');
    const merged = await here('merge', ...parts.toReversed(), '--csv', '--out', 'merged', '--quiet', '--threads', '1');
    expect(merged.code).toBe(code);
    for (const view of ['json', 'html', 'csv'])
      expect(bytes(`merged.${view}`).equals(bytes(`whole.${view}`))).toBe(true);
  });

  it('and for a script, with the date of the parts', async () => {
    const dated = [...PLANNED, '--date', '1 May'];
    const whole = await here(...dated, '--json', '--quiet');
    const parts = await flyParts(dated, 2, 'planned');
    expect(await here('merge', ...parts, '--json', '--quiet')).toEqual(whole);
    const again = await here(...dated, '--part', '1/2', '--out', 'planned');
    expect(again.stderr).toMatch(
      /^planned-1-of-2\.part holds flights of this very study: --resume planned-1-of-2\.part /,
    );
    const said = await here('merge', ...parts);
    expect(said.stderr).not.toMatch(/flown here and now/);
    expect(said.stdout).toMatch(/Written: low\.html low\.json\nAgain: +fallmargin merge planned-1-of-2\.part/);
  });

  it('is refused, in words and with nothing written, where the parts are not one study', async () => {
    const parts = await flyParts(PLANNED, 2, 'these');
    const [other] = await flyParts([...PLANNED, '--seed', '2'], 2, 'others');
    writeFileSync(join(folder, 'cut.part'), bytes(parts[0]).subarray(0, -100));
    const before = filesIn(folder);
    for (const [files, message] of [
      [[parts[0]], /^Part 2 of 2 is missing\.$/m],
      [[...parts, parts[1]], /^Part 2\/2 is there twice: these-2-of-2\.part and these-2-of-2\.part\.$/m],
      [[...parts, other], /^others-1-of-2\.part is of another study than these-1-of-2\.part: seed "2", not "1"\.$/m],
      [['cut.part', parts[1]], /^cut\.part: the file was cut off: \d+ of \d+ bytes are there/m],
      [
        ['low.yaml', 'none.part'],
        /low\.yaml: the file is no part[\s\S]*"none\.part" could not be read: there is no such/,
      ],
      [[], /^merge needs files: fallmargin merge payload-\*-of-64\.part$/m],
    ] as const) {
      const { code, stdout, stderr } = await here('merge', ...files);
      expect(stderr).toMatch(message);
      expect(stderr).not.toMatch(/\n\s+at |NaN|undefined/);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    }
    expect(filesIn(folder)).toEqual(before);
    expect((await here('report', parts[0])).stderr).toMatch(/is a part of a study .*fallmargin merge/);
  });

  it.each([
    [['--part', '3'], /--part is "3", but must be the number of the part/],
    [['--part', '0/3'], /--part is "0\/3"/],
    [['--part', '4/3'], /--part is "4\/3"/],
    [['--part', '1/3', '--until', '1%'], /--until finds .* cannot be divided/],
    [['--part', '1/3', '--csv', '--json'], /--part writes its part file alone; give --csv and --json to `merge`/],
    [['--resume', 'none.part'], /"none\.part" could not be read/],
  ] as const)('is refused with %j', async (words, message) => {
    const asked = words.includes('--until' as never) ? ['assess', 'low.yaml'] : PLANNED;
    const { code, stderr } = await here(...asked, ...words);
    expect(stderr).toMatch(message);
    expect(code).toBe(2);
  });

  const parallel = spawnSync('parallel', ['--version']).status === 0;
  it.skipIf(!parallel)('runs by the recipe for GNU parallel as it is shipped', async () => {
    const place = emptyFolder();
    const program = `#!/bin/sh\nexec '${process.execPath}' '${PROGRAM}' "$@"\n`;
    writeFileSync(join(place, 'fallmargin'), program, { mode: 0o755 });
    writeFileSync(join(place, 'low.yaml'), LOW);
    const env = { ...process.env, PATH: `${place}:${process.env.PATH}` };
    const words = ['low.yaml', '2', '--flights', '20', '--heights', 'planned'];
    const ran = spawnSync('bash', [RECIPE, ...words], { cwd: place, env, encoding: 'utf8' });
    const { code } = await here(...PLANNED, '--out', 'in-one-go', '--quiet');
    expect(ran).toMatchObject({ status: code, stderr: expect.stringMatching(/^Flying;[^\n]*\n$/) });
    expect(readFileSync(join(place, 'low.json')).equals(bytes('in-one-go.json'))).toBe(true);
  });
});

describe('an interrupted study', () => {
  it('goes on from its file to the same bytes, and the file goes when it is whole', async () => {
    const scenario = answered(readScenario(join(folder, 'low.yaml'), []));
    const options = { seed: '1', flights: 40, heights: { kind: 'list', heights: [50] }, overrides: [] } as const;
    let looks = 0;
    const stop = {
      get aborted() {
        looks += 1;
        return looks > 3;
      },
    } as AbortSignal;
    const planned = await planUnfinished({
      base: join(folder, 'long'),
      isWritten: true,
      resume: undefined,
      study: { scenario, options, part: null, name: 'low' },
      quiet: true,
      stop,
    });
    const first = await flyAssessment(scenario, options, 1, true, stop, answered(planned));
    expect(first).toMatchObject({ status: 'ok', value: { partial: true, flights: 32 } });

    for (const [words, message] of [
      [[...LIST, '--seed', '2'], /^long\.part is of another study than the one asked for: seed "1", not "2"\./],
      [[...LIST, '--set', 'can.mass=590 g'], /--set nothing, not can\.mass=590 g; can\.mass .*588 g.*, not 590 g/],
      [[...LIST, '--part', '1/9'], /the undivided study, not part 1\/9/],
    ] as const) {
      const refused = await here(...words, '--resume', 'long.part', '--out', 'other');
      expect(refused).toMatchObject({ code: 2, stdout: '', stderr: expect.stringMatching(message) });
    }
    expect(filesIn(folder)).toContain('long.part');
    const resumed = await here(...LIST, '--resume', 'long.part', '--json', '--out', 'long', '--quiet');
    expect(resumed).toEqual(await here(...LIST, '--json', '--quiet'));
    expect(filesIn(folder)).not.toContain('long.part');
  });
});
