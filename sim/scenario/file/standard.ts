/** Standards: what the definition says for an entry that no file gives, read as if it stood in a file. */

import type { Leaf } from '../definition/leaves.js';
import type { Entry } from '../definition/shapes.js';
import type { Given } from './layer.js';
import { rangeOf, siOf } from './range.js';

/** Null where the definition has no standard; the entry must then be given. */
export function standardOf(leaf: Leaf): Given | null {
  switch (leaf.shape) {
    case 'quantity':
    case 'chance': {
      if (leaf.standard === undefined)
        return leaf.shape === 'quantity' && leaf.optional === true ? { form: 'none' } : null;
      const value = siOf(leaf.standard, rangeOf(leaf).dimension);
      const input = { value: { form: 'fixed', value }, source: 'standard', note: '', written: leaf.standard } as const;
      return { form: 'input', input };
    }
    case 'choice':
    case 'text':
      return leaf.standard === undefined ? null : { form: 'setting', setting: leaf.standard };
    case 'list':
      return { form: 'setting', setting: [] };
    case 'table':
    case 'luck':
      return { form: 'none' };
  }
}

/** Whether an entry must stand in a file that extends no other. */
export function mustBeGiven(entry: Entry): boolean {
  if (entry.shape === 'section') return !entry.optional && Object.values(entry.entries).some(mustBeGiven);
  return standardOf(entry) === null;
}
