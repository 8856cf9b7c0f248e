import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseResult } from '../../sim/result/json.js';
import { PROGRAM_VERSION } from '../../sim/version.js';
import { BURDOCK, emptyFolder, filesIn, run, start } from './command-line.js';

const SMALL = ['--flights', '40', '--heights', '60'] as const;

function resultFrom(text: string) {
  const read = parseResult(text);
  if (read.status !== 'ok') throw new Error(read.message);
  return read.result;
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
  it('writes report, result and flights, says the verdict by its exit code, and gives the same bytes on two threads', () => {
    const folder = emptyFolder();
    const one = run(folder, 'assess', BURDOCK, ...SMALL, '--threads', '1', '--csv', '--out', 'study');
    expect(filesIn(folder)).toEqual(['study.csv', 'study.html', 'study.json']);
    const text = readFileSync(join(folder, 'study.json'), 'utf8');
    const result = resultFrom(text);
    expect(one.code).toBe(result.overall === 'within' ? 0 : 1);
    expect(one.stdout).toMatch(/^(WITHIN|ABOVE|NOT SHOWN)/);
    expect(one.stdout.split('\n').every((line) => line.length <= 80 || line.startsWith('Again:'))).toBe(true);
    expect(one.stdout).not.toContain('\u001b');
    expect(one.stdout).not.toMatch(/of 40 flights at/);
    expect(readFileSync(join(folder, 'study.html'), 'utf8')).toContain('Burdock');

    const two = run(folder, 'assess', BURDOCK, ...SMALL, '--threads', '2', '--json', '--quiet');
    expect(two.stdout).toBe(text);
    expect(two.stderr).toBe('');
    expect(filesIn(folder)).toHaveLength(3);

    const again = run(folder, 'report', 'study.json', '--out', 'again');
    expect(again.code).toBe(0);
    expect(readFileSync(join(folder, 'again.html'))).toEqual(readFileSync(join(folder, 'study.html')));
  });

  it('interrupted, keeps what was flown, marks it partial and exits with 130', async () => {
    const folder = emptyFolder();
    const child = start(folder, 'assess', BURDOCK, '--flights', '500000', '--heights', 'planned', '--out', 'part');
    child.stderr.once('data', () => setTimeout(() => child.kill('SIGINT'), 300));
    const code = await new Promise((done) => child.once('close', done));
    expect(code).toBe(130);
    const result = resultFrom(readFileSync(join(folder, 'part.json'), 'utf8'));
    expect(result.partial).toBe(true);
    expect(result.flights).toBeGreaterThan(0);
    expect(result.flights).toBeLessThan(500_000);
    expect(filesIn(folder)).toEqual(['part.html', 'part.json']);
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
  it('writes a scenario that check reads, and overwrites it only when told', () => {
    const folder = emptyFolder();
    expect(run(folder, 'init').code).toBe(0);
    const checked = run(folder, 'check', 'payload.yaml');
    expect(checked.code).toBe(0);
    expect(checked.stdout).toContain('measure these');
    writeFileSync(join(folder, 'payload.yaml'), 'mine');
    expect(run(folder, 'init').code).toBe(2);
    expect(readFileSync(join(folder, 'payload.yaml'), 'utf8')).toBe('mine');
    expect(run(folder, 'init', '--force').code).toBe(0);
    expect(readFileSync(join(folder, 'payload.yaml'), 'utf8')).toContain('plan:');
  });
});

describe('trace', () => {
  it('prints the events of a flight and writes its history', () => {
    const folder = emptyFolder();
    const { code, stdout } = run(folder, 'trace', BURDOCK, '--flight', 'nominal');
    expect(code).toBe(0);
    expect(stdout).toMatch(/ejected[\s\S]*touchdown/);
    const [file] = filesIn(folder);
    expect(file).toBe('burdock-nominal-at-250m.csv');
    expect(readFileSync(join(folder, file), 'utf8')).toMatch(/^time_s,height_m,/);
  });
});
