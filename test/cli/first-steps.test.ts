/** What a newcomer meets: asking for help, the demo outside the repository, and the usual slips in files. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder, filesIn, run } from './command-line.js';
import { runHere } from './in-process.js';

describe('asking for help', () => {
  it('works with -h and help as with --help, -v as --version, also of one command', () => {
    const [help, version, check] = [['--help'], ['--version'], ['check', '--help']].map((words) => run('.', ...words));
    for (const words of [['-h'], ['help']]) expect(run('.', ...words)).toEqual(help);
    expect(run('.', '-v')).toEqual(version);
    for (const words of [
      ['check', '-h'],
      ['help', 'check'],
    ])
      expect(run('.', ...words)).toEqual(check);
    expect(check.stdout).toMatch(/fallmargin check <scenario>/);
  });

  it('refuses help of no command with the nearest', async () => {
    const { code, stdout, stderr } = await runHere('.', 'help', 'chek');
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/no command "chek"\. Did you mean "check"\?/);
  });

  it('names a shell that has no script without suggesting the same word', async () => {
    const { code, stderr } = await runHere('.', 'completion', 'fish');
    expect(code).toBe(2);
    expect(stderr).toMatch(/bash or zsh/);
    expect(stderr).not.toMatch(/Did you mean/);
  });

  it('keeps every line within a terminal of 60 columns, tables included', () => {
    const narrow = `for (const [name, value] of [['isTTY', true], ['columns', 60]])
      Object.defineProperty(process.stdout, name, { value });`;
    const preload = `data:text/javascript,${encodeURIComponent(narrow)}`;
    const { stdout } = spawnSync(
      process.execPath,
      ['--import', preload, resolve('dist/program/main.js'), 'check', BURDOCK],
      { encoding: 'utf8' },
    );
    const lines = stripVTControlCharacters(stdout).split('\n');
    expect(lines.length).toBeGreaterThan(100);
    expect(lines.filter((line) => line.length > 60)).toEqual([]);
  });
});

describe('init --example', () => {
  it('writes a marked copy of the demo that check reads in a folder of its own', async () => {
    const folder = emptyFolder();
    const made = await runHere(folder, 'init', '--example', 'burdock');
    expect(made).toMatchObject({ code: 0, stderr: '', stdout: expect.stringContaining('Written: burdock.yaml') });
    const text = readFileSync(join(folder, 'burdock.yaml'), 'utf8');
    expect(text).toMatch(/^# A copy of a demo scenario .*Every number in it is invented/m);
    expect(text).toMatch(/^invented: yes$/m);
    const { code, stdout } = await runHere(folder, 'check', 'burdock.yaml');
    expect(code).toBe(0);
    expect(stdout).toContain('Its numbers are invented for demonstration.');
  });

  it('writes the files beside it that a variant extends, and leaves those that are there', async () => {
    const folder = emptyFolder();
    mkdirSync(join(folder, 'own'));
    expect((await runHere(folder, 'init', 'own/drop.yaml', '--example', 'teasel')).code).toBe(0);
    expect(filesIn(join(folder, 'own'))).toEqual(['burdock-automatic.yaml', 'burdock.yaml', 'drop.yaml']);
    expect((await runHere(folder, 'check', 'own/drop.yaml')).code).toBe(0);
    writeFileSync(join(folder, 'own', 'burdock.yaml'), 'mine');
    expect((await runHere(folder, 'init', 'own/again.yaml', '--example', 'teasel')).code).toBe(0);
    expect(readFileSync(join(folder, 'own', 'burdock.yaml'), 'utf8')).toBe('mine');
  });

  it('refuses an unknown example, one that is there, and a height beside it', async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'burdock.yaml'), 'mine');
    for (const [words, message] of [
      [['--example', 'burdok'], /must be one of burdock, .*Did you mean "burdock"\?/],
      [['--example', 'burdock'], /"burdock\.yaml" is there already/],
      [['--example', 'teasel', '--height', '60'], /--height is for a scenario of your own/],
    ] as const) {
      const { code, stdout, stderr } = await runHere(folder, 'init', ...words);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
      expect(stderr).toMatch(message);
    }
    expect(filesIn(folder)).toEqual(['burdock.yaml']);
  });

  it('lets the examples in the help run: no file of the repository is named', () => {
    for (const command of ['assess', 'check', 'compare', 'limits', 'trace', 'init'])
      expect(run('.', command, '--help').stdout).not.toContain('configs/');
  });
});

describe('usual slips', () => {
  it.each([
    [
      'a value of --set',
      ['check', BURDOCK, '--set', 'can.mass=0,42 kg'],
      /can\.mass: found "0,42 kg", with a decimal comma/,
    ],
    [
      'a value in braces',
      ['check', BURDOCK, '--set', 'can.mass={ value: 0,42 kg, source: measured }'],
      /found "42 kg" behind a comma; expected a decimal point instead of a decimal comma/,
    ],
    [
      'a list of measured values',
      ['check', BURDOCK, '--set', 'pilot.reaction={ samples: [1,2 s, 1,4 s], kind: varies from flight to flight }'],
      /values split at their decimal commas; expected decimal points/,
    ],
    ['an option', ['assess', BURDOCK, '--acceptable-risk', '2,5 %'], /Write a decimal point instead of the comma/],
    ['a height', ['init', 'x.yaml', '--height', '230,5 m'], /Write a decimal point instead of the comma/],
  ])('decimal commas are named: in %s', async (_what, words, message) => {
    const { code, stdout, stderr } = await runHere(emptyFolder(), ...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(message);
  });

  it('a second header row of units is to be deleted, in bench data and in samples', async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'bench.csv'), 'reaction,height\ns,m\n1.2,3\n1.4,4\n1.3,5\n');
    const fitted = await runHere(folder, 'fit', 'bench.csv', '--column', 'reaction', '--unit', 's');
    expect(fitted).toMatchObject({
      code: 2,
      stdout: '',
      stderr: 'bench.csv:2: found a second row of names or units ("s", "m"); delete line 2.\n',
    });
    const samples = '{ samples: { file: bench.csv, column: reaction, unit: s }, kind: varies from flight to flight }';
    const checked = await runHere(folder, 'check', BURDOCK, '--set', `pilot.reaction=${samples}`);
    expect(checked).toMatchObject({ code: 2, stdout: '' });
    expect(checked.stderr).toMatch(/^bench\.csv:2:1: .*second row of names or units.*delete line 2\.$/m);
  });

  it.each([
    ['a page', Buffer.from(`<!DOCTYPE html>\n<html><body>${'secret '.repeat(99)}</body></html>`), /a web page/],
    [
      'a picture',
      Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 1, 2, 3, 0xff]),
      /bytes that are no text/,
    ],
  ])('%s given as a scenario is not echoed', async (_what, bytes, message) => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'odd.yaml'), bytes);
    const { code, stdout, stderr } = await runHere(folder, 'check', 'odd.yaml');
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/secret|PNG/);
    expect(stderr.trim().split('\n')).toHaveLength(1);
  });
});
