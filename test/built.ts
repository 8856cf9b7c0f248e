/** Builds the program before the tests that run it, if a source is newer than what was built. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const SOURCES = ['cli', 'report', 'sim', 'package.json', 'tsconfig.build.json', 'tsconfig.json'];
const BUILT = 'dist/program/main.js';

export function setup(): void {
  if (existsSync(BUILT) && Math.max(...SOURCES.map(newest)) <= statSync(BUILT).mtimeMs) return;
  execFileSync('npm', ['run', 'build', '--silent'], { stdio: 'inherit', shell: process.platform === 'win32' });
}

/** When it was last written, ms, or the youngest file in it. */
function newest(path: string): number {
  const files = statSync(path).isDirectory() ? readdirSync(path, { recursive: true, encoding: 'utf8' }) : [''];
  return Math.max(...files.map((file) => statSync(join(path, file)).mtimeMs));
}
