#!/usr/bin/env node
/** The program's table of contents: one file a command. */
import { assess } from './commands/assess.js';
import { check } from './commands/check.js';
import { compare } from './commands/compare.js';
import { fit } from './commands/fit.js';
import { init } from './commands/init.js';
import { learn } from './commands/learn.js';
import { limits } from './commands/limits.js';
import { merge } from './commands/merge.js';
import { reconstruct } from './commands/reconstruct.js';
import { report } from './commands/report.js';
import { trace } from './commands/trace.js';
import { runProgram } from './program.js';

await runProgram(
  [init, check, assess, merge, compare, limits, trace, fit, reconstruct, learn, report],
  process.argv.slice(2),
);
