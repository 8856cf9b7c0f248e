/** Interrupt: the first Ctrl-C ends the flying, and the command says what is kept; a second Ctrl-C quits at once. */
import { EXIT } from './exit-codes.js';
import { complain } from './streams.js';

export interface Interrupt {
  readonly stop: AbortSignal;
  /** Gives Ctrl-C its usual meaning back. */
  release(): void;
}

export function listenForInterrupt(): Interrupt {
  const controller = new AbortController();
  const onSignal = () => {
    if (controller.signal.aborted) process.exit(EXIT.interrupted);
    controller.abort();
    complain('\nStopping after the flights under way. Press Ctrl-C again to quit at once.');
  };
  process.on('SIGINT', onSignal);
  process.on('SIGTERM', onSignal);
  return {
    stop: controller.signal,
    release() {
      process.off('SIGINT', onSignal);
      process.off('SIGTERM', onSignal);
    },
  };
}
