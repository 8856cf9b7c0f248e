/** Hands an assessment over: files, stdout, and the exit code that says the verdict. */
import { flightsCsv } from '../../../sim/assess/csv.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import type { Answer } from '../../../sim/basics/answer.js';
import { resultJson } from '../../../sim/basics/result-json.js';
import { writeWhole } from '../../outputs/outputs.js';
import { EXIT, type ExitCode } from '../../terminal/exit-codes.js';
import { labelled } from '../../terminal/layout.js';
import { refuse } from '../../terminal/refuse.js';
import { paintFor, print, printPieces } from '../../terminal/streams.js';
import { assessPage } from './page.js';
import { assessSummary, quietLines } from './summary.js';

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
async function writeView(result: AssessResult, path: string): Promise<Answer<string>> {
  if (path.endsWith('.json')) return writeWhole(path, resultJson(result));
  if (path.endsWith('.csv')) return writeWhole(path, flightsCsv(result));
  return writeWhole(path, [await assessPage(result)]);
}
