/** Resolves layers to a scenario: a later layer holds over an earlier layer, and standards fill in what no layer says. */

import { basename } from 'node:path';
import { type LeafPath, leafPaths, optionalSections } from '../definition/leaves.js';
import type { DecidedPath, InputPath, SettingPath } from '../definition/paths.js';
import { DECISIONS, TO_DECIDE } from '../definition/starting-values.js';
import { hashOf } from '../hash.js';
import type { ResolvedInput, Scenario, ScenarioChange, Setting } from '../scenario.js';
import { displayUnit } from '../units.js';
import { judgeCorrelations, type PlacedCorrelation } from './correlations.js';
import type { Given, Layer } from './layer.js';
import { type Place, quoted, type Report } from './problem.js';
import { rangeOf } from './range.js';
import { standardOf } from './standard.js';

/** A layer with the rows of its correlations, if it has any. */
export interface ReadLayer extends Layer {
  readonly rows: readonly PlacedCorrelation[] | null;
}

export interface ResolveOptions {
  /** Overrides from the command line, which the last layers stand for. */
  readonly overrides: readonly string[];
  /** How many of the layers come from files. */
  readonly fromFiles: number;
  /** Where to point for what is missing altogether: the start of the named file. */
  readonly start: Place;
  /** False where a file could not be read, so that nothing is known to be missing. */
  readonly complete: boolean;
  /** True where decisions that are still to be made may be left out of the scenario. */
  readonly mayBeOpen: boolean;
}

/** Merges layers, the extended file first, and fills in the standards. Whatever is missing or cannot be is reported. */
export function resolve(layers: readonly ReadLayer[], options: ResolveOptions, report: Report): Scenario {
  const leftOut = optionalSections().filter((path) => stateOf(path, layers) !== 'given');
  const inUse = leafPaths().filter(
    ({ path, entry }) => entry.shape !== 'luck' && !leftOut.some((section) => path.startsWith(`${section}.`)),
  );
  const said = inUse.map(({ path, entry }) => ({ path, entry, given: givenOf(path, layers) ?? standardOf(entry) }));
  if (options.complete)
    reportMissing(
      said.flatMap(({ path, given }) => (given === null ? [path] : [])),
      layers,
      options.start,
      report,
    );

  for (const { path, given } of said)
    if (given?.form === 'gap' && !options.mayBeOpen)
      report(given.place, path, quoted(TO_DECIDE), DECISIONS[path as DecidedPath] ?? 'a decision');
  const inputs = said.flatMap(({ path, entry, given }) =>
    given?.form === 'input' ? [resolvedInput({ path, entry }, given)] : [],
  );
  const settings: Partial<Record<SettingPath, Setting>> = {};
  for (const { path, given } of said) if (given?.form === 'setting') settings[path as SettingPath] = given.setting;

  const bad = new Set<string>(
    said.flatMap(({ path, given }) => (given?.form === 'bad' || given?.form === 'gap' || given === null ? [path] : [])),
  );
  const from = layers.findLastIndex(({ rows }) => rows !== null);
  const noMatter = (path: string) => bad.has(path) || !options.complete || lastWord(path, layers) > from;
  const correlations = judgeCorrelations(layers[from]?.rows ?? [], inputs, noMatter, report);
  const scenario = {
    file: basename(options.start.file),
    changed: changesOf(options.overrides, layers, layers.slice(0, options.fromFiles)),
    title: String(settings.title ?? ''),
    about: String(settings.about ?? ''),
    invented: settings.invented === 'yes',
    inputs,
    settings,
    leftOut,
    correlations,
  };
  return { ...scenario, hash: hashOf(scenario) };
}

/** What the overrides say, the last of each path, beside what the files alone would say; only where the two differ. */
function changesOf(
  overrides: readonly string[],
  layers: readonly ReadLayer[],
  files: readonly ReadLayer[],
): readonly ScenarioChange[] {
  const given = new Map(overrides.map((text) => splitOverride(text)));
  return [...given].flatMap(([path, text]) => {
    const [before, after] = [files, layers].map((some) => saidOf(path, some));
    return before.value === after.value ? [] : [{ path, given: text, inFile: before.text }];
  });
}

function splitOverride(text: string): readonly [string, string] {
  const equals = text.indexOf('=');
  return [text.slice(0, equals).trim(), text.slice(equals + 1).trim()];
}

/** What some layers say of a leaf, a section or the correlations: in words, and as a text that tells whether two say the same. */
function saidOf(path: string, layers: readonly ReadLayer[]): { readonly text: string; readonly value: string } {
  const leaf = leafPaths().find((one) => one.path === path);
  if (leaf === undefined) {
    const rows = path === 'correlations' ? layers.findLast((layer) => layer.rows !== null)?.rows : null;
    const parts = rows?.map((row) => JSON.stringify(row)) ?? inSection(path, layers);
    if (parts.length === 0) return { text: 'nothing', value: '' };
    return { text: rows ? `${rows.length} in the list` : parts.join(', '), value: parts.join() };
  }
  const given = givenOf(path, layers);
  if (given?.form === 'gap') return { text: `"${TO_DECIDE}"`, value: '' };
  if (given === null || given.form === 'none' || given.form === 'bad') {
    const standard = standardOf(leaf.entry);
    if (standard?.form !== 'input') return { text: 'nothing', value: '' };
    return { text: `nothing (standard ${standard.input.written})`, value: JSON.stringify(standard.input.value) };
  }
  if (given.form === 'input') return { text: given.input.written, value: JSON.stringify(given.input.value) };
  const { setting } = given;
  return {
    text: typeof setting === 'string' ? setting : `${setting.length} in the list`,
    value: JSON.stringify(setting),
  };
}

function inSection(section: string, layers: readonly ReadLayer[]): readonly string[] {
  return leafPaths().flatMap(({ path }) => {
    const given = path.startsWith(`${section}.`) ? givenOf(path, layers) : null;
    const name = path.slice(section.length + 1);
    return given?.form === 'input' ? [`${name} ${given.input.written}`] : given === null ? [] : [name];
  });
}

/** Number of the last layer that speaks of a leaf or of a section around it; -1 where none does. */
function lastWord(path: string, layers: readonly Layer[]): number {
  return layers.findLastIndex(
    ({ leaves, sections }) =>
      leaves.has(path) || sectionsAround(path).some((section) => sections.get(section)?.state === 'none'),
  );
}

function sectionsAround(path: string): readonly string[] {
  const keys = path.split('.').slice(0, -1);
  return keys.map((_, index) => keys.slice(0, index + 1).join('.'));
}

function stateOf(section: string, layers: readonly Layer[]): 'given' | 'none' | 'bad' {
  return layers.findLast(({ sections }) => sections.has(section))?.sections.get(section)?.state ?? 'none';
}

/** What the last layer says of a leaf, unless a later layer takes its section away. */
function givenOf(path: string, layers: readonly Layer[]): Given | null {
  let given: Given | null = null;
  for (const { leaves, sections } of layers) {
    const states = sectionsAround(path).map((section) => sections.get(section)?.state);
    if (states.includes('bad')) given = { form: 'bad' };
    else if (states.includes('none')) given = null;
    given = leaves.get(path) ?? given;
  }
  return given;
}

function resolvedInput({ path, entry }: LeafPath, { input }: Extract<Given, { form: 'input' }>): ResolvedInput {
  if (entry.shape !== 'quantity' && entry.shape !== 'chance') throw new Error(`${path} is not an input`);
  const unit = entry.shape === 'quantity' ? entry.unit : '%';
  return { path: path as InputPath, shape: entry.shape, ...input, ...displayUnit(unit, rangeOf(entry).dimension) };
}

/** Points at the section in which an entry is missing; a section that is missing altogether is a single problem. */
function reportMissing(missing: readonly string[], layers: readonly Layer[], start: Place, report: Report): void {
  const bySection = new Map<string, string[]>();
  for (const path of missing) {
    const section = sectionsAround(path).at(-1) ?? '';
    bySection.set(section, [...(bySection.get(section) ?? []), path.slice(section === '' ? 0 : section.length + 1)]);
  }
  for (const [section, names] of bySection) {
    const place = layers.findLast(({ sections }) => sections.has(section))?.sections.get(section)?.place;
    if (section === '' || place !== undefined) {
      for (const name of names) {
        const path = section === '' ? name : `${section}.${name}`;
        report(place ?? start, path, 'no such entry', `${quoted(name)}: ${docOf(path)}`);
      }
    } else report(start, section, 'no such section', `${quoted(section)} with at least ${names.join(', ')}`);
  }
}

function docOf(path: string): string {
  return (leafPaths().find((leaf) => leaf.path === path)?.entry.doc ?? '').replace(/\.$/, '');
}
