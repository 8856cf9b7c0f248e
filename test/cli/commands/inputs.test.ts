import { describe, expect, it } from 'vitest';
import { leafPaths } from '../../../sim/scenario/definition/leaves.js';
import { run } from '../command-line.js';
import { runHere } from '../in-process.js';

const plain = (text: string) => text.replace(/\s+/g, ' ');
const settable = leafPaths().filter(({ entry }) => entry.shape !== 'luck');

describe('inputs', () => {
  it('names every input of the definition, with its unit, in short', async () => {
    const { code, stdout } = await runHere('.', 'inputs');
    expect(code).toBe(0);
    for (const { path, entry } of settable) {
      const unit = entry.shape === 'quantity' && entry.unit !== '' ? ` [${entry.unit}]` : '';
      expect(stdout.split('\n').some((line) => line.startsWith(`${path}${unit}`))).toBe(true);
    }
    expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
  });

  it('says in full how an input is measured and what is usual, found by path or by meaning', async () => {
    const byPath = plain((await runHere('.', 'inputs', 'arms.hinge')).stdout);
    expect(byPath).toMatch(
      /arms\.hinge_torque \[N m\] .*What may stand there: a torque above 0 N m.*Without it: log-normal, median 0\.06 N m.*How to measure it: .*spring balance.*What is usual: .*common practice, no source/,
    );
    const byMeaning = await runHere('.', 'inputs', 'broadside on');
    expect(byMeaning.stdout).toMatch(/^can\.side_drag_coefficient$/m);
  });

  it('gives the same as JSON', async () => {
    const { inputs } = JSON.parse((await runHere('.', 'inputs', '--json')).stdout);
    expect(inputs.map(({ path }: { path: string }) => path)).toEqual(settable.map(({ path }) => path));
    const mass = inputs.find(({ path }: { path: string }) => path === 'can.mass');
    expect(mass).toMatchObject({ unit: 'g', mustBeGiven: true, measured: expect.stringContaining('scale') });
  });

  it('refuses a word that no input has, with the nearest', async () => {
    const { code, stdout, stderr } = await runHere('.', 'inputs', 'masss');
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/No input has "masss".*Did you mean "mass"/);
  });

  it('says how each input of the definition is measured in whole sentences, at least fifty of them', () => {
    const measured = leafPaths().flatMap(({ entry }) => ('measured' in entry && entry.measured ? [entry] : []));
    expect(measured.length).toBeGreaterThanOrEqual(50);
    for (const { measured: how, usual } of measured)
      for (const text of [how, usual]) expect(text).toMatch(/^[A-Z].*\.$/);
  });
});

describe('completion', () => {
  const complete = (...words: readonly string[]) => run('.', '--get-yargs-completions', 'fallmargin', ...words);

  it.each(['--set', '--set-b', '--rows'])('completes the paths of inputs after %s', (option) => {
    const { code, stdout, stderr } = complete('check', 'a.yaml', option, 'can.m');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout.trim().split('\n')).toEqual(['can.mass', 'can.middle_above_centre_of_mass']);
  });

  it('completes options and commands as before, without a complaint', () => {
    expect(complete('check', '--s')).toMatchObject({ code: 0, stderr: '', stdout: expect.stringContaining('--set') });
    expect(complete('inp')).toMatchObject({ code: 0, stderr: '', stdout: expect.stringContaining('inputs') });
  });
});
