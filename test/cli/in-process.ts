/** Runs a command line in this process, which is quicker than a new one. */
import { chdir, cwd } from 'node:process';
import { vi } from 'vitest';
import { assess } from '../../cli/commands/assess.js';
import { check } from '../../cli/commands/check.js';
import { compare } from '../../cli/commands/compare.js';
import { fit } from '../../cli/commands/fit.js';
import { init } from '../../cli/commands/init.js';
import { learn } from '../../cli/commands/learn.js';
import { limits } from '../../cli/commands/limits.js';
import { merge } from '../../cli/commands/merge.js';
import { reconstruct } from '../../cli/commands/reconstruct.js';
import { report } from '../../cli/commands/report.js';
import { trace } from '../../cli/commands/trace.js';
import { runWords } from '../../cli/program.js';
import type { Ran } from './command-line.js';

const COMMANDS = [init, check, assess, merge, compare, limits, trace, fit, reconstruct, learn, report];

export async function runHere(folder: string, ...words: readonly string[]): Promise<Ran> {
  const home = cwd();
  const said = { stdout: '', stderr: '' };
  const spies = (['stdout', 'stderr'] as const).map((name) =>
    vi.spyOn(process[name], 'write').mockImplementation((text) => {
      said[name] += text;
      return true;
    }),
  );
  chdir(folder);
  try {
    return { code: await runWords(COMMANDS, words), ...said };
  } finally {
    chdir(home);
    for (const spy of spies) spy.mockRestore();
  }
}
