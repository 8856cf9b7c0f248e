/** Describes an entry in a few sentences, for hovers in editors and comments in the starter file. */
import type { Leaf } from './definition/leaves.js';
import type { GivenInput } from './file/input.js';
import { rangeOf } from './file/range.js';
import { standardInput } from './file/standard.js';

/** The entry's own sentence, what may stand there and what holds without it, then how it is measured and what is usual. */
export function describeLeaf(leaf: Leaf): string {
  return [leaf.doc, ...detailsOf(leaf), ...practiceOf(leaf)].join(' ');
}

function practiceOf(leaf: Leaf): readonly string[] {
  if (leaf.shape !== 'quantity' && leaf.shape !== 'chance') return [];
  return [
    ...(leaf.measured === undefined ? [] : [`How to measure it: ${leaf.measured}`]),
    ...(leaf.usual === undefined ? [] : [`What is usual: ${leaf.usual}`]),
  ];
}

/** What may stand there, and what holds without it. */
export function detailsOf(leaf: Leaf): readonly string[] {
  switch (leaf.shape) {
    case 'quantity':
    case 'chance':
      return [
        ...(leaf.shape === 'quantity'
          ? [capital(`${rangeOf(leaf).words}.`)]
          : ['A chance, as 0.2 %, or trials and failures.']),
        ...(leaf.shape === 'quantity' && leaf.fixed === true ? ['One value, no distribution.'] : []),
        ...(leaf.each === undefined ? [] : [`Drawn for each of: ${leaf.each.join(', ')}.`]),
        ...withoutIt(standardInput(leaf)),
        ...(leaf.shape === 'quantity' && leaf.optional === true ? ['May be left out.'] : []),
      ];
    case 'choice': {
      const options = Object.entries(leaf.options).map(([name, meaning]) => `${name} (${meaning})`);
      return [
        `One of: ${options.join('; ')}.`,
        ...(leaf.standard === undefined ? [] : [`Without it: ${leaf.standard}.`]),
      ];
    }
    case 'table':
      return [`Rows of ${leaf.columns.map(({ name }) => name).join(' and ')}, in rising order. May be left out.`];
    case 'list':
      return ['May be left out.'];
    case 'text':
      return leaf.standard === undefined ? [] : ['May be left out.'];
    case 'luck':
      return ['Drawn anew for each flight; cannot be set.'];
  }
}

function withoutIt(standard: GivenInput | null): readonly string[] {
  if (standard === null) return [];
  const { value, written } = standard;
  return [`Without it: ${written}${value.form === 'uncertain' ? ` (${value.kind})` : ''}.`];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
