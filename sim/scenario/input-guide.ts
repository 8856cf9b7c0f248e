/** The guide to all entries of a scenario, read off the definition: what each is, how it is measured and what is usual. */

import type { Leaf, LeafPath } from './definition/leaves.js';
import { leafPaths } from './definition/leaves.js';
import { STARTING_VALUES } from './definition/starting-values.js';
import { rangeOf } from './file/range.js';
import { mustBeGiven, standardInput } from './file/standard.js';

export interface GuideEntry {
  /** As in the file with dots, and after --set. */
  readonly path: string;
  readonly shape: Leaf['shape'];
  /** Unit in which values are shown; empty for a plain number, null for what is no number. */
  readonly unit: string | null;
  readonly meaning: string;
  /** What may stand there. */
  readonly range: string;
  /** What holds where the file says nothing; null where every file must say it, or where the model then goes without. */
  readonly standard: string | null;
  readonly mustBeGiven: boolean;
  /** What a new file of `init` has, an invented guess; null where it leaves the entry out. */
  readonly inStarter: string | null;
  readonly measured: string | null;
  readonly usual: string | null;
}

/** Entries whose path or meaning has the word, in any case; all without a word. In the definition's order. */
export function inputGuide(word = ''): readonly GuideEntry[] {
  const wanted = word.toLowerCase();
  return settable()
    .filter(({ path, entry }) => path.includes(wanted) || entry.doc.toLowerCase().includes(wanted))
    .map(guideEntry);
}

/** Paths that a file or --set can give. */
export function settablePaths(): readonly string[] {
  return settable().map(({ path }) => path);
}

function settable(): readonly LeafPath[] {
  return leafPaths().filter(({ entry }) => entry.shape !== 'luck');
}

function guideEntry({ path, entry }: LeafPath): GuideEntry {
  const isInput = entry.shape === 'quantity' || entry.shape === 'chance';
  return {
    path,
    shape: entry.shape,
    unit: entry.shape === 'quantity' ? entry.unit : entry.shape === 'chance' ? '%' : null,
    meaning: entry.doc,
    range: rangeWords(entry),
    standard: standardWords(entry),
    mustBeGiven: mustBeGiven(entry),
    inStarter: STARTING_VALUES[path]?.replace(/\s+/g, ' ').trim() ?? null,
    measured: isInput ? (entry.measured ?? null) : null,
    usual: isInput ? (entry.usual ?? null) : null,
  };
}

function rangeWords(leaf: Leaf): string {
  switch (leaf.shape) {
    case 'quantity':
      return `${rangeOf(leaf).words}${leaf.fixed === true ? '; one value, no distribution' : ''}`;
    case 'chance':
      return 'a chance, as 0.2 %, or trials and failures';
    case 'choice':
      return `one of ${Object.entries(leaf.options)
        .map(([name, meaning]) => `${name} (${meaning})`)
        .join('; ')}`;
    case 'table':
      return `rows of ${leaf.columns.map(({ name }) => name).join(' and ')}, in rising order`;
    case 'list':
      return `a list, each with ${Object.keys(leaf.of.entries).join(', ')}`;
    case 'text':
    case 'luck':
      return 'a text';
  }
}

function standardWords(leaf: Leaf): string | null {
  if (leaf.shape === 'quantity' || leaf.shape === 'chance') {
    const input = standardInput(leaf);
    if (input === null) return null;
    return input.value.form === 'uncertain' ? `${input.written} (${input.value.kind})` : input.written;
  }
  return 'standard' in leaf && leaf.standard !== undefined && leaf.standard !== '' ? leaf.standard : null;
}
