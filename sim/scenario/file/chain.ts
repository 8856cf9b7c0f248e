/** The chain of a scenario file: the file itself, the file that it extends, the file that this extends, and so on. */
import { basename, dirname, isAbsolute, join, resolve } from 'node:path';
import { nearestName } from '../../basics/nearest-name.js';
import type { Files } from './files.js';
import { type Place, quoted, type Report } from './problem.js';
import { describeWritten, entryOf, parseWritten, type WrittenMap } from './written.js';

export interface SourceFile {
  /** As shown in messages: as given, or relative to where the extending file was given. */
  readonly name: string;
  /** Null where it could not be read. */
  readonly root: WrittenMap | null;
}

export interface Chain {
  /** The named file first, each file before the file that it extends. */
  readonly files: readonly SourceFile[];
  /** False where a file of the chain could not be read, so that nothing can be said about missing entries. */
  readonly complete: boolean;
}

/** Reads a file and, as long as there is an `extends`, the next file. */
export function readChain(path: string, files: Files, report: Report): Chain {
  const chain: SourceFile[] = [];
  let next: { readonly name: string; readonly askedFrom: Place } | null = {
    name: path,
    askedFrom: { file: path, line: 1, column: 1 },
  };
  while (next !== null) {
    const { name, askedFrom } = next;
    if (chain.some((file) => resolve(file.name) === resolve(name))) {
      const round = [...chain.map((file) => basename(file.name)), basename(name)].join(' -> ');
      report(askedFrom, 'extends', `a circle: ${round}`, 'a file that does not lead back to this one');
      return { files: chain, complete: false };
    }
    const root = readRoot(name, askedFrom, chain.length > 0, files, report);
    if (root === 'missing') return { files: chain, complete: false };
    chain.push({ name, root });
    if (root === null) return { files: chain, complete: false };
    const extended = extendedFile(name, root, report);
    if (extended === 'bad') return { files: chain, complete: false };
    next = extended;
  }
  return { files: chain, complete: true };
}

const SCENARIO_FORM = 'a scenario: sections such as "can:" and "plan:"; "fallmargin init" writes one to start from';

/** What a file plainly is that was picked by mistake, so that nothing of it is quoted; null where it may be a scenario. */
function notAScenario(text: string): string | null {
  const start = text.slice(0, 4096);
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters tell bytes from text
  if (/[\u0000-\u0008\u000e-\u001a\u001c-\u001f\ufffd]/.test(start)) return 'bytes that are no text in UTF-8';
  if (/^\ufeff?\s*<(?:!doctype|html|\?xml|svg|!--)/i.test(start)) return 'a web page or other markup';
  return null;
}

function readRoot(
  name: string,
  askedFrom: Place,
  extended: boolean,
  files: Files,
  report: Report,
): WrittenMap | null | 'missing' {
  const read = files.read(name);
  if (read.status === 'no text') {
    const path = extended ? 'extends' : '';
    const scenarios = files.names(dirname(name)).filter((other) => /\.ya?ml$/.test(other) && other !== basename(name));
    const nearest = nearestName(basename(name), scenarios);
    report(askedFrom, path, `${quoted(name)}, ${read.why}`, 'the path of a scenario file', nearest);
    return 'missing';
  }
  const start: Place = { file: name, line: 1, column: 1 };
  const other = notAScenario(read.value);
  if (other !== null) {
    report(start, '', other, SCENARIO_FORM);
    return null;
  }
  let broken = false;
  const root = parseWritten(
    read.value,
    (line, column) => ({ file: name, line, column }),
    (...problem) => {
      broken = true;
      report(...problem);
    },
  );
  if (root === null || (root.form !== 'map' && broken)) return null;
  if (root.form === 'map') return root;
  const empty = root.form === 'scalar' && root.value === null;
  const found = empty ? 'an empty file' : describeWritten(root);
  report(empty ? start : root.place, '', found, SCENARIO_FORM);
  return null;
}

function extendedFile(
  name: string,
  root: WrittenMap,
  report: Report,
): { readonly name: string; readonly askedFrom: Place } | null | 'bad' {
  const entry = entryOf(root, 'extends');
  if (entry === undefined) return null;
  const { value } = entry;
  if (value.form !== 'scalar' || typeof value.value !== 'string' || value.value.trim() === '') {
    report(value.place, 'extends', describeWritten(value), 'the path of one scenario file, relative to this one');
    return 'bad';
  }
  const target = value.value.trim();
  return { name: isAbsolute(target) ? target : join(dirname(name), target), askedFrom: value.place };
}
