/** Runs the built program as a user does. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, expect, onTestFinished } from 'vitest';

const MAIN = resolve('dist/program/main.js');
export const BURDOCK = resolve('configs/burdock.yaml');

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A new empty folder, gone when the test that made it is over, or the tests of the file that did. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'fallmargin-test-'));
  const remove = () => rmSync(folder, { recursive: true, force: true });
  if (expect.getState().currentTestName === undefined) afterAll(remove);
  else onTestFinished(remove);
  return folder;
}

export function filesIn(folder: string): readonly string[] {
  return readdirSync(folder).sort();
}

export function run(folder: string, ...words: readonly string[]): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [MAIN, ...words], { cwd: folder, encoding: 'utf8' });
  return { code: status, stdout, stderr };
}

export function start(folder: string, ...words: readonly string[]) {
  return spawn(process.execPath, [MAIN, ...words], { cwd: folder });
}
