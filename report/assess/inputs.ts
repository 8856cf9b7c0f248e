/** Section 11 lists every input with its distribution, kind and provenance. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { SettingPath } from '../../sim/scenario/definition/paths.js';
import type { ResolvedInput } from '../../sim/scenario/scenario.js';
import { cell, type Table, table } from '../kit/table.js';
import { countText, prose, withMinus } from '../kit/words/numbers.js';

export interface InputsSection {
  readonly summary: string;
  readonly inputs: Table;
  readonly choices: Table | null;
  readonly leftOut: string | null;
  readonly correlations: Table | null;
}

const SOURCE_WORDS: Readonly<Record<ResolvedInput['source'], string>> = {
  measured: 'measured',
  datasheet: 'datasheet',
  guess: 'guess',
  learnt: 'learnt',
  standard: 'standard',
  decided: 'decided',
  'not said': 'not said',
};

/** Under this share of the spread of its guess what was learnt from logs counts as known. */
const HALVED = 0.5;

/** A figure that nobody vouches for: marked in the table. So is a law that only the program's standard gives. */
function isUnvouched({ source, value, learnt }: ResolvedInput): boolean {
  if (source === 'learnt') return (learnt?.spreadLeft ?? 1) > HALVED;
  return source === 'guess' || source === 'not said' || (source === 'standard' && value.form === 'uncertain');
}

/** Not measured by anybody: a guess, of no stated source, or said to be unmeasured without a measurement behind it. */
function isGuess(input: ResolvedInput): boolean {
  const unmeasured = input.value.form === 'uncertain' && input.value.kind === 'fixed but not measured';
  return isUnvouched(input) || (unmeasured && input.source !== 'measured' && input.source !== 'learnt');
}

function sourceText({ source, learnt }: ResolvedInput): string {
  if (learnt === undefined) return SOURCE_WORDS[source];
  return `${SOURCE_WORDS[source]} from ${learnt.logs === 1 ? '1 log' : `${learnt.logs} logs`}`;
}

export function inputsSection(result: AssessResult): InputsSection {
  const { inputs, settings, leftOut, correlations } = result.scenario;
  return {
    summary: summary(inputs),
    inputs: table(
      'Every number the flights were drawn from, as written in the scenario; those that nobody has measured are marked.',
      ['Input', 'Value or distribution', 'Kind', 'Source', 'Note'],
      inputs.map((input) => [
        cell(input.path, 'path'),
        prose(input.written),
        kindOf(input),
        cell(sourceText(input), isUnvouched(input) ? 'guess' : null),
        input.note,
      ]),
      true,
    ),
    choices: choiceTable(settings),
    leftOut: leftOut.length === 0 ? null : `Left out of this scenario: ${leftOut.join(', ')}.`,
    correlations:
      correlations.length === 0
        ? null
        : table(
            'Pairs of inputs that tend to be high or low together, by rank correlation.',
            ['Input', 'With', '#Rank correlation'],
            correlations.map(({ between, rank }) => [between[0], between[1], withMinus(String(rank))]),
          ),
  };
}

function kindOf({ value, shape }: ResolvedInput): string {
  if (value.form === 'fixed') return shape === 'chance' ? 'known chance' : 'one\u00a0number';
  return value.kind === 'fixed but not measured' ? 'not\u00a0measured' : 'varies';
}

function summary(inputs: readonly ResolvedInput[]): string {
  const own = inputs.filter((input) => input.source !== 'decided' && input.source !== 'standard');
  const unvouched = own.filter(isGuess);
  const uncertain = inputs.filter((input) => input.value.form === 'uncertain').length;
  return `${countText(inputs.length)} inputs, ${countText(uncertain)} of them uncertain. Of the ${countText(own.length)} that are neither decided nor left at the program's standard, ${countText(unvouched.length)} are guesses, not measured or of no stated source. A low risk from guessed inputs is worth nothing until they are measured.`;
}

/** At the top of the page. */
const SHOWN_ELSEWHERE: readonly string[] = ['title', 'about', 'invented'] satisfies readonly SettingPath[];

function choiceTable(settings: AssessResult['scenario']['settings']): Table | null {
  const rows = Object.entries(settings).flatMap(([path, value]) => {
    if (SHOWN_ELSEWHERE.includes(path)) return [];
    if (typeof value === 'string') return [[path, value]];
    return value.length === 0 ? [] : [[path, value.map(entryText).join('; ')]];
  });
  return rows.length === 0
    ? null
    : table('Choices, tables and lists of the scenario, in SI units.', ['Entry', 'Value'], rows);
}

function entryText(entry: readonly number[] | Readonly<Record<string, string | number>>): string {
  if (Array.isArray(entry)) return entry.join(', ');
  return Object.entries(entry)
    .map(([name, value]) => `${name} ${value}`)
    .join(', ');
}
