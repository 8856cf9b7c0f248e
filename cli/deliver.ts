/** Hands an assessment over: files, stdout, and the exit code that says the verdict. */
import { flightsCsv } from '../sim/result/csv.js';
import { resultJson } from '../sim/result/json.js';
import type { AssessResult } from '../sim/result/result.js';
import { assessPage } from './assess-page.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import { writeWhole } from './outputs.js';
import type { Parsed } from './parsed.js';
import { refuse } from './refuse.js';
import { assessSummary, quietLines } from './terminal/assess-summary.js';
import { labelled } from './terminal/layout.js';
import { paintFor, print, printPieces } from './terminal/streams.js';

export interface Delivery {
  readonly json: boolean;
  readonly quiet: boolean;
  /** The command that repeats it; the one that goes on with it, where it was interrupted. */
  readonly repeat: string;
  readonly goOn?: string | undefined;
}

/** The answer is printed even where a file could not be written after all, as on a disk that is full. */
export async function deliver(
  result: AssessResult,
  paths: readonly string[],
  { json, quiet, repeat, goOn }: Delivery,
): Promise<ExitCode> {
  const lost: string[] = [];
  const written: string[] = [];
  for (const path of paths) {
    const view = await writeView(result, path);
    if (view.status === 'ok') written.push(path);
    else lost.push(...view.messages);
  }
  const paint = paintFor(process.stdout);
  if (json) await printPieces(resultJson(result));
  else if (quiet) print(quietLines(result, paint).join('\n'));
  else {
    const files = written.length > 0 ? labelled('Written:', written.join(' ')) : [];
    const next = goOn === undefined ? labelled('Again:', repeat) : labelled('Go on:', goOn);
    print([...assessSummary(result, paint), ...files, ...next].join('\n'));
  }
  if (lost.length > 0) return refuse(...lost);
  if (result.partial) return EXIT.interrupted;
  const met = result.overall === 'within' && (result.assurance?.met ?? true);
  return met ? EXIT.done : EXIT.notWithin;
}

/** Each file is a view of the result; its extension says which. */
async function writeView(result: AssessResult, path: string): Promise<Parsed<string>> {
  if (path.endsWith('.json')) return writeWhole(path, resultJson(result));
  if (path.endsWith('.csv')) return writeWhole(path, flightsCsv(result));
  return writeWhole(path, [await assessPage(result)]);
}
