#!/usr/bin/env node
/** The program's table of contents: its commands, each in a folder of its own. */
import { assess } from './commands/assess/assess.js';
import { check } from './commands/check/check.js';
import { compare } from './commands/compare/compare.js';
import { fit } from './commands/fit/fit.js';
import { init } from './commands/init/init.js';
import { inputs } from './commands/inputs/inputs.js';
import { learn } from './commands/learn/learn.js';
import { limits } from './commands/limits/limits.js';
import { merge } from './commands/merge/merge.js';
import { reconstruct } from './commands/reconstruct/reconstruct.js';
import { report } from './commands/report/report.js';
import { trace } from './commands/trace/trace.js';
import { runProgram } from './program.js';

await runProgram(
  [init, inputs, check, assess, merge, compare, limits, trace, fit, reconstruct, learn, report],
  process.argv.slice(2),
);
