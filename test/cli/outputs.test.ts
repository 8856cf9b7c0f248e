import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { planOutputs, writeWhole } from '../../cli/outputs/outputs.js';
import { emptyFolder, filesIn } from './command-line.js';

describe('the files to write', () => {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'sub'));
  writeFileSync(join(folder, 'plain'), '');
  writeFileSync(join(folder, 'old.json'), '{"kind":"assess",');
  writeFileSync(join(folder, 'other.json'), '{"name":"package"}');
  writeFileSync(join(folder, 'other.csv'), 'a,b\n1,2\n');

  it('are the base with each extension; an extension that was typed is not doubled', async () => {
    const paths = [join(folder, 'study.html'), join(folder, 'study.json')];
    for (const base of ['study', 'study.html', 'study.json'])
      expect(await planOutputs(join(folder, base), ['.html', '.json'])).toEqual({ status: 'ok', value: paths });
  });

  it('may replace what the program wrote before', async () => {
    expect((await planOutputs(join(folder, 'old'), ['.json'])).status).toBe('ok');
  });

  it.each([
    ['other', ['.json'], /not written by this program/],
    ['other', ['.csv'], /not written by this program/],
    ['plain/study', ['.html'], /is a file, not a folder/],
    ['missing/study', ['.html'], /does not exist/],
    ['sub/', ['.html'], /must name the files/],
  ] as const)('may not be %s%s', async (base, extensions, message) => {
    const planned = await planOutputs(join(folder, base), extensions);
    expect(planned).toMatchObject({ status: 'refused', messages: [expect.stringMatching(message)] });
  });

  it('are written whole or not at all, and leave nothing behind', async () => {
    const place = emptyFolder();
    const path = join(place, 'study.json');
    writeFileSync(path, 'before');
    function* breaking() {
      yield 'half';
      throw new Error('broken on the way');
    }
    await expect(writeWhole(path, breaking())).rejects.toThrow('broken on the way');
    expect(readFileSync(path, 'utf8')).toBe('before');
    expect(await writeWhole(path, ['a', 'b'])).toEqual({ status: 'ok', value: path });
    expect(readFileSync(path, 'utf8')).toBe('ab');
    expect(filesIn(place)).toEqual(['study.json']);
  });

  it('say plainly when they cannot be written after all', async () => {
    const written = await writeWhole(join(folder, 'missing', 'study.json'), ['x']);
    expect(written).toMatchObject({ status: 'refused', messages: [expect.stringContaining('could not be written')] });
  });
});
