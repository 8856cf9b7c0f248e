/** An override from the command line (`path=value`, the value in YAML), read as if it stood in a further file. */

import { nearestName } from '../../basics/nearest-name.js';
import { SCENARIO } from '../definition/definition.js';
import { leafPaths } from '../definition/leaves.js';
import type { Entry } from '../definition/shapes.js';
import { type Place, quoted, type Report } from './problem.js';
import { parseWritten, type Written, type WrittenMap } from './written.js';

/** What stands for the file in messages; the line is the number of the `--set`, the column that in its text. */
export const SET = '--set';

const FORM = 'path=value, such as can.mass="420 g"';

/** Reads an override as a map that holds nothing else; null after a report. */
export function readOverride(text: string, ordinal: number, report: Report): WrittenMap | null {
  const at = (column: number): Place => ({ file: SET, line: ordinal, column });
  const equals = text.indexOf('=');
  const path = text.slice(0, Math.max(0, equals)).trim();
  if (path === '') {
    report(at(1), '', quoted(text), FORM);
    return null;
  }
  if (!isKnown(path)) {
    report(at(1), '', `${quoted(path)}, which is no entry of a scenario`, FORM, nearestPath(path));
    return null;
  }
  const start = equals + 1;
  const lines = text.slice(start).split('\n');
  const value = parseWritten(
    text.slice(start),
    (line, column) => at(start + lines.slice(0, line - 1).join('\n').length + (line > 1 ? 1 : 0) + column),
    report,
  );
  if (value?.form === 'scalar' && value.value === null) {
    report(value.place, path, 'nothing after the "="', FORM);
    return null;
  }
  return value === null ? null : wrap(path.split('.'), value, at(1));
}

function wrap(keys: readonly string[], value: Written, place: Place): WrittenMap {
  const [key, ...rest] = keys;
  const inner = rest.length === 0 ? value : wrap(rest, value, place);
  return { form: 'map', place, entries: [{ key, keyPlace: place, value: inner }] };
}

/** Whether a path leads to an entry or section that can be set; correlations can, as a whole. */
function isKnown(path: string): boolean {
  if (path === 'correlations') return true;
  let entry: Entry = SCENARIO;
  for (const key of path.split('.')) {
    if (entry.shape !== 'section' || !Object.hasOwn(entry.entries, key)) return false;
    entry = entry.entries[key];
  }
  return entry.shape !== 'luck';
}

/** The path nearest to a mistyped path; a single name, as "mass", is looked for in all sections. */
function nearestPath(path: string): string | null {
  const paths = leafPaths().flatMap((leaf) => (leaf.entry.shape === 'luck' ? [] : [leaf.path]));
  const inside = paths.find((known) => path.startsWith(`${known}.`));
  const last = path.slice(path.lastIndexOf('.') + 1);
  return inside ?? nearestName(path, paths) ?? paths.find((known) => known.endsWith(`.${last}`)) ?? null;
}
