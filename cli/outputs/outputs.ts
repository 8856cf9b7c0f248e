/** The files that a command writes: checked before anything is flown, written under a temporary name, then renamed. */
import { constants } from 'node:fs';
import { access, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import { inChunks } from '../terminal/streams.js';

export type Extension = '.html' | '.json' | '.csv' | '.part';

/** What files of this program begin with, so that nobody else's file is overwritten. */
const MARKS: Readonly<Record<Extension, RegExp>> = {
  '.html': /fallmargin/i,
  '.json': /^\s*\{\s*"kind"\s*:\s*"/,
  '.csv': /^(set,flight,|time_s,)/,
  '.part': /^\{"kind":"part",/,
};
const HEAD = 4096;

/**
 * The paths BASE with each extension, every path checked; `--out report.html` means the base "report".
 *
 * @param suffix stands between base and extension
 */
export async function planOutputs(
  base: string,
  extensions: readonly Extension[],
  suffix = '',
): Promise<Answer<readonly string[]>> {
  const stem = base.replace(/\.(html|json|csv|part)$/i, '');
  if (stem === '' || stem.endsWith('/') || /\0/.test(stem))
    return refused(`--out is "${base}", but must name the files to write, such as --out study.`);
  const paths = extensions.map((extension) => `${stem}${suffix}${extension}`);
  const problems = (await Promise.all(paths.map((path, index) => problemWith(path, extensions[index])))).flatMap(
    (one) => one ?? [],
  );
  return problems.length > 0 ? refused(...new Set(problems)) : ok(paths);
}

async function problemWith(path: string, extension: Extension): Promise<string | null> {
  const folder = dirname(path);
  const kind = await stat(folder).catch(() => null);
  if (kind === null)
    return `The folder "${folder}" for ${basename(path)} does not exist; make it first or choose another --out.`;
  if (!kind.isDirectory()) return `"${folder}" is a file, not a folder; choose another --out.`;
  if (!(await canBeMade(partOf(path)))) return `The folder "${folder}" cannot be written to; choose another --out.`;
  const there = await stat(path).catch(() => null);
  if (there === null) return null;
  if (!there.isFile()) return `"${path}" is there and is not a file; choose another --out.`;
  if (!(await allows(path, constants.W_OK))) return `"${path}" is there and is write-protected; choose another --out.`;
  const head = await headOf(path);
  return head === '' || MARKS[extension].test(head)
    ? null
    : `"${path}" is there and was not written by this program; move it away or choose another --out.`;
}

async function allows(path: string, mode: number): Promise<boolean> {
  return access(path, mode).then(
    () => true,
    () => false,
  );
}

/** Found by trying: permissions alone tell neither of a read-only disk nor of a folder that only looks like a folder. */
async function canBeMade(trial: string): Promise<boolean> {
  try {
    await (await open(trial, 'wx')).close();
    await rm(trial);
    return true;
  } catch (error) {
    if (!isFileTrouble(error)) throw error;
    return false;
  }
}

/** The temporary name beside a file under which it is written. */
function partOf(path: string): string {
  return join(dirname(path), `.${basename(path)}.${process.pid}.part`);
}

async function headOf(path: string): Promise<string> {
  const file = await open(path, 'r');
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD), 0, HEAD, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await file.close();
  }
}

/** Writes a file whole or not at all: under a temporary name in the same folder, then renamed. */
export async function writeWhole(path: string, pieces: Iterable<string | Uint8Array>): Promise<Answer<string>> {
  const temporary = partOf(path);
  try {
    const file = await open(temporary, 'wx');
    try {
      for (const chunk of inChunks(pieces)) await file.writeFile(chunk);
    } finally {
      await file.close();
    }
    await rename(temporary, path);
    return ok(path);
  } catch (error) {
    await rm(temporary, { force: true });
    if (!isFileTrouble(error)) throw error;
    return refused(`"${path}" could not be written: ${inWords(error)}.`);
  }
}

/** Reads a text file that the user named. */
export async function readText(path: string): Promise<Answer<string>> {
  try {
    return ok(await readFile(path, 'utf8'));
  } catch (error) {
    if (!isFileTrouble(error)) throw error;
    return refused(`"${path}" could not be read: ${inWords(error)}.`);
  }
}

export function isFileTrouble(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'code' in error && typeof error.code === 'string';
}

const TROUBLES: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EISDIR: 'it is a folder',
  ENOENT: 'there is no such file',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a part of its path is a file, not a folder',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'its name is too long',
  ERR_STRING_TOO_LONG: 'it is too large to read in one piece',
};

export function inWords(error: NodeJS.ErrnoException): string {
  return TROUBLES[error.code ?? ''] ?? `the system says ${error.code}`;
}
