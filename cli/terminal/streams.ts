/** Standard streams: stdout carries data, stderr carries progress and complaints. */
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { styleText } from 'node:util';

export function print(text: string): void {
  process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
}

export function complain(text: string): void {
  process.stderr.write(`${text}\n`);
}

/** Characters in a write: few calls to the system, little memory. */
const CHUNK = 65_536;

/** Joins small pieces of text to chunks worth writing; bytes go as they come. */
export function* inChunks(pieces: Iterable<string | Uint8Array>): Generator<string | Uint8Array> {
  let chunk = '';
  for (const piece of pieces) {
    if (typeof piece === 'string') chunk += piece;
    if (chunk !== '' && (chunk.length >= CHUNK || typeof piece !== 'string')) {
      yield chunk;
      chunk = '';
    }
    if (typeof piece !== 'string') yield piece;
  }
  if (chunk !== '') yield chunk;
}

/** Writes pieces to stdout, waiting where the reader is slow. Ends quietly when the reader has gone. */
export async function printPieces(pieces: Iterable<string>): Promise<void> {
  try {
    await pipeline(Readable.from(inChunks(pieces)), process.stdout, { end: false });
  } catch (error) {
    if (!isClosedPipe(error)) throw error;
  }
}

/** A reader that has seen enough, as `head`, closes the pipe: no reason for a message. */
export function forgiveClosedPipe(): void {
  for (const stream of [process.stdout, process.stderr]) {
    stream.on('error', (error) => {
      if (!isClosedPipe(error)) throw error;
    });
  }
}

function isClosedPipe(error: unknown): boolean {
  return error instanceof Error && 'code' in error && (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED');
}

export type Paint = (style: 'bold' | 'yellow' | 'dim', text: string) => string;

/** Colours only on a terminal, and not where NO_COLOR asks for none. */
export function paintFor(stream: NodeJS.WriteStream): Paint {
  const wanted = stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb';
  return wanted ? (style, text) => styleText(style, text, { validateStream: false }) : (_style, text) => text;
}
