/** The scenario's definition as flat lists of paths, in the order of a mission. */
import { SCENARIO } from './definition.js';
import type { LeafPathName, OptionalSectionPath } from './paths.js';
import type { Entry, Section } from './shapes.js';

/** An entry that holds a value itself: everything but a section. */
export type Leaf = Exclude<Entry, Section>;

export interface LeafPath {
  /** Keys joined by dots, as "can.mass"; also the name of the input's random stream. */
  readonly path: LeafPathName;
  readonly entry: Leaf;
}

/** Every entry under a section with its path. A list is one leaf: what it holds is not followed. */
function entriesUnder(section: Section, prefix = ''): readonly (readonly [path: string, entry: Entry])[] {
  return Object.entries(section.entries).flatMap(([key, entry]) => {
    const own = [`${prefix}${key}`, entry] as const;
    return entry.shape === 'section' ? [own, ...entriesUnder(entry, `${own[0]}.`)] : [own];
  });
}

const ENTRIES = entriesUnder(SCENARIO);

const LEAVES = ENTRIES.flatMap(([path, entry]) => (entry.shape === 'section' ? [] : [{ path, entry }]));

const OPTIONAL_SECTIONS = ENTRIES.flatMap(([path, entry]) =>
  entry.shape === 'section' && entry.optional ? [path] : [],
);

/** Every leaf of a scenario with its path, in the definition's order; luck, which no file can set, included. */
export function leafPaths(): readonly LeafPath[] {
  return LEAVES as readonly LeafPath[];
}

/** Every section that a scenario may leave out, in the definition's order. */
export function optionalSections(): readonly OptionalSectionPath[] {
  return OPTIONAL_SECTIONS as readonly OptionalSectionPath[];
}
