/** Interrupt: the first Ctrl-C ends the flying, and the command says what is kept; a second Ctrl-C quits at once. */
import { EXIT } from './exit-codes.js';
import { complain } from './streams.js';

/** Does what a first Ctrl-C stops; afterwards Ctrl-C has its usual meaning again. */
export async function untilInterrupted<T>(work: (stop: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const onSignal = () => {
    if (controller.signal.aborted) process.exit(EXIT.interrupted);
    controller.abort();
    complain('\nStopping after the flights under way. Press Ctrl-C again to quit at once.');
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
  try {
    return await work(controller.signal);
  } finally {
    process.off('SIGINT', onSignal);
    process.off('SIGTERM', onSignal);
  }
}
