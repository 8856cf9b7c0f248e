/**
 * A part of a study, or an unfinished one: what study it is of, and whether parts make one study. All that decides the
 * bytes of a result is compared, so that no two studies are mixed.
 */

import type { Versions } from '../../basics/versions.js';
import type { HeightsRequest } from '../../decision/height-grid.js';
import { inputDifferences } from '../../scenario/input-differences.js';
import type { Scenario } from '../../scenario/scenario.js';
import type { AssessOptions } from '../plan.js';

/** A part by its number, from 1, and the number of parts. */
export interface PartNumber {
  readonly number: number;
  readonly of: number;
}

/** What decides the bytes of a result. */
export interface StudyAsked {
  readonly versions: Versions;
  readonly scenario: Scenario;
  readonly options: AssessOptions;
}

export interface Part extends StudyAsked {
  /** Null for an unfinished study that is not divided. */
  readonly part: PartNumber | null;
  /** Whether all flights of the part were flown. */
  readonly whole: boolean;
  /** What files about the study are called where nothing else is said. */
  readonly name: string;
}

export interface PartFile {
  readonly path: string;
  readonly part: Part;
}

export function partName({ number, of }: PartNumber): string {
  return `${number}/${of}`;
}

/** In what one study differs from another: "seed 2, not 1"; empty where both give the same bytes. */
export function studyDifferences(one: StudyAsked, other: StudyAsked): readonly string[] {
  const [mine, others] = [asTexts(one), asTexts(other)];
  const told = Object.keys(mine).flatMap((what) =>
    mine[what] === others[what] ? [] : [`${what} ${mine[what]}, not ${others[what]}`],
  );
  return [...told, ...scenarioDifferences(one.scenario, other.scenario)];
}

function asTexts({ versions, options }: StudyAsked): Readonly<Record<string, string>> {
  const { seed, flights, until, heights, overrides, assurance, date } = options;
  return {
    fallmargin: versions.program,
    'schema of results': String(versions.resultSchema),
    'scheme of draws': String(versions.drawScheme),
    Node: versions.node,
    seed: `"${seed}"`,
    flights: until === undefined ? String(flights) : 'as many as --until needs',
    '--until': shareText(until),
    heights: heightsText(heights),
    '--set': overrides.length === 0 ? 'nothing' : overrides.join(', '),
    '--assurance': shareText(assurance),
    date: date === undefined ? 'none' : `"${date}"`,
  };
}

function shareText(share: number | undefined): string {
  return share === undefined ? 'none' : `${Number((100 * share).toPrecision(6))} %`;
}

function heightsText(request: HeightsRequest): string {
  if (request.kind === 'standard') return 'searched for';
  return request.kind === 'planned' ? 'the planned one' : `${request.heights.join(', ')} m`;
}

const MOST_TOLD = 3;

function scenarioDifferences(one: Scenario, other: Scenario): readonly string[] {
  if (JSON.stringify(one) === JSON.stringify(other)) return [];
  if (one.title !== other.title) return [`scenario "${one.title}", not "${other.title}"`];
  const entries = inputDifferences(one, other);
  if (entries.length === 0) return ['other notes, sources or units in the scenario'];
  const told = entries
    .slice(0, MOST_TOLD)
    .map(({ path, a, b }) => `${path} ${a ?? 'left out'}, not ${b ?? 'left out'}`);
  const more = entries.length - told.length;
  return more > 0 ? [...told, `and ${more} more entries of the scenario`] : told;
}

/** Everything that keeps these files from being one study, file by file; empty where they are. */
export function problemsOfParts(files: readonly PartFile[], present: Versions): readonly string[] {
  const strangers = files.flatMap(({ path, part }) => strangeness(path, part));
  if (strangers.length > 0) return strangers;
  const standard = mostCommon(files);
  const others = files.flatMap(({ path, part }) => {
    const { of } = part.part as PartNumber;
    const whole = (standard.part.part as PartNumber).of;
    const divided = of === whole ? [] : [`divided into ${of}, not ${whole}`];
    const differences = [...studyDifferences(part, standard.part), ...divided];
    return differences.length === 0
      ? []
      : [`${path} is of another study than ${standard.path}: ${differences.join('; ')}.`];
  });
  if (others.length > 0) return others;
  const versions = studyDifferences({ ...standard.part, versions: present }, standard.part);
  if (versions.length > 0)
    return [`This is another program than the one that flew the parts: ${versions.join('; ')}. Merge with the same.`];
  return [...doubled(files), ...missing(files)];
}

/** What is no finished part of a divided study. */
function strangeness(path: string, { part, whole }: Part): readonly string[] {
  if (part === null)
    return [`${path} is an unfinished study, no part of a divided one; go on with it by assess --resume ${path}.`];
  if (whole) return [];
  return [
    `${path} is part ${partName(part)}, but not flown to its end; finish it with assess --part ${partName(part)} --resume ${path}.`,
  ];
}

/** A file of the study that most of the files are of, so that the odd one out is named. */
function mostCommon(files: readonly PartFile[]): PartFile {
  const groups = new Map<string, PartFile[]>();
  for (const file of files) {
    const { versions, scenario, part } = file.part;
    const key = JSON.stringify([versions, scenario, asTexts(file.part), part?.of]);
    groups.set(key, [...(groups.get(key) ?? []), file]);
  }
  return [...groups.values()].reduce((most, group) => (group.length > most.length ? group : most))[0];
}

function doubled(files: readonly PartFile[]): readonly string[] {
  const first = new Map<number, string>();
  return files.flatMap(({ path, part }) => {
    const number = part.part as PartNumber;
    const before = first.get(number.number);
    if (before === undefined) first.set(number.number, path);
    return before === undefined ? [] : [`Part ${partName(number)} is there twice: ${before} and ${path}.`];
  });
}

function missing(files: readonly PartFile[]): readonly string[] {
  const { of } = files[0].part.part as PartNumber;
  const there = new Set(files.map(({ part }) => part.part?.number));
  const lacking = Array.from({ length: of }, (_, index) => index + 1).filter((number) => !there.has(number));
  if (lacking.length === 0) return [];
  const [is, s] = lacking.length === 1 ? ['is', ''] : ['are', 's'];
  return [`Part${s} ${inRuns(lacking)} of ${of} ${is} missing.`];
}

/** Ascending numbers in short: "2, 5 to 9". */
function inRuns(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const number of numbers) {
    const last = runs[runs.length - 1];
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  return runs
    .map(([from, to]) => (from === to ? `${from}` : from + 1 === to ? `${from}, ${to}` : `${from} to ${to}`))
    .join(', ');
}
