/** Reads a distribution with its parameters; a parameter may itself be a fixed value that nobody has measured. */

import { nearestName } from '../../basics/nearest-name.js';
import type { Distribution, Parameter, UncertainValue } from '../../distributions/distribution.js';
import { BOUND_KEYS, bounded, endsOf } from './bounds.js';
import { FAMILIES, FAMILY_NAMES, type Family, type ParameterRule } from './families.js';
import { readKind, UNMEASURED } from './kind.js';
import { quoted } from './problem.js';
import { type Asked, inside, readValue } from './range.js';
import { describeWritten, entryOf, sourceOf, type WrittenEntry, type WrittenMap } from './written.js';

export interface NamedFamily {
  readonly family: Family;
  readonly entry: WrittenEntry;
}

/** Reports every key of a map that is not among the known keys; true where there was any. */
export function refuseUnknown(
  map: WrittenMap,
  known: readonly string[],
  { path, report }: Omit<Asked, 'range'>,
): boolean {
  const unknown = map.entries.filter(({ key }) => !known.includes(key));
  for (const { key, keyPlace } of unknown) {
    if (/^\d/.test(key)) {
      report(keyPlace, path, `${quoted(key)} behind a comma`, 'a decimal point instead of a decimal comma, as in 12.5');
      continue;
    }
    report(
      keyPlace,
      path,
      `${quoted(key)}, which is unknown here`,
      `one of ${known.join(', ')}`,
      nearestName(key, known),
    );
  }
  return unknown.length > 0;
}

/** Reads what stands after a family's name, as `{ mean: 610 g, sd: 5 g }`; null after a report. */
export function readDistribution(
  { family, entry }: NamedFamily,
  asked: Asked,
  readOne: typeof readParameter = readParameter,
): Distribution | null {
  const rules = FAMILIES[family];
  const names = rules.map((rule) => rule.name);
  const map = entry.value;
  if (map.form !== 'map') {
    const expected = `{ ${names.map((name) => `${name}: ...`).join(', ')} }`;
    asked.report(map.place, asked.path, describeWritten(map), expected);
    return null;
  }
  refuseUnknown(map, names, asked);
  const parameters = rules.map((rule) => [rule.name, readOne(map, rule, asked)] as const);
  if (parameters.some(([, parameter]) => parameter === null)) return null;
  const byName = Object.fromEntries(parameters) as Readonly<Record<string, Parameter>>;
  return inOrder(map, byName, asked) ? ({ family, ...byName } as unknown as Distribution) : null;
}

function readParameter(map: WrittenMap, rule: ParameterRule, leaf: Asked): Parameter | null {
  const entry = entryOf(map, rule.name);
  if (entry?.value.form !== 'map') return readNumber(map, rule, leaf);
  return readUnmeasured(entry.value, inside(leaf, rule.name, rule.range(leaf.range)));
}

function readNumber(map: WrittenMap, rule: ParameterRule, leaf: Asked): number | null {
  const asked = inside(leaf, rule.name, rule.range(leaf.range));
  const entry = entryOf(map, rule.name);
  if (entry !== undefined) return readValue(entry.value, asked);
  if (rule.standard !== undefined && leaf.range.dimension === 'ratio') return rule.standard;
  asked.report(map.place, asked.path, `nothing for ${quoted(rule.name)}`, asked.range.words);
  return null;
}

/** A parameter that nobody has measured: a distribution of plain numbers, the same value in every flight. */
function readUnmeasured(map: WrittenMap, asked: Asked): UncertainValue | null {
  const unknown = refuseUnknown(map, [...FAMILY_NAMES, ...BOUND_KEYS, 'kind'], asked);
  const kind = readKind(map, asked, { kind: UNMEASURED, why: 'it is the input itself that varies, not its parameter' });
  if (entryOf(map, 'kind') === undefined) {
    asked.report(
      map.place,
      asked.path,
      'a parameter with a distribution, but without its kind',
      `"kind: ${UNMEASURED}"`,
    );
    return null;
  }
  const named = oneFamily(map, [], asked, unknown);
  const distribution = named === null ? null : readDistribution(named, asked, readNumber);
  return distribution === null || kind === null ? null : bounded(map, distribution, kind, asked);
}

/** The single family that a map names, or null after a report; `others` are keys that would do as well in its place. */
export function oneFamily(
  map: WrittenMap,
  others: readonly string[],
  { path, report }: Asked,
  silent = false,
): NamedFamily | null {
  const named = map.entries.flatMap((entry) => {
    const family = FAMILY_NAMES.find((name) => name === entry.key);
    return family === undefined ? [] : [{ family, entry }];
  });
  for (const { entry } of named.slice(1)) {
    report(entry.keyPlace, path, `${quoted(entry.key)} beside ${quoted(named[0].family)}`, 'one distribution');
  }
  if (named.length === 0 && !silent) {
    report(map.place, path, describeWritten(map), `one of ${[...others, ...FAMILY_NAMES].join(', ')}`);
  }
  return named.length === 1 ? named[0] : null;
}

/** Whether from, mode and to rise, whatever values the unmeasured parameters among them take; false after a report. */
function inOrder(map: WrittenMap, parameters: Readonly<Record<string, Parameter>>, { path, report }: Asked): boolean {
  const names = ['from', 'mode', 'to'].filter((name) => parameters[name] !== undefined);
  for (const [first, second] of names.slice(1).map((name, index) => [names[index], name])) {
    const low = endsOf(parameters[first])[1];
    const high = endsOf(parameters[second])[0];
    const tie = low === high && (names.length === 2 || (second === 'to' && endsOf(parameters.from)[1] === high));
    if (low < high || (low === high && !tie)) continue;
    const place = entryOf(map, second)?.value.place ?? map.place;
    const found = `${quoted(first)} ${sourceOf(map, first)}, which is not below ${quoted(second)} ${sourceOf(map, second)}`;
    report(place, path, found, `${names.map(quoted).join(', ')} in rising order`);
    return false;
  }
  return true;
}
