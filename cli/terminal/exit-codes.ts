/** Exit codes: what the program's end says to a script, and the refusal of a command line. */
import type { Refused } from '../../sim/basics/answer.js';
import { complain } from './streams.js';

/** Codes by what happened. */
export const EXIT = {
  /** Done, and the verdict is "within" where the command gives one. */
  done: 0,
  /** Done, and the verdict is "above" or "not shown", or the craft does not fly at all. */
  notWithin: 1,
  /** Bad usage, scenario or file; nothing of somebody else's is overwritten. */
  refused: 2,
  /** A bug in the program. */
  bug: 70,
  /** Interrupted by Ctrl-C; what was flown is kept and marked partial. */
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** How a command ends: done as the code says, or refused with sentences that are still to be printed. */
export type CommandEnd = ExitCode | Refused;

export const EXIT_CODES_HELP = `Exit codes:
  0    done; check: the thrust exceeds the weight;
       assess, merge: every criterion is within its limit
       at the planned height; compare: the second is not
       shown to be worse and keeps its limits; limits: in
       some cell a height is shown to keep every limit
  1    done, and not so
  2    bad usage, scenario or file, with what to write
       instead
  70   a bug in the program
  130  interrupted by Ctrl-C; what was flown is kept and
       marked partial`;

/** Prints what is wrong, one message after the other, and gives the exit code of a refusal. */
export function refuse(...messages: readonly string[]): ExitCode {
  for (const message of messages) complain(message);
  return EXIT.refused;
}
