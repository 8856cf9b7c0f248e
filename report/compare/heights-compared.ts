/** The three comparisons, each at heights of its own, have their names and their heights in words here. */
import type { ComparisonBasis, DesignComparison } from '../../sim/compare/result.js';
import { metres } from '../kit/words/numbers.js';

const BASES: Readonly<Record<ComparisonBasis, string>> = {
  planned: 'At the planned heights',
  'planned of A': "At A's planned height",
  aims: 'Each at its aim',
};

export function basisName(basis: ComparisonBasis): string {
  return BASES[basis];
}

/** "both at 250 m", "A at 250 m, B at 220 m". */
export function heightsText({ pairs }: DesignComparison): string {
  return pairs.heightA === pairs.heightB
    ? `both at ${metres(pairs.heightA)}`
    : `A at ${metres(pairs.heightA)}, B at ${metres(pairs.heightB)}`;
}
