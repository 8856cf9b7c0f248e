import { readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseResult } from '../../sim/assess/json.js';
import { PROGRAM_VERSION } from '../../sim/basics/versions.js';
import { BURDOCK, emptyFolder, filesIn, interrupted, run, start } from './command-line.js';
import { runHere } from './in-process.js';

/** Let go low, so that its flights are short. */
const LOW = resolve('configs/teasel.yaml');
const SMALL = ['--flights', '40', '--heights', '40', '--date', '1 May, before the flight'] as const;

function resultFrom(text: string) {
  const read = parseResult(text);
  if (read.status !== 'ok') throw new Error(read.messages.join());
  return read.value;
}

describe('the program', () => {
  it('alone says what to do first', () => {
    const { code, stdout } = run('.');
    expect(code).toBe(0);
    expect(stdout).toContain('fallmargin init payload.yaml');
  });

  it('documents its exit codes in the help of each command', () => {
    for (const words of [['--help'], ['assess', '--help']]) {
      const { code, stdout } = run('.', ...words);
      expect(code).toBe(0);
      for (const documented of [/^ {2}0 /m, /^ {2}1 /m, /^ {2}2 /m, /^ {2}70 /m, /^ {2}130 /m])
        expect(stdout).toMatch(documented);
      expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    }
  });

  it('has the version of its package', () => {
    expect(PROGRAM_VERSION).toBe(JSON.parse(readFileSync('package.json', 'utf8')).version);
  });
});

describe('assess', () => {
  it('writes report, result and flights, says the verdict by its exit code, and gives the same bytes on two threads', async () => {
    const folder = emptyFolder();
    const one = run(folder, 'assess', LOW, ...SMALL, '--threads', '1', '--csv', '--out', 'study');
    expect(filesIn(folder)).toEqual(['study.csv', 'study.html', 'study.json']);
    const text = readFileSync(join(folder, 'study.json'), 'utf8');
    const result = resultFrom(text);
    expect(one.code).toBe(result.overall === 'within' ? 0 : 1);
    expect(one.stdout).toMatch(/^\S (WITHIN|ABOVE|NOT SHOWN)/);
    expect(one.stdout.split('\n').every((line) => line.length <= 80 || line.startsWith('Again:'))).toBe(true);
    expect(one.stdout).not.toContain('\u001b');
    expect(one.stdout).not.toMatch(/of 40 flights at/);
    expect(result.date).toBe('1 May, before the flight');
    expect(readFileSync(join(folder, 'study.html'), 'utf8')).toMatch(/Teasel[\s\S]*1 May, before the flight/);

    const two = run(folder, 'assess', LOW, ...SMALL, '--threads', '2', '--json', '--quiet');
    expect(two.stdout).toBe(text);
    expect(two.stderr).toBe('');
    expect(filesIn(folder)).toHaveLength(3);

    const again = await runHere(folder, 'report', 'study.json', '--out', 'again');
    expect(again.code).toBe(0);
    expect(readFileSync(join(folder, 'again.html'))).toEqual(readFileSync(join(folder, 'study.html')));
  });

  it('interrupted, keeps what was flown, marks it partial and exits with 130', async () => {
    const folder = emptyFolder();
    const words = ['assess', BURDOCK, '--flights', '500000', '--heights', 'planned', '--out', 'part'];
    const { code, stdout } = await interrupted(folder, ...words);
    expect(code).toBe(130);
    expect(stdout).toMatch(/^Go on: +fallmargin assess [\s\S]*--resume\s+part\.part\s+--out\s+part\s+--force$/m);
    const result = resultFrom(readFileSync(join(folder, 'part.json'), 'utf8'));
    expect(result.partial).toBe(true);
    expect(result.flights).toBeGreaterThan(0);
    expect(result.flights).toBeLessThan(500_000);
    expect(filesIn(folder)).toEqual(['part.html', 'part.json', 'part.part']);
  });

  it('ends quietly when the reader of its output has gone', async () => {
    const child = start('.', 'check', BURDOCK);
    let complaint = '';
    child.stderr.on('data', (data) => {
      complaint += data;
    });
    child.stdout.destroy();
    expect(await new Promise((done) => child.once('close', done))).toBe(0);
    expect(complaint).toBe('');
  });
});

describe('init', () => {
  it('writes a scenario that check reads, ranking its guesses, and that assess flies', async () => {
    const folder = emptyFolder();
    const refused = await runHere(folder, 'init', '--height', 'high', '--acceptable-risk', '5');
    expect(refused).toMatchObject({
      code: 2,
      stderr: expect.stringMatching(/--height is "high"[\s\S]*--acceptable-risk is "5"/),
    });
    const made = await runHere(folder, 'init', '--height', '233 m', '--acceptable-risk', '4 %');
    expect(made).toMatchObject({ code: 0, stderr: '' });
    const checked = await runHere(folder, 'check', 'payload.yaml');
    expect(checked).toMatchObject({ code: 0, stderr: '' });
    const [, guesses] = checked.stdout.split('measure these\n');
    expect(guesses).toMatch(/bare minimum by hand[\s\S]*(\w+\.\w+ +\S+ m to \S+ m[\s\S]*){3}/);
    const small = ['--flights', '20', '--heights', 'planned', '--threads', '1', '--json', '--quiet'];
    const flown = await runHere(folder, 'assess', 'payload.yaml', ...small);
    expect(flown.stderr).toBe('');
    expect(resultFrom(flown.stdout)).toMatchObject({ flights: 20, partial: false });
  });

  it('leaves the decisions open without them, says so, and assess refuses the file in a sentence', async () => {
    const folder = emptyFolder();
    expect((await runHere(folder, 'init')).stdout).toMatch(
      /Still to decide[\s\S]*throttle_up_height[\s\S]*ground_impact_risk/,
    );
    const flown = await runHere(folder, 'assess', 'payload.yaml');
    expect(flown).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('found "to decide"') });
  });

  it('overwrites a scenario only when told', async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'payload.yaml'), 'mine');
    expect((await runHere(folder, 'init')).code).toBe(2);
    expect(readFileSync(join(folder, 'payload.yaml'), 'utf8')).toBe('mine');
    expect((await runHere(folder, 'init', '--force')).code).toBe(0);
    expect(readFileSync(join(folder, 'payload.yaml'), 'utf8')).toContain('plan:');
  });
});

describe('trace', () => {
  it('prints the events of a flight and writes its history', async () => {
    const folder = emptyFolder();
    const { code, stdout } = await runHere(folder, 'trace', BURDOCK, '--flight', 'nominal');
    expect(code).toBe(0);
    expect(stdout).toMatch(/ejected[\s\S]*touchdown/);
    const [file, ...others] = filesIn(folder);
    expect(file).toBe('burdock-nominal-at-250m.csv');
    expect(others).toEqual(['burdock-nominal-at-250m.html', 'burdock-nominal-at-250m.json']);
    const head = readFileSync(join(folder, file), 'utf8').split('\n')[0];
    expect(head).toMatch(/^time_s,height_m,.*,attitude_w,attitude_x,attitude_y,attitude_z,turning_rate_x_rad_per_s,/);
  });

  it('prints what was drawn farthest out, and the same flight as JSON with --json, from which report makes its page', async () => {
    const folder = emptyFolder();
    const words = ['trace', LOW, '--flight', '3'];
    const { stdout } = await runHere(folder, ...words, '--out', 'again');
    expect(stdout).toMatch(/^Of \d+ numbers drawn, [\s\S]*^ +drawn +value +share of its law under it$/m);
    const json = run(folder, ...words, '--json');
    expect(json.code).toBe(0);
    expect(json.stdout).toBe(readFileSync(join(folder, 'again.json'), 'utf8'));
    expect(filesIn(folder)).toEqual(['again.csv', 'again.html', 'again.json']);
    expect((await runHere(folder, 'report', 'again.json', '--out', 'report')).code).toBe(0);
    expect(readFileSync(join(folder, 'report.html'), 'utf8')).toBe(readFileSync(join(folder, 'again.html'), 'utf8'));
  });

  it('refuses a flight that is none with --json as without, and prints nothing else', async () => {
    const folder = emptyFolder();
    const refused = await runHere(folder, 'trace', LOW, '--flight', 'explore:-1@50', '--json');
    expect(refused).toMatchObject({ code: 2, stdout: '', stderr: expect.stringContaining('explore:17@250') });
    expect(filesIn(folder)).toEqual([]);
  });
});
