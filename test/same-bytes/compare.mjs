/**
 * Compares two folders that make.mjs wrote, byte for byte: node test/same-bytes/compare.mjs BEFORE AFTER. The program's and
 * Node's version and the folder's own path are taken out first. Lists each file that differs with the first place where it
 * does, and each that only one of the two holds; exit code 1 if there is any.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { argv, exit } from 'node:process';

/** Characters shown on either side of the first difference. */
const AROUND = 60;
const SHOWN = 40;

const folders = argv.slice(2);
if (folders.length !== 2 || folders.some((folder) => !existsSync(join(folder, 'about.json')))) {
  console.error('Usage: node test/same-bytes/compare.mjs BEFORE AFTER, two folders that make.mjs finished');
  exit(2);
}
const [before, after] = folders.map(reader);
const names = [...new Set([...before.names, ...after.names])].sort();
const differences = names.flatMap((name) => {
  if (!before.names.has(name)) return [`${name}: only in ${folders[1]}`];
  if (!after.names.has(name)) return [`${name}: only in ${folders[0]}`];
  return difference(name, before.text(name), after.text(name));
});
for (const line of differences.slice(0, SHOWN)) console.log(line);
if (differences.length > SHOWN) console.log(`and ${differences.length - SHOWN} more`);
console.log(
  differences.length === 0
    ? `All ${names.length} files are the same.`
    : `${differences.length} of ${names.length} files differ.`,
);
process.exitCode = differences.length === 0 ? 0 : 1;

function reader(folder) {
  const about = JSON.parse(readFileSync(join(folder, 'about.json'), 'utf8'));
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const held = new Set(files.map((entry) => relative(folder, join(entry.parentPath, entry.name))));
  held.delete('about.json');
  return {
    names: held,
    /** Bytes as characters, so that a part file, which is not text, is compared whole too. */
    text: (name) =>
      readFileSync(join(folder, name), 'latin1')
        .replaceAll(about.folder, '<folder>')
        .replaceAll(standingAlone(about.program), '<version>')
        .replaceAll(standingAlone(about.node), '<node>'),
  };
}

/** The version where it is not a piece of a longer number. */
function standingAlone(version) {
  return new RegExp(`(?<![\\d.])${version.replaceAll('.', '\\.')}(?![\\d]|\\.\\d)`, 'g');
}

function difference(name, one, other) {
  if (one === other) return [];
  let at = 0;
  while (at < one.length && one[at] === other[at]) at++;
  const head = one.slice(0, at).split('\n');
  const near = (text) => JSON.stringify(text.slice(Math.max(0, at - AROUND), at + AROUND));
  const sizes = `${one.length} and ${other.length} bytes`;
  return [
    `${name}: line ${head.length}, column ${head.at(-1).length + 1} (${sizes})\n  - ${near(one)}\n  + ${near(other)}`,
  ];
}
