/** The verdict, what it rests on, and the two designs beside each other. */

import type { Warning } from '../../sim/basics/warning.js';
import type { ComparedDesign, CompareResult, CompareVerdict } from '../../sim/compare/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import { percentParts, proportionText } from '../../sim/statistics/words.js';
import { type Table, table } from '../kit/table.js';
import { flightsText, metres, prose, unbroken } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { basisSentence, heightsText, settleSentence, verdictSentence } from './words.js';

export interface VerdictSection {
  readonly symbol: string;
  readonly sentence: string;
  readonly frames: string;
  readonly basis: string;
  readonly settle: string | null;
  readonly designs: Table;
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
    frames: unbroken(
      `${capitalised(heightsText(first))}: ${hits('A', riskA)}, ${hits('B', riskB)}; all others land softly.`,
    ),
    basis: unbroken(basisSentence(first.pairs)),
    settle: settleSentence(first.pairs),
    designs: designsTable(result, riskA, riskB),
    warnings: result.warnings.map(({ code, text, advice }) => ({ code, text: prose(text), advice: prose(advice) })),
  };
}

/** "with A about 2.8 flights in 100 hit the ground": with the digits that it bears, so that a small difference shows. */
function hits(letter: string, risk: Proportion): string {
  if (risk.count === 0) return `with ${letter} none of ${flightsText(risk.flights)} hits the ground`;
  return `with ${letter} about ${percentParts(risk).estimate} flights in 100 hit the ground`;
}

function designsTable({ a, b }: CompareResult, riskA: Proportion, riskB: Proportion): Table {
  const row = (letter: string, design: ComparedDesign, risk: Proportion) => [
    letter,
    design.scenario.title,
    metres(design.plannedHeight),
    proportionText(risk),
    recommendedText(design),
  ];
  return table(
    'The two designs; the risk is that of hitting the ground at the planned height.',
    ['Design', 'Scenario', '#Planned height', '#Risk (90 % interval)', '#Recommended height'],
    [row('A', a, riskA), row('B', b, riskB)],
  );
}

function recommendedText({ recommendation }: ComparedDesign): string {
  if (recommendation === null) return 'not sought';
  if (recommendation.height !== null) return metres(recommendation.height);
  return recommendation.status === 'none serves' ? 'none serves' : 'not shown';
}
