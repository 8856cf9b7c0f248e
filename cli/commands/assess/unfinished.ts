/** The file from which an interrupted study goes on: written when it is stopped, and now and then while it flies. */
import { existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import type { Part } from '../../../sim/assess/parts/part.js';
import { partFile } from '../../../sim/assess/parts/part-file.js';
import { type Answer, ok } from '../../../sim/basics/answer.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import { createLogbook, type Logbook } from '../../../sim/ensemble/logbook.js';
import { planOutputs, writeWhole } from '../../outputs/outputs.js';
import { complain } from '../../terminal/streams.js';
import { holdsStudy, resumeFrom } from './part-files.js';

export interface Unfinished {
  readonly logbook: Logbook;
  /** To be called now and then, between flights: writes the file when it is time to, or when the study is stopped. */
  pause(): Promise<void>;
  save(whole: boolean): Promise<Answer<string>>;
  /** The file as last written here; null where it was not. */
  saved(): string | null;
  /** Takes the file away, once everything in it stands in the result. */
  remove(): Promise<void>;
}

/** A kill without warning costs at most this long: seconds of flying, or a multiple of the time that the writing takes. */
const SECONDS = 60;
const TIMES_THE_WRITING = 20;

export interface UnfinishedPlan {
  /** Null where no file is to be written. */
  readonly path: string | null;
  readonly part: Omit<Part, 'whole'>;
  /** What it goes on from. */
  readonly logbook: Logbook | null;
  /** Whether the file to write is the file that the study goes on from. */
  readonly isOwn: boolean;
  readonly stop: AbortSignal;
  /** Seconds; in tests a stand-in. */
  readonly clock?: () => number;
}

export function createUnfinished(plan: UnfinishedPlan): Unfinished {
  const { path, part, stop, clock = () => performance.now() / 1000 } = plan;
  const logbook = plan.logbook ?? createLogbook();
  let due = clock() + SECONDS;
  let saved: string | null = null;
  let savedStopped = false;
  const save = async (whole: boolean): Promise<Answer<string>> => {
    if (path === null) return ok('');
    const start = clock();
    const written = await writeWhole(path, partFile({ ...part, whole }, logbook.entries()));
    const end = clock();
    due = end + Math.max(SECONDS, TIMES_THE_WRITING * (end - start));
    if (written.status === 'ok') saved = path;
    return written;
  };
  return {
    logbook,
    async pause() {
      const stopped = stop.aborted && !savedStopped;
      if (path === null || !(stopped || clock() >= due)) return;
      savedStopped = stop.aborted;
      const written = await save(false);
      if (written.status === 'refused') complain(written.messages.join('\n'));
    },
    save,
    saved: () => saved,
    async remove() {
      if (path !== null && (saved !== null || plan.isOwn)) await rm(path, { force: true });
    },
  };
}

export interface UnfinishedRequest {
  /** Files are named after it. */
  readonly base: string;
  /** False where no files are to be written: then only the file that it goes on from is. */
  readonly isWritten: boolean;
  readonly resume: string | undefined;
  readonly study: Pick<Part, 'scenario' | 'options' | 'part' | 'name'>;
  readonly quiet: boolean;
  readonly stop: AbortSignal;
}

/** The file in which the flights of a study are kept, with the flights that it goes on from; or why there is no such file. */
export async function planUnfinished(request: UnfinishedRequest): Promise<Answer<Unfinished>> {
  const { base, isWritten, resume, study, quiet, stop } = request;
  const { part } = study;
  const suffix = part === null ? '' : `-${part.number}-of-${part.of}`;
  const outputs = await planOutputs(base, isWritten ? ['.part'] : [], suffix);
  if (outputs.status === 'refused') return outputs;
  const path = outputs.value[0] ?? resume ?? null;
  const asked = { ...study, versions: presentVersions() };
  if (resume !== undefined) {
    const known = resumeFrom(resume, asked, part);
    if (known.status === 'refused') return known;
    return ok(createUnfinished({ path, part: asked, logbook: known.value, stop, isOwn: resume === path }));
  }
  if (!quiet && path !== null && existsSync(path) && holdsStudy(path, asked, part))
    complain(`${path} holds flights of this very study: --resume ${path} would go on from them. Flying all anew.`);
  return ok(createUnfinished({ path, part: asked, logbook: null, stop, isOwn: false }));
}
