/** Standards: what the definition says for an entry that no file gives, read by the reader of files. */

import type { Leaf } from '../definition/leaves.js';
import type { Chance, Entry, Quantity } from '../definition/shapes.js';
import type { Files } from './files.js';
import { type GivenInput, readInput } from './input.js';
import type { Given } from './layer.js';
import { collector, describeProblem, type Problem } from './problem.js';
import { rangeOf } from './range.js';
import { parseWritten } from './written.js';

/** Null where the definition has no standard; the entry must then be given. */
export function standardOf(leaf: Leaf): Given | null {
  switch (leaf.shape) {
    case 'quantity':
    case 'chance': {
      const input = standardInput(leaf);
      if (input !== null) return { form: 'input', input };
      return leaf.shape === 'quantity' && leaf.optional === true ? { form: 'none' } : null;
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

/** Every standard is read once: the definition never changes. */
const READ = new Map<Leaf, GivenInput>();

/** A value, or a law with its kind; null where there is none. Throws where the definition is wrong, which a test finds. */
export function standardInput(leaf: Quantity | Chance): GivenInput | null {
  if (leaf.standard === undefined) return null;
  const input = READ.get(leaf) ?? readStandard(leaf, leaf.standard);
  READ.set(leaf, input);
  return input;
}

function readStandard(leaf: Quantity | Chance, text: string): GivenInput {
  const problems: Problem[] = [];
  const report = collector(problems);
  const written = parseWritten(text, (line, column) => ({ file: 'the definition', line, column }), report);
  const asked = { path: '', range: rangeOf(leaf), report, files: NO_FILES, folder: '' };
  const input = written === null ? null : readInput(written, leaf, asked);
  if (input === null || problems.length > 0) throw new Error(problems.map(describeProblem).join('\n'));
  return { ...input, source: 'standard' };
}

/** A standard stands in the definition itself, samples in a file are out of its reach. */
const NO_FILES: Files = { read: () => ({ status: 'no text', why: 'which no standard may name' }), names: () => [] };

/** Whether an entry must stand in a file that extends no other. */
export function mustBeGiven(entry: Entry): boolean {
  if (entry.shape === 'section') return !entry.optional && Object.values(entry.entries).some(mustBeGiven);
  return standardOf(entry) === null;
}
