/** Copies of the demo scenarios that come with the program, each with the files that it extends. */

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Answer, ok, refused } from '../../../sim/basics/answer.js';
import { nearestName } from '../../../sim/basics/nearest-name.js';
import { PROGRAM_VERSION } from '../../../sim/basics/versions.js';

export interface Example {
  /** Name of the file, as "burdock.yaml". */
  readonly file: string;
  readonly text: string;
}

const SCHEMA = 'scenario.schema.json';
const ENDING = '.yaml';

/** The example of a name, as "burdock", first, and then the examples that it extends. */
export function exampleFiles(name: string): Answer<readonly [Example, ...Example[]]> {
  const folder = demoFolder(dirname(fileURLToPath(import.meta.url)));
  const names = readdirSync(folder)
    .filter((file) => file.endsWith(ENDING))
    .map((file) => file.slice(0, -ENDING.length))
    .sort();
  if (!names.includes(name)) {
    const nearest = nearestName(name, names);
    return refused(
      `--example is "${name}", but must be one of ${names.join(', ')}.${nearest === null ? '' : ` Did you mean "${nearest}"?`}`,
    );
  }
  const first = example(folder, `${name}${ENDING}`);
  return ok([first, ...extended(folder, first)]);
}

function extended(folder: string, { text }: Example): readonly Example[] {
  const [, file] = /^extends: *(\S+)/m.exec(text) ?? [];
  if (file === undefined) return [];
  const next = example(folder, file);
  return [next, ...extended(folder, next)];
}

/** The text with its mark, and with the place of the schema for editors: the copy lies in a folder of its own. */
function example(folder: string, file: string): Example {
  const text = readFileSync(join(folder, file), 'utf8').replace(`$schema=${SCHEMA}`, `$schema=${join(folder, SCHEMA)}`);
  const mark = `# A copy of a demo scenario of fallmargin ${PROGRAM_VERSION}. Every number in it is invented: it is no start for a real can.`;
  const [first, ...rest] = text.split('\n');
  return { file, text: [first, mark, ...rest].join('\n') };
}

/** The nearest `configs/` above this file that holds the schema, whether this runs as source, compiled or bundled. */
function demoFolder(from: string): string {
  const folder = join(from, 'configs');
  if (existsSync(join(folder, SCHEMA))) return folder;
  if (dirname(from) === from) throw new Error('The demo scenarios of the program are missing.');
  return demoFolder(dirname(from));
}
