/** The files of parts and of unfinished studies on this disk. */
import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';
import {
  type Part,
  type PartFile,
  type PartNumber,
  partName,
  problemsOfParts,
  type StudyAsked,
  studyDifferences,
} from '../../../sim/assess/parts/part.js';
import { type Bytes, readPart } from '../../../sim/assess/parts/part-file.js';
import { type Answer, ok, prefixed, refused } from '../../../sim/basics/answer.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import type { Entry } from '../../../sim/ensemble/logbook.js';
import { createLogbook, inMemory, type Logbook } from '../../../sim/ensemble/logbook.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { inWords, isFileTrouble } from '../../outputs/outputs.js';

export interface OpenedPart extends PartFile {
  readonly entries: readonly Entry[];
}

/** Reads the head and checks every byte; flights are read from the disk when they are asked for. */
export function openPart(path: string): Answer<OpenedPart> {
  try {
    if (!statSync(path).isFile()) return refused(`"${path}" is no file.`);
    const read = prefixed(`${path}: `, readPart(bytesOf(path)));
    return read.status === 'ok' ? ok({ path, ...read.value }) : read;
  } catch (error) {
    if (!isFileTrouble(error)) throw error;
    return refused(`"${path}" could not be read: ${inWords(error)}.`);
  }
}

/** Opened for each piece that is read, so that any number of files can be at hand. */
function bytesOf(path: string): Bytes {
  const within = <T>(use: (file: number) => T): T => {
    const file = openSync(path, 'r');
    try {
      return use(file);
    } finally {
      closeSync(file);
    }
  };
  return {
    size: within((file) => fstatSync(file).size),
    read: (start, length) =>
      within((file) => {
        const bytes = Buffer.alloc(length);
        for (let done = 0; done < length; ) {
          const more = readSync(file, bytes, done, length - done, start + done);
          if (more === 0) throw new Error(`${path} became shorter while it was read`);
          done += more;
        }
        return bytes;
      }),
  };
}

/** What a study goes on from: all flights of the file in memory. Refused where it is of another study. */
export function resumeFrom(path: string, asked: StudyAsked, part: PartNumber | null): Answer<Logbook> {
  const opened = openPart(path);
  if (opened.status === 'refused') return opened;
  const { part: found, entries } = opened.value;
  const differences = [...partDifferences(found.part, part), ...studyDifferences(found, asked)];
  if (differences.length > 0)
    return refused(
      `${path} is of another study than the one asked for: ${differences.join('; ')}. Ask for the same, or leave out --resume.`,
    );
  const logbook = createLogbook();
  for (const entry of entries) logbook.enter({ ...entry, source: inMemory(entry.source.load()) });
  return ok(logbook);
}

function partDifferences(found: PartNumber | null, asked: PartNumber | null): readonly string[] {
  const name = (one: PartNumber | null) => (one === null ? 'the undivided study' : `part ${partName(one)}`);
  return name(found) === name(asked) ? [] : [`${name(found)}, not ${name(asked)}`];
}

/** Whether the file holds flights of this very study and part. */
export function holdsStudy(path: string, asked: StudyAsked, part: PartNumber | null): boolean {
  const opened = openPart(path);
  if (opened.status === 'refused') return false;
  const { part: found } = opened.value;
  return partDifferences(found.part, part).length === 0 && studyDifferences(found, asked).length === 0;
}

export interface PartsTogether {
  readonly study: Pick<Part, 'scenario' | 'options' | 'name'> & { readonly scenario: Scenario };
  readonly logbook: Logbook;
}

/** All parts of a study as a single logbook; refused with everything that shows them to be parts of different studies. */
export function putTogether(paths: readonly string[]): Answer<PartsTogether> {
  const opened = paths.map(openPart);
  const unread = opened.flatMap((one) => (one.status === 'refused' ? one.messages : []));
  if (unread.length > 0) return refused(...unread);
  const files = opened.flatMap((one) => (one.status === 'ok' ? [one.value] : []));
  const problems = problemsOfParts(files, presentVersions());
  if (problems.length > 0) return refused(...problems);
  const logbook = createLogbook();
  const contradicting = files.filter(({ entries }) => !entries.map((entry) => logbook.enter(entry)).every(Boolean));
  if (contradicting.length > 0)
    return refused(
      ...contradicting.map(
        ({ path }) =>
          `${path} has other outcomes than the parts before it in flights that all parts fly: fly it again.`,
      ),
    );
  return ok({ study: files[0].part, logbook });
}
