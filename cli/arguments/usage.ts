/** Usage: what is wrong with the words of a command line, and what to write instead. */
import { nearestName } from '../../sim/basics/nearest-name.js';
import { argumentsOf, type Command, type Given } from './command.js';

/** What yargs would read wrongly and go on: "--json=maybe" as false, "-" as an empty text. */
export function wrongWord(commands: readonly Command[], words: readonly string[]): string | null {
  const flags = new Set(
    commands.flatMap(({ options }) => Object.keys(options).filter((name) => options[name].type === 'boolean')),
  );
  for (const word of words) {
    if (word === '-') return '"-", the standard input, is not read; write the name of a file.';
    const [, name, value] = /^--([a-z-]+)=(.*)$/.exec(word) ?? [];
    if (name !== undefined && flags.has(name) && value !== 'true' && value !== 'false')
      return `--${name} takes no value, but "${value}" was given; write --${name} alone.`;
  }
  return null;
}

/** The words "help" and "help check" as the options that they stand for. */
export function helpAsOption(words: readonly string[]): readonly string[] {
  const [first, ...rest] = words;
  return first === 'help' ? [...rest, '--help'] : words;
}

/** Words after "--" are no option and no file of any command. */
export function leftoverWords(given: Given, command: Command): string | null {
  const [, ...rest] = Array.isArray(given._) ? given._ : [];
  return rest.length === 0 ? null : `${command.name} takes no further words, but "${rest.join(' ')}" was given.`;
}

/** What yargs says, in words that tell what to write instead. */
export function explained(message: string, commands: readonly Command[], words: readonly string[]): string {
  const command = words.flatMap((word) => commands.find(({ name }) => name === word) ?? [])[0];
  if (command === undefined) {
    const names = [...commands.map(({ name }) => name), 'completion'];
    const written = words.find((word) => !word.startsWith('-')) ?? '';
    if (written === 'completion')
      return 'completion takes no further words; it prints the script of the shell in SHELL, bash or zsh.';
    const nearest = nearestName(written, names);
    return written === ''
      ? `No command was given; the commands are ${names.join(', ')}.`
      : `There is no command "${written}". ${nearest ? `Did you mean "${nearest}"?` : `The commands are ${names.join(', ')}.`}`;
  }
  const [, unknown] = /^Unknown arguments?: (.*)$/.exec(message) ?? [];
  if (unknown !== undefined)
    return unknown
      .split(', ')
      .map((word) => explainUnknown(word, command, words))
      .join('\n');
  const [, lacking] = /^Not enough arguments following: (.*)$/.exec(message) ?? [];
  if (lacking !== undefined) return `--${lacking} needs a value after it; see fallmargin ${command.name} --help`;
  return message;
}

function explainUnknown(word: string, command: Command, words: readonly string[]): string {
  const isOption = words.some(
    (written) => written === `--${word}` || written.startsWith(`--${word}=`) || written === `-${word}`,
  );
  if (!isOption)
    return `"${word}" is one word too many; ${command.name} takes ${filesOf(command)}. Put values with spaces in quotes.`;
  const nearest = nearestName(word, Object.keys(command.options));
  const hint = nearest ? `Did you mean --${nearest}?` : `See fallmargin ${command.name} --help.`;
  return `There is no option ${words.includes(`-${word}`) ? '-' : '--'}${word}. ${hint}`;
}

function filesOf(command: Command): string {
  const words = argumentsOf(command);
  if (words[0]?.name === 'word') return 'one word';
  return words.some(({ many }) => many) ? 'any number of files' : ['none', 'one file', 'two files'][words.length];
}
