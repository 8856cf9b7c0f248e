/** The scenario's definition as one flat list of paths, in the order of a mission. */
import { SCENARIO } from './definition.js';
import type { Entry, Section } from './shapes.js';

/** An entry that holds a value itself: everything but a section. */
export type Leaf = Exclude<Entry, Section>;

export interface LeafPath {
  /** Keys joined by dots, as "can.mass"; also the name of the input's random stream. */
  readonly path: string;
  readonly entry: Leaf;
}

/** Every leaf under a section with its path, in the definition's order. A list is one leaf: what it holds is not followed. */
export function leaves(section: Section, prefix = ''): readonly LeafPath[] {
  return Object.entries(section.entries).flatMap(([key, entry]) => {
    const path = prefix === '' ? key : `${prefix}.${key}`;
    return entry.shape === 'section' ? leaves(entry, path) : [{ path, entry }];
  });
}

const SCENARIO_LEAVES = leaves(SCENARIO);

/** Every leaf of a scenario with its path, in the definition's order; luck, which no file can set, included. */
export function leafPaths(): readonly LeafPath[] {
  return SCENARIO_LEAVES;
}
