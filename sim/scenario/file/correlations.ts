/** Reads rank correlations and judges whether the inputs can have them. */

import { nearestName } from '../../basics/nearest-name.js';
import { correlatedGroups } from '../../distributions/correlation.js';
import type { Correlation } from '../../distributions/distribution.js';
import { leafPaths } from '../definition/leaves.js';
import type { ResolvedInput } from '../scenario.js';
import { refuseUnknown } from './distribution.js';
import { type Place, quoted, type Report } from './problem.js';
import { numberRange, readValue } from './range.js';
import { describeWritten, entryOf, type Written, type WrittenMap } from './written.js';

const FORM = '{ between: [one.input, other.input], rank: -0.4 }';

export interface PlacedCorrelation extends Correlation {
  /** Of the row, and of each of the two paths in it. */
  readonly place: Place;
  readonly places: readonly [Place, Place];
}

/** Reads the rows as they stand; rows that cannot be read are reported and left out. */
export function readCorrelations(written: Written, report: Report): readonly PlacedCorrelation[] {
  if (written.form !== 'list') {
    report(written.place, 'correlations', describeWritten(written), `a list of ${FORM}, or [] for none`);
    return [];
  }
  return written.items.flatMap((item, index) => readRow(item, `correlations[${index + 1}]`, report) ?? []);
}

function readRow(item: Written, path: string, report: Report): PlacedCorrelation | null {
  if (item.form !== 'map') {
    report(item.place, path, describeWritten(item), FORM);
    return null;
  }
  const unknown = refuseUnknown(item, ['between', 'rank'], { path, report });
  const rank = readRank(item, path, report);
  const pair = readPair(item, path, report);
  return unknown || rank === null || pair === null ? null : { ...pair, rank, place: item.place };
}

function readRank(item: WrittenMap, path: string, report: Report): number | null {
  const entry = entryOf(item, 'rank');
  const range = numberRange(-1, 1, 'a rank correlation from -1 to 1');
  if (entry !== undefined) return readValue(entry.value, { path: `${path}.rank`, range, report });
  report(item.place, path, 'nothing for "rank"', range.words);
  return null;
}

function readPair(
  item: WrittenMap,
  path: string,
  report: Report,
): Pick<PlacedCorrelation, 'between' | 'places'> | null {
  const value = entryOf(item, 'between')?.value;
  const expected = 'the paths of two inputs, as [can.mass, can.drag_factor]';
  if (value?.form !== 'list' || value.items.length !== 2) {
    report(
      value?.place ?? item.place,
      path,
      value === undefined ? 'nothing for "between"' : describeWritten(value),
      expected,
    );
    return null;
  }
  const [one, other] = value.items.map((part) => readPath(part, path, report));
  if (one === null || other === null) return null;
  if (one !== other) return { between: [one, other], places: [value.items[0].place, value.items[1].place] };
  report(value.items[1].place, path, `${quoted(other)} with itself`, 'two different inputs');
  return null;
}

function readPath(written: Written, path: string, report: Report): string | null {
  const name = written.form === 'scalar' ? written.source : null;
  const leaf = leafPaths().find((known) => known.path === name);
  if (leaf === undefined || name === null) {
    const quantities = leafPaths().flatMap((known) => (known.entry.shape === 'quantity' ? [known.path] : []));
    const nearest = name === null ? null : nearestName(name, quantities);
    report(written.place, path, `${describeWritten(written)}, which is no input`, 'the path of an input', nearest);
    return null;
  }
  const why =
    leaf.entry.shape === 'chance'
      ? 'a chance, whose events are independent'
      : leaf.entry.shape !== 'quantity'
        ? 'which is not a number'
        : leaf.entry.fixed === true
          ? 'a decision or a rule, which has no distribution'
          : leaf.entry.each === undefined
            ? null
            : `which is drawn ${leaf.entry.each.length} times in a flight`;
  if (why === null) return name;
  report(written.place, path, `${quoted(name)}, ${why}`, 'an input with a distribution of its own');
  return null;
}

/**
 * The correlations that hold between the inputs as resolved; what cannot be is reported. `noMatter` tells of
 * an input without a distribution that this is no mistake of the correlation: a later file or a `--set` fixed it or
 * took it away, so that the correlation falls away, or the input itself could not be read.
 */
export function judgeCorrelations(
  rows: readonly PlacedCorrelation[],
  inputs: readonly ResolvedInput[],
  noMatter: (path: string) => boolean,
  report: Report,
): readonly Correlation[] {
  const kept = rows.filter((row, index) => {
    if (!isNew(row, rows.slice(0, index), report)) return false;
    const kinds = row.between.map((path) => kindOf(path, inputs));
    if (row.between.some((path, side) => kinds[side] === null && noMatter(path))) return false;
    return kinds.every((kind, side) => isUncertain(row, side, kind, report)) && ofOneKind(row, kinds, report);
  });
  const paths = inputs.map(({ path }) => path);
  for (const group of correlatedGroups(kept, paths)) {
    if (group.factor !== null) continue;
    const rowsOfGroup = kept.filter(({ between }) => group.paths.includes(between[0]));
    const place = rowsOfGroup[rowsOfGroup.length - 1].place;
    const found = `correlations of ${group.paths.map(quoted).join(', ')} that no inputs can have together`;
    report(place, 'correlations', found, 'weaker ones, or one for each pair of them');
  }
  return kept.map(({ between, rank }) => ({ between, rank }));
}

function isNew(row: PlacedCorrelation, earlier: readonly PlacedCorrelation[], report: Report): boolean {
  const again = earlier.some(({ between }) => between.every((path) => row.between.includes(path)));
  if (again)
    report(
      row.place,
      'correlations',
      `the pair ${row.between.map(quoted).join(' and ')} a second time`,
      'each pair once',
    );
  return !again;
}

function kindOf(path: string, inputs: readonly ResolvedInput[]): string | null {
  const value = inputs.find((input) => input.path === path)?.value;
  return value?.form === 'uncertain' ? value.kind : null;
}

function isUncertain(row: PlacedCorrelation, side: number, kind: string | null, report: Report): boolean {
  if (kind !== null) return true;
  const path = quoted(row.between[side]);
  report(
    row.places[side],
    'correlations',
    `${path}, which has one fixed value or is left out`,
    'an input with a distribution',
  );
  return false;
}

function ofOneKind(row: PlacedCorrelation, kinds: readonly (string | null)[], report: Report): boolean {
  if (kinds[0] === kinds[1]) return true;
  const found = `inputs of two kinds: ${row.between.map((path, side) => `${quoted(path)} (${kinds[side]})`).join(' and ')}`;
  report(row.place, 'correlations', found, 'two inputs of the same kind');
  return false;
}
