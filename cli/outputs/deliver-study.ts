/** Hands a comparison or a day card over: files, and the summary or the result on stdout. */

import { type Answer, ok } from '../../sim/basics/answer.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { labelled } from '../terminal/layout.js';
import { type Paint, paintFor, print, printPieces } from '../terminal/streams.js';
import { writeWhole } from './outputs.js';

export interface StudyDelivery<R extends object> {
  readonly result: R;
  /** Files to write, by their extension. */
  readonly paths: readonly string[];
  readonly json: boolean;
  readonly quiet: boolean;
  /** The command that repeats it. */
  readonly repeat: string;
  readonly render: (result: R) => Promise<string>;
  /** For a terminal: in full, and the verdict alone. */
  readonly summary: (result: R, paint: Paint) => readonly string[];
  readonly verdict: (result: R, paint: Paint) => readonly string[];
}

export async function deliverStudy<R extends object>(study: StudyDelivery<R>): Promise<Answer<readonly string[]>> {
  const { result, paths, json, quiet, repeat, render, summary, verdict } = study;
  for (const path of paths) {
    const written = await writeWhole(path, path.endsWith('.json') ? resultJson(result) : [await render(result)]);
    if (written.status === 'refused') return written;
  }
  const paint = paintFor(process.stdout);
  if (json) await printPieces(resultJson(result));
  else if (quiet) print(verdict(result, paint).join('\n'));
  else {
    const files = paths.length > 0 ? labelled('Written:', paths.join(' ')) : [];
    print([...summary(result, paint), ...files, ...labelled('Again:', repeat)].join('\n'));
  }
  return ok(paths);
}
