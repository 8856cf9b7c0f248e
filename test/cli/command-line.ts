/** Runs the built program as a user does. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
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

/** Loaded before the program: it takes its stderr for a terminal and gets a Ctrl-C once it tells that flights are flown. */
const CTRL_C = `
  const { stderr } = process;
  const write = stderr.write.bind(stderr);
  let sent = false;
  Object.defineProperty(stderr, 'isTTY', { value: true });
  stderr.write = (text, ...rest) => {
    if (!sent && /[1-9]\\d* of about/.test(String(text))) {
      sent = true;
      process.kill(process.pid, 'SIGINT');
    }
    return write(text, ...rest);
  };
`;

/** Interrupts the program as soon as it has flown something, however quick or slow the machine is. */
export async function interrupted(folder: string, ...words: readonly string[]): Promise<Ran> {
  const preload = `data:text/javascript,${encodeURIComponent(CTRL_C)}`;
  return ended(spawn(process.execPath, ['--import', preload, MAIN, ...words], { cwd: folder }));
}

async function ended(child: ChildProcess): Promise<Ran> {
  const said = { stdout: '', stderr: '' };
  for (const name of ['stdout', 'stderr'] as const)
    child[name]?.setEncoding('utf8').on('data', (text) => {
      said[name] += text;
    });
  const code = await new Promise<number | null>((done) => child.once('close', done));
  return { code, ...said };
}
