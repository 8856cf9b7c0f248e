/** Runs a command line in this process, which is quicker than a new one. */
import { chdir, cwd } from 'node:process';
import { vi } from 'vitest';
import { assess } from '../../cli/commands/assess/assess.js';
import { check } from '../../cli/commands/check/check.js';
import { compare } from '../../cli/commands/compare/compare.js';
import { fit } from '../../cli/commands/fit/fit.js';
import { init } from '../../cli/commands/init/init.js';
import { inputs } from '../../cli/commands/inputs/inputs.js';
import { learn } from '../../cli/commands/learn/learn.js';
import { limits } from '../../cli/commands/limits/limits.js';
import { merge } from '../../cli/commands/merge/merge.js';
import { reconstruct } from '../../cli/commands/reconstruct/reconstruct.js';
import { report } from '../../cli/commands/report/report.js';
import { trace } from '../../cli/commands/trace/trace.js';
import { runWords } from '../../cli/program.js';
import type { Ran } from './command-line.js';

const COMMANDS = [init, inputs, check, assess, merge, compare, limits, trace, fit, reconstruct, learn, report];

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
