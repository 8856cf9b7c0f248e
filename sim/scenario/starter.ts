/** The starter: a commented scenario to fill in, written out from the definition. */
import { SCENARIO } from './definition/definition.js';
import type { Leaf } from './definition/leaves.js';
import type { DecidedPath } from './definition/paths.js';
import type { Section } from './definition/shapes.js';
import { DECISIONS, STARTING_VALUES, SWITCHED_ON, TO_DECIDE } from './definition/starting-values.js';
import { describeLeaf } from './describe.js';
import { mustBeGiven } from './file/standard.js';

const WIDTH = 110;

const HEAD = `# A scenario: one payload, one site, one plan. Every value below is a guess to be replaced by your own measurement:
# then say "source: measured" or "source: datasheet" instead of "source: guess". A low risk from guesses is worth nothing.
#
# Every value carries its unit. A value that is not known exactly is a distribution: normal, log-normal, uniform,
# triangular, beta, weibull, or samples of your own ([1.2 s, 1.4 s] or { file: bench.csv, column: delay, unit: s });
# "at_least" and "at_most" beside it cut it. "kind" says whether it varies from flight to flight, or is fixed but not
# measured: one value that nobody knows yet.
#
# A chance of people or hardware, as of a rotor that does not run, is best tried: with { trials: 200, failures: 0, source:
# measured } in place of the law. What cannot happen is written { value: none, note: why it cannot }. A guess as one bare
# number claims more than anybody knows.
#
# "to decide" stands where the team decides and no program can: write the decision there; until then no command but
# check reads the file.
#
# Lines that begin with "#" and no space are entries that may be left out: take the "#" away to use one.
# A variant is another file with "extends: this-file.yaml" and only what differs.
`;

const TAIL = `# Inputs of one kind that go together, by rank correlation:
#correlations:
#  - { between: [battery.capacity, battery.resistance], rank: -0.4 }
`;

/** Decisions that were made, as written in a file. */
export type Decided = Readonly<Partial<Record<DecidedPath, string>>>;

/** The text of a scenario file that can be read once its decisions are made; every entry with what it is and what may stand there. */
export function starterScenario(decided: Decided = {}): string {
  return `${HEAD}${sectionLines(SCENARIO, '', 0, false, decided).join('\n')}\n\n${TAIL}`;
}

function sectionLines(
  section: Section,
  prefix: string,
  depth: number,
  off: boolean,
  decided: Decided,
): readonly string[] {
  return Object.entries(section.entries).flatMap(([key, entry]) => {
    if (entry.shape === 'luck') return [];
    const path = prefix === '' ? key : `${prefix}.${key}`;
    const gap = depth === 0 ? [''] : [];
    if (entry.shape !== 'section')
      return [
        ...gap,
        ...comment(describeLeaf(entry), depth),
        ...leafLines(key, path, entry, decided).map((text) => line(text, depth, off || isOff(path, entry))),
      ];
    const sectionOff = off || (entry.optional && !SWITCHED_ON.some((one) => one === path));
    const doc = entry.optional ? `${entry.doc} The section may be left out.` : entry.doc;
    return [
      ...gap,
      ...comment(doc, depth),
      line(`${key}:`, depth, sectionOff),
      ...sectionLines(entry, path, depth + 1, sectionOff, decided),
    ];
  });
}

function leafLines(key: string, path: string, leaf: Leaf, decided: Decided): readonly string[] {
  const open = path in DECISIONS ? (decided[path as DecidedPath] ?? TO_DECIDE) : undefined;
  const value =
    open ?? STARTING_VALUES[path] ?? ('standard' in leaf && leaf.standard !== undefined ? leaf.standard : '""');
  return `${key}: ${value}`.split('\n').map((text) => text.trimEnd());
}

/** Entries that the model does well without, and entries whose standard is as good as a guess, stand commented out. */
function isOff(path: string, leaf: Leaf): boolean {
  if (mustBeGiven(leaf)) return false;
  const derived = 'optional' in leaf && leaf.optional === true;
  return derived || leaf.shape === 'list' || STARTING_VALUES[path] === undefined;
}

function line(text: string, depth: number, off: boolean): string {
  const indent = '  '.repeat(depth);
  return off ? text.replace(/^ */, (own) => `${indent}${own}#`) : `${indent}${text}`;
}

/** Words in comment lines of limited width. */
function comment(text: string, depth: number): readonly string[] {
  const start = `${'  '.repeat(depth)}#`;
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines[lines.length - 1];
    if (last !== undefined && last.length + 1 + word.length <= WIDTH) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(`${start} ${word}`);
  }
  return lines;
}
