/** Where scenario files come from: the disk, or a stand-in in tests. */
import { readdirSync, readFileSync } from 'node:fs';

export type FileText =
  | { readonly status: 'ok'; readonly text: string }
  | { readonly status: 'failed'; readonly why: string };

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
      return { status: 'ok', text: readFileSync(path, 'utf8') };
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code ?? '';
      return { status: 'failed', why: REASONS[code] ?? `which cannot be read (${code || 'unknown reason'})` };
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
