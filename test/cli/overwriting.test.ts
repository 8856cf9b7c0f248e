import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder, filesIn } from './command-line.js';
import { runHere } from './in-process.js';

const QUICK = ['--flights', '20', '--heights', 'planned', '--threads', '1', '--quiet'];

describe('a study that is there already', () => {
  it('is kept: the next takes a new name, and says which', async () => {
    const folder = emptyFolder();
    const assess = (...more: readonly string[]) => runHere(folder, 'assess', BURDOCK, ...QUICK, ...more);
    await assess();
    const before = readFileSync(join(folder, 'burdock.json'), 'utf8');
    await assess('--set', 'can.mass=700 g');
    expect(filesIn(folder)).toEqual(['burdock-2.html', 'burdock-2.json', 'burdock.html', 'burdock.json']);
    expect(readFileSync(join(folder, 'burdock.json'), 'utf8')).toBe(before);
    await assess('--set', 'can.mass=700 g', '--force');
    expect(filesIn(folder)).toHaveLength(4);
    expect(readFileSync(join(folder, 'burdock.json'), 'utf8')).toBe(
      readFileSync(join(folder, 'burdock-2.json'), 'utf8'),
    );
  });

  it('is kept where --out names it, before anything is flown, until --force says otherwise', async () => {
    const folder = emptyFolder();
    writeFileSync(join(folder, 'mine.json'), '{"kind":"assess",');
    const refused = await runHere(folder, 'limits', BURDOCK, '--out', 'mine');
    expect(refused).toMatchObject({
      code: 2,
      stdout: '',
      stderr: expect.stringMatching(/mine\.json is there already.*--force/s),
    });
    expect(readFileSync(join(folder, 'mine.json'), 'utf8')).toBe('{"kind":"assess",');
  });
});
