import { EXIT, type ExitCode } from './exit-codes.js';
import { complain } from './streams.js';

/** Prints what is wrong, one message after the other, and gives the exit code of a refusal. */
export function refuse(...messages: readonly string[]): ExitCode {
  for (const message of messages) complain(message);
  return EXIT.refused;
}
