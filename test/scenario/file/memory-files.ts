/** Scenario files that exist in a test only. */
import { readFileSync } from 'node:fs';
import { ok } from '../../../sim/basics/answer.js';
import type { Files } from '../../../sim/scenario/file/files.js';
import { type ReadScenario, readScenario } from '../../../sim/scenario/file/read.js';
import type { ResolvedInput, Scenario } from '../../../sim/scenario/scenario.js';

/** A complete scenario to extend, named base.yaml in the tests. */
export const BASE = readFileSync('configs/burdock.yaml', 'utf8');

export function memoryFiles(texts: Readonly<Record<string, string>>): Files {
  return {
    read: (path) => (Object.hasOwn(texts, path) ? ok(texts[path]) : { status: 'no text', why: 'which does not exist' }),
    names: () => Object.keys(texts),
  };
}

/** Reads a variant of the base: what differs, below the line `extends: base.yaml`, so that it begins in line 2. */
export function readVariant(
  differs: string,
  overrides: readonly string[] = [],
  others: Readonly<Record<string, string>> = {},
): ReadScenario {
  const files = memoryFiles({ 'base.yaml': BASE, 'it.yaml': `extends: base.yaml\n${differs}`, ...others });
  return readScenario('it.yaml', overrides, files);
}

/** Reads one text that extends nothing. */
export function readAlone(text: string): ReadScenario {
  return readScenario('it.yaml', [], memoryFiles({ 'it.yaml': text }));
}

/** The problems as printed; empty where there are none. */
export function problemsOf(read: ReadScenario): readonly string[] {
  return read.status === 'ok' ? [] : read.messages;
}

export function scenarioOf(read: ReadScenario): Scenario {
  if (read.status === 'ok') return read.value;
  throw new Error(problemsOf(read).join('\n'));
}

export function inputOf(read: ReadScenario, path: string): ResolvedInput {
  const input = scenarioOf(read).inputs.find((candidate) => candidate.path === path);
  if (input === undefined) throw new Error(`${path} is left out`);
  return input;
}
