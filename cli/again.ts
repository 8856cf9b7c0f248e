/** The command that repeats what was just done, as it would be typed into a shell. */
import type { Given } from './command.js';

/** Options that change what is computed or written; threads and quiet do not. */
const REPEATED = ['flights', 'seed', 'heights', 'acceptable-risk', 'set', 'flight', 'out'] as const;
const FLAGS = ['csv', 'json'] as const;

export function again(command: string, file: string, given: Given): string {
  const options = REPEATED.flatMap((name) => {
    const value = given[name];
    const values = Array.isArray(value) ? value : [value];
    return values.filter((one) => typeof one === 'string').flatMap((one) => [`--${name}`, quoted(one)]);
  });
  const flags = FLAGS.filter((name) => given[name] === true).map((name) => `--${name}`);
  return ['fallmargin', command, quoted(file), ...options, ...flags].join(' ');
}

/** As a POSIX shell takes it: in single quotes where it holds anything but plain characters. */
function quoted(word: string): string {
  return /^[\w./:@%+,=-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
