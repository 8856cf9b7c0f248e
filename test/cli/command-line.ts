/** Runs the built program as a user does. */
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

const MAIN = resolve('dist/cli/main.js');
export const BURDOCK = resolve('configs/burdock.yaml');

export interface Ran {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** A new empty folder. */
export function emptyFolder(): string {
  return mkdtempSync(join(tmpdir(), 'fallmargin-test-'));
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
