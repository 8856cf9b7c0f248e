/** Hands a result over: files, and its summary or its JSON on stdout. */
import { statSync } from 'node:fs';
import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { type Given, givenFlag } from '../arguments/command.js';
import { CAUTION_LINES } from '../terminal/caution.js';
import { type CommandEnd, EXIT } from '../terminal/exit-codes.js';
import { labelled } from '../terminal/layout.js';
import { type Paint, paintFor, print, printPieces } from '../terminal/streams.js';
import { type Extension, planOutputs, writeWhole } from './outputs.js';

export interface Delivery<R extends object> {
  readonly result: R;
  /** Files to write; the extension says which view of the result each holds. */
  readonly paths: readonly string[];
  /** The result itself on stdout instead of the lines. */
  readonly json: boolean;
  readonly page: (result: R) => Promise<string>;
  readonly csv?: (result: R) => Iterable<string>;
  /** What a terminal shows, and the lines that name the files written. */
  readonly lines: (result: R, paint: Paint, files: readonly string[]) => readonly string[];
}

/**
 * The files for a result, every path checked, and no file that is there already: a study that was flown is not lost by flying
 * another. None where --json sends it to stdout and --out names no files for it.
 *
 * @param out what --out says
 * @param base what the files are called where --out was not given
 */
export function planResultFiles(
  given: Given,
  out: string | undefined,
  base: string,
): Promise<Answer<readonly string[]>> {
  const onlyPrinted = givenFlag(given, 'json') && out === undefined;
  const views: readonly Extension[] = givenFlag(given, 'csv') ? ['.html', '.json', '.csv'] : ['.html', '.json'];
  return planNewFiles(given, out, base, onlyPrinted ? [] : views);
}

/**
 * Paths that nothing stands at: those of --out, refused where a file is there; else BASE, BASE-2, BASE-3 and so on. With --force
 * the first names, whatever is there.
 */
export async function planNewFiles(
  given: Given,
  out: string | undefined,
  base: string,
  views: readonly Extension[],
): Promise<Answer<readonly string[]>> {
  for (let turn = 1; ; turn++) {
    const planned = await planOutputs(out ?? base, views, turn === 1 ? '' : `-${turn}`);
    if (planned.status === 'refused' || givenFlag(given, 'force')) return planned;
    const there = planned.value.filter(holdsSomething);
    if (there.length === 0) return planned;
    if (out !== undefined)
      return refused(
        `${there.join(' and ')} ${there.length === 1 ? 'is' : 'are'} there already and ${there.length === 1 ? 'was' : 'were'} left as before; choose another --out, or overwrite with --force.`,
      );
  }
}

/** What --out would say for these files. */
export function stemOf(paths: readonly string[]): string {
  return (paths[0] ?? '').replace(/\.[a-z]+$/, '');
}

function holdsSomething(path: string): boolean {
  return (statSync(path, { throwIfNoEntry: false })?.size ?? 0) > 0;
}

/** The files written. The answer is printed even where a file could not be written, as on a disk that is full. */
export async function deliver<R extends object>(delivery: Delivery<R>): Promise<Answer<readonly string[]>> {
  const { result, paths, json, lines } = delivery;
  const written: string[] = [];
  const lost: string[] = [];
  for (const path of paths) {
    const file = await writeWhole(path, await viewOf(path, delivery));
    if (file.status === 'ok') written.push(path);
    else lost.push(...file.messages);
  }
  if (json) await printPieces(resultJson(result));
  else {
    const files = written.length > 0 ? labelled('Written:', written.join(' ')) : [];
    print([...lines(result, paintFor(process.stdout), files), ...CAUTION_LINES].join('\n'));
  }
  return lost.length > 0 ? refused(...lost) : ok(written);
}

async function viewOf<R extends object>(path: string, { result, page, csv }: Delivery<R>): Promise<Iterable<string>> {
  if (path.endsWith('.json')) return resultJson(result);
  return path.endsWith('.csv') && csv !== undefined ? csv(result) : [await page(result)];
}

export interface Evidence<R extends object> {
  readonly result: R;
  /** What the files are called where --out does not say. */
  readonly base: string;
  readonly out: string | undefined;
  readonly given: Given;
  readonly page: (result: R) => Promise<string>;
  readonly summary: (result: R, paint: Paint) => readonly string[];
}

/** What data said: files BASE.html and BASE.json, and the summary on stdout; with --json the result there, and files only with --out. */
export async function deliverEvidence<R extends object>(evidence: Evidence<R>): Promise<CommandEnd> {
  const { result, base, out, given, page, summary } = evidence;
  const outputs = await planResultFiles(given, out, base);
  if (outputs.status === 'refused') return outputs;
  const delivered = await deliver({
    result,
    paths: outputs.value,
    json: givenFlag(given, 'json'),
    page,
    lines: (_result, paint, files) => [...summary(result, paint), ...(givenFlag(given, 'quiet') ? [] : files)],
  });
  return delivered.status === 'refused' ? delivered : EXIT.done;
}
