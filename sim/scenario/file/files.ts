/** The source of scenario files: the disk, or a stand-in in tests. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Ok, ok } from '../../basics/answer.js';

/** The text of a file, or why there is none, as a clause: "which does not exist". */
export type FileText = Ok<string> | { readonly status: 'no text'; readonly why: string };

export interface Files {
  readonly read: (path: string) => FileText;
  /** Names in a folder, for suggestions; none where it cannot be read. */
  readonly names: (folder: string) => readonly string[];
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'which does not exist',
  ENOTDIR: 'which does not exist',
  EISDIR: 'which is a folder',
  EACCES: 'which may not be read',
};

export const diskFiles: Files = {
  read: (path) => {
    try {
      return ok(readFileSync(path, 'utf8'));
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code ?? '';
      return { status: 'no text', why: REASONS[code] ?? `which cannot be read (${code || 'unknown reason'})` };
    }
  },
  names: (folder) => {
    try {
      return readdirSync(folder);
    } catch {
      return [];
    }
  },
};
