/** The command line that repeats a study, as it would be typed into a shell. */
import type { Given } from './command.js';

/** Options that change what is computed or written; threads and quiet do not. */
const REPEATED = [
  'flights',
  'until',
  'seed',
  'heights',
  'rows',
  'columns',
  'acceptable-risk',
  'assurance',
  'matters',
  'set',
  'set-a',
  'set-b',
  'flight',
  'part',
  'date',
  'out',
] as const;
const FLAGS = ['planned-only', 'csv', 'json'] as const;

export function again(command: string, files: string | readonly string[], given: Given, ...more: string[]): string {
  const options = REPEATED.flatMap((name) => {
    const value = given[name];
    const values = Array.isArray(value) ? value : [value];
    return values.filter((one) => typeof one === 'string').flatMap((one) => [`--${name}`, quoted(one)]);
  });
  const flags = FLAGS.filter((name) => given[name] === true).map((name) => `--${name}`);
  return ['fallmargin', command, ...[files].flat().map(quoted), ...options, ...flags, ...more.map(quoted)].join(' ');
}

/** As a POSIX shell takes it: in single quotes where it holds anything but plain characters. */
export function quoted(word: string): string {
  return /^[\w./:@%+,=-]+$/.test(word) ? word : `'${word.replaceAll("'", "'\\''")}'`;
}
