/** Reads an input, a quantity or a chance: a bare value, a value with provenance, a distribution, samples or trials. */

import { nearestName } from '../../basics/nearest-name.js';
import type { Distribution, FixedValue, UncertainValue } from '../../distributions/distribution.js';
import type { Chance, Quantity } from '../definition/shapes.js';
import type { Learnt, ResolvedInput } from '../scenario.js';
import { BOUND_KEYS, bounded } from './bounds.js';
import { oneFamily, readDistribution, refuseUnknown } from './distribution.js';
import { FAMILY_NAMES } from './families.js';
import { readKind, UNMEASURED } from './kind.js';
import { cleanText } from './problem.js';
import type { InputAsked } from './range.js';
import { type Asked, numberRange, readValue } from './range.js';
import { readSamples } from './samples.js';
import { describeWritten, entryOf, type Written, type WrittenMap } from './written.js';

export const SOURCES = ['measured', 'datasheet', 'guess', 'learnt'] as const;
/** Keys that belong to what was learnt, and to nothing else. */
const LEARNT_KEYS = ['logs', 'spread_left'] as const;

/** What a file says of an input. */
export interface GivenInput {
  readonly value: FixedValue | UncertainValue;
  readonly source: ResolvedInput['source'];
  readonly note: string;
  readonly written: string;
  readonly learnt?: Learnt;
}

const CHANCE_KIND = {
  kind: UNMEASURED,
  why: 'the event varies from flight to flight, its chance is one number that nobody knows',
} as const;

/** The keys that an input may have when it is written as a section. */
export function inputKeys(leaf: Quantity | Chance): readonly string[] {
  if (leaf.shape === 'quantity' && leaf.fixed === true) return ['value', 'source', 'note'];
  const trials = leaf.shape === 'chance' ? ['trials', 'failures'] : [];
  return ['value', ...FAMILY_NAMES, 'samples', ...trials, ...BOUND_KEYS, 'kind', 'source', ...LEARNT_KEYS, 'note'];
}

/** Reads an input; null after a report. */
export function readInput(written: Written, leaf: Quantity | Chance, asked: InputAsked): GivenInput | null {
  const decided = leaf.shape === 'quantity' && leaf.fixed === true;
  const unsaid = decided ? 'decided' : 'not said';
  if (leaf.perfect !== undefined) {
    const none = readNone(written, leaf.perfect, asked);
    if (none !== undefined) return none;
  }
  if (written.form !== 'map') {
    const value = readValue(written, asked);
    if (value === null || written.form !== 'scalar') return null;
    return { value: { form: 'fixed', value }, source: unsaid, note: '', written: written.source };
  }
  const map = decided ? withoutDistribution(written, asked) : written;
  if (map === null) return null;
  const unknown = refuseUnknown(map, inputKeys(leaf), asked);
  const source = readSource(map, asked);
  const learnt = readLearnt(map, source === 'learnt', asked);
  const note = readNote(map, asked);
  const value = readForm(map, leaf, asked, unknown);
  if (unknown || source === null || learnt === null || note === null || value === null) return null;
  const from = learnt === undefined ? {} : { learnt };
  return { value, source: source ?? unsaid, note, written: onOneLine(map), ...from };
}

/** "none" with its reason, for what would otherwise be taken as perfect in silence; undefined where it is not "none". */
function readNone(written: Written, perfect: string, asked: Asked): GivenInput | null | undefined {
  const isNone = (one: Written | undefined) => one?.form === 'scalar' && one.value === 'none';
  const map = written.form === 'map' ? written : null;
  if (!isNone(written) && (map === null || !isNone(entryOf(map, 'value')?.value))) return undefined;
  const note = map === null ? '' : readNote(map, asked);
  const others = map?.entries.filter(({ key }) => key !== 'value' && key !== 'note' && key !== 'source') ?? [];
  if (note === '' || others.length > 0) {
    asked.report(
      written.place,
      asked.path,
      others.length > 0 ? `"none" beside "${others[0].key}"` : '"none" without a reason',
      `{ value: none, note: why ${perfect} }, or a law, or trials and failures`,
    );
    return null;
  }
  const source = map === null ? undefined : readSource(map, asked);
  if (note === null || source === null) return null;
  return { value: { form: 'fixed', value: 0 }, source: source ?? 'decided', note, written: 'none' };
}

/** A decision may not have a distribution; null after a report. */
function withoutDistribution(map: WrittenMap, { path, report }: Asked): WrittenMap | null {
  const uncertain = map.entries.find(({ key }) => key === 'samples' || FAMILY_NAMES.some((name) => name === key));
  if (uncertain === undefined) return map;
  report(uncertain.keyPlace, path, `a distribution for what is a decision or a rule`, 'one value');
  return null;
}

type Form = 'value' | 'samples' | 'trials' | 'family';

function readForm(
  map: WrittenMap,
  leaf: Quantity | Chance,
  asked: InputAsked,
  unknown: boolean,
): FixedValue | UncertainValue | null {
  const forms: readonly Form[] = [
    ...(['value', 'samples'] as const).filter((key) => entryOf(map, key) !== undefined),
    ...(leaf.shape === 'chance' && (entryOf(map, 'trials') ?? entryOf(map, 'failures')) ? ['trials' as const] : []),
    ...(map.entries.some(({ key }) => FAMILY_NAMES.some((name) => name === key)) ? ['family' as const] : []),
  ];
  if (forms.length > 1) {
    asked.report(
      map.place,
      asked.path,
      `${forms.map((form) => (form === 'family' ? 'a distribution' : `"${form}"`)).join(' and ')} at once`,
      'one of them',
    );
    return null;
  }
  if (forms[0] === 'value') return readFixed(map, asked);
  const distribution = readAny(map, forms[0], leaf, asked, unknown);
  const kind = forms.length === 0 ? null : readKind(map, asked, leaf.shape === 'chance' ? CHANCE_KIND : undefined);
  return distribution === null || kind === null ? null : bounded(map, distribution, kind, asked);
}

function readAny(
  map: WrittenMap,
  form: Form | undefined,
  leaf: Quantity | Chance,
  asked: InputAsked,
  unknown: boolean,
): Distribution | null {
  if (form === 'trials') return readTrials(map, asked);
  if (form !== 'samples') {
    const others = leaf.shape === 'chance' ? ['value', 'trials', 'samples'] : ['value', 'samples'];
    const named = oneFamily(map, others, asked, unknown);
    return named === null ? null : readDistribution(named, { ...asked, path: `${asked.path}.${named.family}` });
  }
  const entry = entryOf(map, 'samples');
  const values = entry === undefined ? null : readSamples(entry.value, { ...asked, path: `${asked.path}.samples` });
  return values === null ? null : { family: 'samples', values };
}

function readFixed(map: WrittenMap, asked: Asked): FixedValue | null {
  const needless = map.entries.filter(({ key }) => key === 'kind' || BOUND_KEYS.some((name) => name === key));
  for (const { key, keyPlace } of needless) {
    asked.report(keyPlace, asked.path, `"${key}" beside one value`, 'a distribution, or a value alone');
  }
  const entry = entryOf(map, 'value');
  const value = entry === undefined ? null : readValue(entry.value, asked);
  return value === null || needless.length > 0 ? null : { form: 'fixed', value };
}

function readTrials(map: WrittenMap, asked: Asked): Distribution | null {
  const count = (key: string, most: number, words: string) => {
    const entry = entryOf(map, key);
    const range = { ...numberRange(key === 'trials' ? 1 : 0, most, words), whole: true };
    if (entry !== undefined) return readValue(entry.value, { ...asked, path: `${asked.path}.${key}`, range });
    asked.report(map.place, asked.path, `nothing for "${key}"`, words);
    return null;
  };
  const trials = count('trials', 1e9, 'a whole number of trials, at least 1');
  const failures = count('failures', trials ?? 1e9, 'a whole number of failures, at most the trials');
  return trials === null || failures === null ? null : { family: 'trials', trials, failures };
}

/** Undefined where nothing is said; null after a report. */
function readSource(map: WrittenMap, { path, report }: Asked): (typeof SOURCES)[number] | undefined | null {
  const value = entryOf(map, 'source')?.value;
  if (value === undefined) return undefined;
  const source = value.form === 'scalar' ? SOURCES.find((name) => name === value.source) : undefined;
  if (source !== undefined) return source;
  const nearest = value.form === 'scalar' ? nearestName(value.source, SOURCES) : null;
  report(
    value.place,
    `${path}.source`,
    describeWritten(value),
    `one of ${SOURCES.join(', ')}; more in "note"`,
    nearest,
  );
  return null;
}

/** Undefined where nothing was learnt; null after a report. */
function readLearnt(map: WrittenMap, isLearnt: boolean, asked: Asked): Learnt | undefined | null {
  if (!isLearnt) {
    const needless = map.entries.find(({ key }) => LEARNT_KEYS.some((name) => name === key));
    if (needless === undefined) return undefined;
    asked.report(needless.keyPlace, asked.path, `"${needless.key}" without "source: learnt"`, 'both, or neither');
    return null;
  }
  const [logs, spreadLeft] = LEARNT_KEYS.map((key) => {
    const entry = entryOf(map, key);
    const words =
      key === 'logs' ? 'a whole number of logs, at least 1' : 'the share of its spread that is left, 0 to 1';
    const range = key === 'logs' ? { ...numberRange(1, 1e6, words), whole: true } : numberRange(0, 1, words);
    if (entry !== undefined) return readValue(entry.value, { ...asked, path: `${asked.path}.${key}`, range });
    asked.report(map.place, asked.path, `"source: learnt" without "${key}"`, words);
    return null;
  });
  return logs === null || spreadLeft === null ? null : { logs, spreadLeft };
}

function readNote(map: WrittenMap, { path, report }: Asked): string | null {
  const value = entryOf(map, 'note')?.value;
  if (value === undefined) return '';
  if (value.form === 'scalar' && value.value !== null) return cleanText(value.source);
  report(value.place, `${path}.note`, describeWritten(value), 'a text');
  return null;
}

/** The input as written, on one line: "normal, mean 610 g, sd 5 g". Kind, source and note are shown beside it, not in it. */
function onOneLine(map: WrittenMap): string {
  const value = entryOf(map, 'value')?.value;
  if (value?.form === 'scalar') return cleanText(value.source);
  const failures = entryOf(map, 'failures')?.value;
  const trials = entryOf(map, 'trials')?.value;
  const parts = map.entries.flatMap(({ key, value: part }) => {
    if (key === 'samples') return [samplesInWords(part)];
    if (FAMILY_NAMES.some((name) => name === key) && part.form === 'map') return [key, ...parametersInWords(part)];
    if (key === 'at_least' || key === 'at_most') return [`${key.replace('_', ' ')} ${inWords(part)}`];
    return [];
  });
  if (failures?.form === 'scalar' && trials?.form === 'scalar')
    parts.unshift(`${failures.source} failures in ${trials.source} trials`);
  return parts.join(', ');
}

function parametersInWords(map: WrittenMap): readonly string[] {
  return map.entries.map(({ key, value }) => `${key} ${inWords(value)}`);
}

function inWords(written: Written): string {
  if (written.form === 'scalar') return cleanText(written.source);
  return written.form === 'map' ? `(${onOneLine(written)}; not measured)` : '';
}

function samplesInWords(written: Written): string {
  if (written.form === 'list') return `${written.items.length} measured values`;
  const [file, column] = written.form === 'map' ? ['file', 'column'].map((key) => entryOf(written, key)?.value) : [];
  return file?.form === 'scalar' && column?.form === 'scalar'
    ? `measured values, column ${cleanText(column.source)} of ${cleanText(file.source)}`
    : 'measured values';
}
