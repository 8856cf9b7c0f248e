/** A layer: what a single file, or a single `--set`, says of the scenario, entry by entry of the definition. */

import { nearestName } from '../../basics/nearest-name.js';
import { SCENARIO } from '../definition/definition.js';
import { leafPaths } from '../definition/leaves.js';
import type { Entry, Section } from '../definition/shapes.js';
import { DECISIONS, TO_DECIDE } from '../definition/starting-values.js';
import type { Setting } from '../scenario.js';
import type { Files } from './files.js';
import { type GivenInput, readInput } from './input.js';
import { type Place, quoted, type Report } from './problem.js';
import { rangeOf } from './range.js';
import { readSetting } from './setting.js';
import { describeWritten, type Written, type WrittenEntry, type WrittenMap } from './written.js';

/** Written in place of an optional section or quantity, to take away what the extended file says. */
export const NONE = 'none';

/** What is said of an entry: an input, a setting, that the scenario has no such entry, or something that could not be read. */
export type Given =
  | { readonly form: 'input'; readonly input: GivenInput }
  | { readonly form: 'setting'; readonly setting: Setting }
  | { readonly form: 'none' }
  /** A decision that the file says is still to be made. */
  | { readonly form: 'gap'; readonly place: Place }
  | { readonly form: 'bad' };

export interface Layer {
  /** By path. */
  readonly leaves: ReadonlyMap<string, Given>;
  /** Sections that stand in the file, by path: where, and whether as a section, as "none", or as something else. */
  readonly sections: ReadonlyMap<string, { readonly place: Place; readonly state: 'given' | 'none' | 'bad' }>;
  readonly correlations: Written | null;
}

/** Keys at the top of a file that are not entries of the scenario. */
const ABOUT_THE_FILE = ['extends', 'correlations'];

interface Walk {
  readonly leaves: Map<string, Given>;
  readonly sections: Map<string, { readonly place: Place; readonly state: 'given' | 'none' | 'bad' }>;
  readonly files: Files;
  readonly folder: string;
  readonly report: Report;
}

/** Reads the root of a file, or the map that a `--set` stands for. */
export function readLayer(root: WrittenMap, folder: string, files: Files, report: Report): Layer {
  const walk: Walk = { leaves: new Map(), sections: new Map(), files, folder, report };
  walkSection(root, SCENARIO, '', walk);
  const correlations = root.entries.find(({ key }) => key === 'correlations')?.value ?? null;
  return { leaves: walk.leaves, sections: walk.sections, correlations };
}

function walkSection(map: WrittenMap, section: Section, prefix: string, walk: Walk): void {
  for (const entry of map.entries) {
    if (prefix === '' && ABOUT_THE_FILE.includes(entry.key)) continue;
    const path = prefix === '' ? entry.key : `${prefix}.${entry.key}`;
    const defined = Object.hasOwn(section.entries, entry.key) ? section.entries[entry.key] : undefined;
    if (defined === undefined || defined.shape === 'luck') refuse(entry, defined, section, prefix, walk);
    else if (defined.shape === 'section') walkInto(entry, defined, path, walk);
    else walk.leaves.set(path, readLeaf(entry.value, defined, path, walk));
  }
}

function walkInto({ keyPlace, value }: WrittenEntry, section: Section, path: string, walk: Walk): void {
  const nothing = value.form === 'scalar' && value.value === null;
  const none = section.optional && isNone(value);
  const state = none ? 'none' : nothing || value.form === 'map' ? 'given' : 'bad';
  walk.sections.set(path, { place: keyPlace, state });
  if (value.form === 'map') walkSection(value, section, path, walk);
  if (state !== 'bad') return;
  const expected = `a section with ${settable(section).join(', ')}${section.optional ? `; or "${NONE}"` : ''}`;
  walk.report(value.place, path, describeWritten(value), expected);
}

function isNone(value: Written): boolean {
  return value.form === 'scalar' && value.value === NONE;
}

function readLeaf(value: Written, leaf: Exclude<Entry, Section | { shape: 'luck' }>, path: string, walk: Walk): Given {
  const { report, files, folder } = walk;
  if (path in DECISIONS && value.form === 'scalar' && value.value === TO_DECIDE)
    return { form: 'gap', place: value.place };
  if ('optional' in leaf && leaf.optional === true && isNone(value)) return { form: 'none' };
  if (leaf.shape === 'quantity' || leaf.shape === 'chance') {
    const input = readInput(value, leaf, { path, report, files, folder, range: rangeOf(leaf) });
    return input === null ? { form: 'bad' } : { form: 'input', input };
  }
  const setting = readSetting(value, leaf, path, report);
  return setting === null ? { form: 'bad' } : { form: 'setting', setting };
}

/** Reports a key that the section does not have: with the name probably meant, here or in another section. */
function refuse(entry: WrittenEntry, luck: Entry | undefined, section: Section, prefix: string, walk: Walk): void {
  const { key, keyPlace } = entry;
  if (luck !== undefined) {
    walk.report(keyPlace, prefix, `${quoted(key)}, which is drawn anew for each flight`, 'nothing: it cannot be set');
    return;
  }
  const names = [...settable(section), ...(prefix === '' ? ABOUT_THE_FILE : [])];
  const elsewhere = leafPaths().find(({ path }) => path.endsWith(`.${key}`))?.path ?? null;
  const nearest = nearestName(key, names) ?? elsewhere;
  const found = `${quoted(key)}, which is unknown ${prefix === '' ? 'at the top of a scenario' : 'here'}`;
  walk.report(keyPlace, prefix, found, `one of ${names.join(', ')}`, nearest);
}

function settable(section: Section): readonly string[] {
  return Object.keys(section.entries).filter((key) => section.entries[key].shape !== 'luck');
}
