/** stdout carries data, stderr progress and complaints. */
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { styleText } from 'node:util';
import { inChunks } from './chunks.js';

export function print(text: string): void {
  process.stdout.write(text.endsWith('\n') ? text : `${text}\n`);
}

export function complain(text: string): void {
  process.stderr.write(`${text}\n`);
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

export type Paint = (style: 'bold' | 'green' | 'red' | 'yellow' | 'dim', text: string) => string;

/** Colours only on a terminal, and not where NO_COLOR asks for none. */
export function paintFor(stream: NodeJS.WriteStream): Paint {
  const wanted = stream.isTTY === true && !process.env.NO_COLOR && process.env.TERM !== 'dumb';
  return wanted ? (style, text) => styleText(style, text, { validateStream: false }) : (_style, text) => text;
}
