/** Hands an assessment over: files, stdout, and the exit code that says the verdict. */
import { flightsCsv } from '../sim/result/csv.js';
import { resultJson } from '../sim/result/json.js';
import type { AssessResult } from '../sim/result/result.js';
import { again } from './again.js';
import type { Given } from './command.js';
import { EXIT, type ExitCode } from './exit-codes.js';
import { writeWhole } from './outputs.js';
import type { Parsed } from './parsed.js';
import { refuse } from './refuse.js';
import { assessSummary, verdictLines } from './terminal/assess-summary.js';
import { labelled } from './terminal/layout.js';
import { paintFor, print, printPieces } from './terminal/streams.js';

export interface Delivery {
  readonly json: boolean;
  readonly quiet: boolean;
  readonly file: string;
  readonly given: Given;
}

export async function deliver(
  result: AssessResult,
  paths: readonly string[],
  { json, quiet, file, given }: Delivery,
): Promise<ExitCode> {
  for (const path of paths) {
    const written = await writeView(result, path);
    if (written.status === 'refused') return refuse(...written.messages);
  }
  const paint = paintFor(process.stdout);
  if (json) await printPieces(resultJson(result));
  else if (quiet) print(verdictLines(result, paint).join('\n'));
  else {
    const files = paths.length > 0 ? labelled('Written:', paths.join(' ')) : [];
    const repeat = labelled('Again:', again('assess', file, given));
    print([...assessSummary(result, paint), ...files, ...repeat].join('\n'));
  }
  if (result.partial) return EXIT.interrupted;
  return result.overall === 'within' ? EXIT.done : EXIT.notWithin;
}

/** Each file is a view of the result; its extension says which. */
async function writeView(result: AssessResult, path: string): Promise<Parsed<string>> {
  if (path.endsWith('.json')) return writeWhole(path, resultJson(result));
  if (path.endsWith('.csv')) return writeWhole(path, flightsCsv(result));
  const { renderReport } = await import('../report/render.js');
  return writeWhole(path, [await renderReport(result)]);
}
