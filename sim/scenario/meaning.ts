/** What an input is, in the sentence that the definition has for it. */
import { leafPaths } from './definition/leaves.js';

/** The sentence of a path, also of a part of it such as "pilot.reaction.median"; null where no entry has that path. */
export function meaningOfInput(path: string): string | null {
  const plain = path.replace(/[#[].*$/, '');
  const leaf = leafPaths().find((one) => plain === one.path || plain.startsWith(`${one.path}.`));
  return leaf === undefined ? null : leaf.entry.doc;
}
