/** Commands: how they are described, and how what the user wrote is read. */
import type { Options } from 'yargs';
import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import type { CommandEnd } from '../terminal/exit-codes.js';

/** What the user wrote, by option name; options come as text. */
export type Given = Readonly<Record<string, unknown>>;

export interface Argument {
  readonly name: string;
  readonly doc: string;
  /** Stands for any number of words. */
  readonly many?: boolean;
}

/** What may stand after the name of a command, in order. */
export function argumentsOf({ argument, secondArgument }: Command): readonly Argument[] {
  return [argument, secondArgument].flatMap((one) => one ?? []);
}

/** A command: what `--help` shows, and what it does. Heavy parts are imported inside `run`, so that help is quick. */
export interface Command {
  readonly name: string;
  /** What stands after the name, such as "<scenario>"; checked by the command itself for a better message. */
  readonly argument?: Argument;
  /** A second file after the first. */
  readonly secondArgument?: Argument;
  readonly summary: string;
  readonly options: Readonly<Record<string, Options>>;
  readonly examples: readonly (readonly [command: string, what: string])[];
  readonly run: (given: Given) => Promise<CommandEnd>;
}

/** The text of an option, undefined where it was not given; refused where it was given twice. */
export function givenText(given: Given, name: string): Answer<string | undefined> {
  const value = given[name];
  if (Array.isArray(value)) return refused(`--${name} was given ${value.length} times; write it once.`);
  return ok(typeof value === 'string' ? value : undefined);
}

/** The value of an option, read by `parse`; `standard` holds where the option was not given. */
export function givenValue<T>(
  given: Given,
  name: string,
  standard: string,
  parse: (text: string) => Answer<T>,
): Answer<T> {
  const text = givenText(given, name);
  return text.status === 'ok' ? parse(text.value ?? standard) : text;
}

/** The value of an option, read by `parse`; undefined where the option was not given. */
export function givenOptional<T>(
  given: Given,
  name: string,
  parse: (text: string) => Answer<T>,
): Answer<T | undefined> {
  const text = givenText(given, name);
  if (text.status === 'refused') return text;
  return text.value === undefined ? ok(undefined) : parse(text.value);
}

/** The file that a command is about. */
export function givenFile(given: Given, command: string, name: string, example: string): Answer<string> {
  const value = given[name];
  if (typeof value === 'string' && value !== '') return ok(value);
  return refused(`${command} needs a ${name} file: fallmargin ${command} ${example}`);
}

/** The files that a command is about, where it takes any number. */
export function givenFiles(given: Given, command: string, name: string, example: string): Answer<readonly string[]> {
  const value = given[name];
  const files = (Array.isArray(value) ? value : []).map(String).filter((file) => file !== '');
  return files.length > 0 ? ok(files) : refused(`${command} needs files: fallmargin ${command} ${example}`);
}

export function givenFlag(given: Given, name: string): boolean {
  const value = given[name];
  return Array.isArray(value) ? value.includes(true) : value === true;
}
