/** Hands over what data said: files, stdout, exit code. */
import { resultJson } from '../../sim/basics/result-json.js';
import { type Given, givenFlag } from '../arguments/command.js';
import { EXIT, type ExitCode } from '../terminal/exit-codes.js';
import { labelled } from '../terminal/layout.js';
import { refuse } from '../terminal/refuse.js';
import { print, printPieces } from '../terminal/streams.js';
import { planOutputs, writeWhole } from './outputs.js';

export interface EvidenceRequest<R extends object> {
  readonly result: R;
  /** What the files are called where --out does not say. */
  readonly base: string;
  readonly out: string | undefined;
  readonly given: Given;
  readonly render: (result: R) => Promise<string>;
  readonly summary: (result: R) => readonly string[];
}

/** Files BASE.html and BASE.json, and the summary on stdout; with --json the result there, and files only with --out. */
export async function deliverEvidence<R extends object>(request: EvidenceRequest<R>): Promise<ExitCode> {
  const { result, base, out, given, render, summary } = request;
  const json = givenFlag(given, 'json');
  const outputs = await planOutputs(out ?? base, json && out === undefined ? [] : ['.html', '.json']);
  if (outputs.status === 'refused') return refuse(...outputs.messages);
  for (const path of outputs.value) {
    const pieces = path.endsWith('.json') ? resultJson(result) : [await render(result)];
    const written = await writeWhole(path, pieces);
    if (written.status === 'refused') return refuse(...written.messages);
  }
  if (json) await printPieces(resultJson(result));
  else {
    const files = outputs.value.length > 0 ? labelled('Written:', outputs.value.join(' ')) : [];
    print([...summary(result), ...(givenFlag(given, 'quiet') ? [] : files)].join('\n'));
  }
  return EXIT.done;
}
