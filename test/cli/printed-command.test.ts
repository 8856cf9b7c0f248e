import { cpSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { BURDOCK, emptyFolder } from './command-line.js';
import { runHere } from './in-process.js';

it('the command that a page prints runs in the folder that holds the scenario, whatever its title', async () => {
  const folder = emptyFolder();
  mkdirSync(join(folder, 'configs'));
  cpSync(BURDOCK, join(folder, 'configs', 'our can.yaml'));
  const made = await runHere(
    folder,
    'assess',
    'configs/our can.yaml',
    '--flights',
    '20',
    '--heights',
    'planned',
    '--threads',
    '1',
    '--set',
    'title=Another name',
    '--set',
    'can.mass=620 g',
  );
  expect([0, 1], made.stderr).toContain(made.code);
  const page = readFileSync(join(folder, 'our can.html'), 'utf8');
  const commands = [...page.matchAll(/<div class="command"><code>(.*?)<\/code>/g)].map(([, text]) => decoded(text));
  expect(commands.map((text) => text.split(' ')[1])).toEqual(['trace', 'assess']);
  for (const text of commands) {
    const ran = await runHere(
      join(folder, 'configs'),
      ...words(text).slice(1),
      ...(text.includes(' assess ') ? ['--threads', '1'] : []),
    );
    expect([0, 1], `${text}\n${ran.stderr}`).toContain(ran.code);
  }
  expect(readFileSync(join(folder, 'configs', 'our can.json'), 'utf8')).toBe(
    readFileSync(join(folder, 'our can.json'), 'utf8'),
  );
});

function decoded(text: string): string {
  return text.replaceAll('&#x27;', "'").replaceAll('&quot;', '"').replaceAll('&#x3D;', '=').replaceAll('&amp;', '&');
}

/** A command line without escapes, as a shell splits it. */
function words(text: string): readonly string[] {
  return [...text.matchAll(/(?:'[^']*'|[^\s'])+/g)].map(([word]) => word.replaceAll("'", ''));
}
