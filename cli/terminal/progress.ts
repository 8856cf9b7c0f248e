/** Progress on stderr, how far the flying is and how long it will take: a moving line on a terminal, a few lines in a log. */

export interface Progress {
  /** @param phase what is being done, where there are several parts */
  update(done: number, total: number, phase?: string): void;
  end(): void;
}

/** Where progress goes: stderr, or a stand-in in a test. */
export interface ProgressStream {
  readonly isTTY?: boolean;
  write(text: string): unknown;
}

export const NO_PROGRESS: Progress = { update() {}, end() {} };

/** Seconds between two drawings on a terminal. */
const REDRAW = 0.1;
/** A log hears at the start, after 30 s, then after 60, 120, 240 s and so on: few lines however long it takes. */
const FIRST_LOG_LINE = 30;
/** Share flown before the time left is guessed: the first flights warm up and say little. */
const ENOUGH_FOR_TIME = 0.03;

/**
 * @param what what is counted, such as "flights at each of 10 heights"
 * @param clock seconds; in tests a stand-in
 */
export function createProgress(
  stream: ProgressStream,
  what: string,
  clock: () => number = () => performance.now() / 1000,
): Progress {
  const start = clock();
  let next = stream.isTTY ? start : start + FIRST_LOG_LINE;
  let drawn = false;
  if (!stream.isTTY) stream.write('Flying; a line now and then says how far it is.\n');
  return {
    update(done, total, phase) {
      const now = clock();
      if (now < next) return;
      const left = done >= ENOUGH_FOR_TIME * total && done > 0 ? ((now - start) * (total - done)) / done : Number.NaN;
      const line = `${phase === undefined ? '' : `${phase}: `}${done} of about ${rounded(done, total)} ${what}, ${Math.floor((100 * done) / total)} %${timeLeft(left)}`;
      if (stream.isTTY) {
        stream.write(`\r\u001b[K${line}`);
        next = now + REDRAW;
      } else {
        stream.write(`${line}\n`);
        next = start + 2 * (now - start);
      }
      drawn = true;
    },
    end() {
      if (stream.isTTY && drawn) stream.write('\r\u001b[K');
    },
  };
}

/** Three digits say how many to come; never fewer than there are. */
function rounded(done: number, total: number): number {
  return Math.max(done, Number(total.toPrecision(3)));
}

function timeLeft(seconds: number): string {
  if (Number.isNaN(seconds)) return '';
  if (seconds < 90) return `, about ${Math.ceil(seconds)} s left`;
  return seconds < 5400
    ? `, about ${Math.round(seconds / 60)} min left`
    : `, about ${(seconds / 3600).toFixed(1)} h left`;
}
