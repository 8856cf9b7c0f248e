/** The verdict of a comparison stands beside what it rests on and the two designs. */
import type { Warning } from '../../sim/basics/warning.js';
import type { ComparedDesign, CompareResult, CompareVerdict, PairedComparison } from '../../sim/compare/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import {
  boundedText,
  differenceParts,
  percentEnd,
  percentParts,
  proportionText,
  pValueText,
} from '../../sim/statistics/words.js';
import { cell, type Table, table } from '../kit/table.js';
import {
  countText,
  flightsText,
  metres,
  percentLimit,
  plainText,
  prose,
  twoDigitsUp,
  unbroken,
  withMinus,
} from '../kit/words/numbers.js';
import { capitalised, limitsKept, VERDICT_WORDS } from '../kit/words/sentences.js';
import { standingMark } from '../kit/words/standing.js';
import { heightsText } from './heights-compared.js';

export interface VerdictSection {
  readonly symbol: string;
  readonly sentence: string;
  /** Whether each design keeps its limits, which the first sentence does not say. */
  readonly kept: string;
  /** How far that holds for what nobody has measured. */
  readonly doubt: string;
  readonly frames: string;
  readonly basis: string;
  readonly settle: string | null;
  readonly designs: Table;
  /** Every criterion of each design at its planned height. */
  readonly limits: Table;
  readonly warnings: readonly Warning[];
}

const SYMBOLS: Readonly<Record<CompareVerdict, string>> = {
  'B safer': 'verdict-within',
  'A safer': 'verdict-above',
  'no difference that matters': 'verdict-equal',
  'not settled': 'verdict-not-shown',
};

export function verdictSection(result: CompareResult): VerdictSection {
  const [first] = result.comparisons;
  const { riskA, riskB } = first.pairs;
  return {
    symbol: SYMBOLS[result.verdict],
    sentence: unbroken(verdictSentence(first.pairs)),
    kept: unbroken(
      `A ${limitsKept(result.a.overall, result.a.criteria)}. B ${limitsKept(result.b.overall, result.b.criteria)}.`,
    ),
    doubt: doubtOfBoth(result),
    frames: unbroken(
      `${capitalised(heightsText(first))}: ${hits('A', riskA)}, ${hits('B', riskB)}; all others land softly.`,
    ),
    basis: unbroken(basisSentence(first.pairs)),
    settle: settleSentence(first.pairs),
    designs: designsTable(result, riskA, riskB),
    limits: limitsTable(result),
    warnings: result.warnings.map(({ code, text, advice }) => ({ code, text: prose(text), advice: prose(advice) })),
  };
}

/** "with A about 2.8 flights in 100 do not land softly": with the digits that it bears, so that a small difference shows. */
function hits(letter: string, risk: Proportion): string {
  if (risk.count === 0) return `with ${letter} all of ${flightsText(risk.flights)} land softly`;
  return `with ${letter} about ${percentParts(risk).estimate} flights in 100 do not land softly`;
}

/** The size of a difference in flights in 100, whoever is the safer, with its interval: "11.5 (10.1 to 13.0)". */
function sizeText({ difference, verdict }: PairedComparison): string {
  const { estimate, lower, upper } = difference;
  const turned = verdict === 'A safer' ? { estimate: -estimate, lower: -upper, upper: -lower } : difference;
  const parts = differenceParts(turned);
  return `${withMinus(parts.estimate)} (${withMinus(parts.lower)} to ${withMinus(parts.upper)})`;
}

/** The verdict in one sentence. */
function verdictSentence(pairs: PairedComparison): string {
  const { verdict, identical, riskA, matters, difference } = pairs;
  if (verdict === 'B safer') return `B is safer than A: it saves about ${sizeText(pairs)} flights in 100.`;
  if (verdict === 'A safer') return `A is safer than B: B loses about ${sizeText(pairs)} flights more in 100.`;
  const alike = `all ${countText(riskA.flights)} pairs of flights ended alike`;
  if (identical && verdict === 'no difference that matters') return `There is no difference: ${alike}.`;
  const { lower, upper } = differenceParts(difference);
  if (verdict === 'no difference that matters')
    return `There is no difference that matters: B saves between ${withMinus(lower)} and ${withMinus(upper)} flights in 100, less than ${plainText(100 * matters)} either way.`;
  return `It is not settled which is safer${identical ? `, though ${alike}` : ''}: B saves between ${withMinus(lower)} and ${withMinus(upper)} flights in 100.`;
}

/** What the verdict rests on: the pairs and the test. */
function basisSentence(pairs: PairedComparison): string {
  const { both, onlyA, onlyB, neither } = pairs.pairs;
  const total = countText(both + onlyA + onlyB + neither);
  const counts = `Of ${total} pairs of flights on the same draws, ${countText(onlyA)} do not land softly with A alone, ${countText(onlyB)} with B alone, ${countText(both)} with both, ${countText(neither)} with neither.`;
  const test =
    onlyA + onlyB === 0
      ? 'With no pair that ended differently there is nothing to test.'
      : `If the two were equally safe, a split so uneven or more would come about with a chance of ${pValueText(pairs.pValue)} (exact McNemar test).`;
  return `${counts} ${test}`;
}

/** What more flights would do, where it is not settled. */
function settleSentence({ verdict, flightsToSettle, matters }: PairedComparison): string | null {
  if (verdict !== 'not settled') return null;
  return flightsToSettle === null
    ? null
    : `About ${countText(twoDigitsUp(flightsToSettle))} pairs would give an interval no wider than ${plainText(100 * matters)} flights in 100 either way, whatever the answer then is.`;
}

function designsTable({ a, b }: CompareResult, riskA: Proportion, riskB: Proportion): Table {
  const row = (letter: string, design: ComparedDesign, risk: Proportion) => [
    letter,
    design.scenario.title,
    metres(design.plannedHeight),
    proportionText(risk),
    cell(VERDICT_WORDS[design.overall], standingMark(design.overall)),
    aimOf(design),
  ];
  return table(
    'The two designs; the risk is that of not landing softly at the planned height.',
    ['Design', 'Scenario', '#Planned height', '#Risk (90 % interval)', 'All its limits', '#Aim'],
    [row('A', a, riskA), row('B', b, riskB)],
  );
}

function limitsTable({ a, b }: CompareResult): Table {
  const rows = (letter: string, { criteria }: ComparedDesign) =>
    criteria.map(({ name, limit, assumed, risk, verdict }) => [
      letter,
      capitalised(name),
      `${percentLimit(limit)}${assumed === true ? ', assumed by the program' : ''}`,
      boundedText(risk),
      cell(VERDICT_WORDS[verdict], standingMark(verdict)),
    ]);
  return table(
    'What each scenario demands, and what was found at its planned height (90 % intervals).',
    ['Design', 'Criterion', '#Limit', '#Found', 'Verdict'],
    [...rows('A', a), ...rows('B', b)],
  );
}

function aimOf({ heights }: ComparedDesign): string {
  if (heights === null) return 'not sought';
  if (heights.aim?.figure.verdict === 'within') return metres(heights.aim.height);
  return heights.status === 'none serves' ? 'none serves' : 'not shown';
}

/** How far each verdict holds for what nobody has measured, as far as that was asked. */
export function doubtOfBoth({ a, b }: CompareResult): string {
  const text = (letter: string, { doubt, criteria: [{ limit }] }: ComparedDesign) => {
    const { lower, upper, shareWithin, guesses, inputs } = doubt;
    const range =
      lower === null || upper === null || shareWithin === null
        ? ''
        : ` what nobody has measured could make its risk ${percentEnd(lower)} to ${percentEnd(upper)} %, within ${percentLimit(limit)} in about ${Math.round(100 * shareWithin)} of 100 plausible cases;`;
    return `${letter}:${range} ${countText(guesses)} of ${countText(inputs)} inputs are guesses.`;
  };
  const asked = [a, b].every(({ doubt }) => doubt.status === 'not asked')
    ? 'What nobody has measured is drawn alike for both, and what it could make of each was not asked here: see the report of each. '
    : '';
  return unbroken(`${asked}${text('A', a)} ${text('B', b)}`);
}
