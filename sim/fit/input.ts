/** The input of a scenario that a fit is for. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { nearestName } from '../basics/nearest-name.js';
import { leafPaths } from '../scenario/definition/leaves.js';
import type { Chance, Quantity } from '../scenario/definition/shapes.js';
import { type Piece, yamlText } from '../scenario/file/fragment.js';
import { readInput } from '../scenario/file/input.js';
import { collector, describeProblem, type Problem, quoted } from '../scenario/file/problem.js';
import { rangeOf } from '../scenario/file/range.js';
import { parseWritten } from '../scenario/file/written.js';

/** The definition of the input at a path; refused where there is none, or where it may not be uncertain. */
export function inputAt(path: string): Answer<Quantity | Chance> {
  const entry = leafPaths().find((leaf) => leaf.path === path)?.entry;
  if (entry !== undefined && (entry.shape === 'chance' || (entry.shape === 'quantity' && entry.fixed !== true)))
    return ok(entry);
  const inputs = leafPaths().flatMap((leaf) =>
    leaf.entry.shape === 'chance' || (leaf.entry.shape === 'quantity' && leaf.entry.fixed !== true) ? [leaf.path] : [],
  );
  const last = path.slice(path.lastIndexOf('.') + 1);
  const nearest = nearestName(path, inputs) ?? inputs.find((known) => known.endsWith(`.${last}`)) ?? null;
  const meant = nearest === null ? '' : ` Did you mean "${nearest}"?`;
  const why = entry === undefined ? 'which is no entry of a scenario' : 'which holds no distribution';
  return refused(`--path is ${quoted(path)}, ${why}; write one such as pilot.reaction.${meant}`);
}

/** What a scenario's reader has to say against a piece at this path; null where it reads it. */
export function problemWith(path: string, leaf: Quantity | Chance, piece: Piece): string | null {
  const problems: Problem[] = [];
  const report = collector(problems);
  const written = parseWritten(yamlText(piece, 9), (line, column) => ({ file: 'fragment', line, column }), report);
  const files = { read: () => ({ status: 'no text', why: 'which is not read here' }) as const, names: () => [] };
  if (written !== null) readInput(written, leaf, { path, report, files, folder: '.', range: rangeOf(leaf) });
  return problems.length === 0 ? null : problems.map(describeProblem).join('\n');
}
