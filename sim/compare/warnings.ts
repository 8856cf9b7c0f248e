/** Warnings tell what a reader should know before believing a comparison. */

import type { Warning } from '../basics/warning.js';
import { guessesWarning, inventedWarning } from '../check/scenario-warnings.js';
import { hazardWarnings, perfectWarning } from '../scenario/hazards.js';
import type { InputDifference } from '../scenario/input-differences.js';
import type { Scenario } from '../scenario/scenario.js';
import type { ComparedDesign, CompareResult } from './result.js';

interface Findings {
  readonly partial: boolean;
  readonly a: ComparedDesign;
  readonly b: ComparedDesign;
  readonly comparisons: CompareResult['comparisons'];
}

export function compareWarnings(
  { partial, a, b, comparisons }: Findings,
  differences: readonly InputDifference[],
): readonly Warning[] {
  const [{ pairs }] = comparisons;
  const judged = differences.filter(({ path }) => path.startsWith('criteria.')).map(({ path }) => path);
  const warnings: readonly (readonly [boolean, Warning])[] = [
    [
      partial,
      {
        code: 'partial',
        text: `The study was interrupted: all figures speak of the ${pairs.riskA.flights} pairs flown.`,
        advice: 'Run it to the end before you decide anything.',
      },
    ],
    [
      judged.length > 0,
      {
        code: 'criteria differ',
        text: `The two designs are judged by different criteria: ${judged.join(', ')}.`,
        advice:
          'What is soft for one may be hard for the other; give both the same criteria, unless that is the question.',
      },
    ],
    [
      pairs.verdict === 'not settled' && pairs.flightsToSettle !== null,
      {
        code: 'not settled',
        text: `${pairs.riskA.flights} pairs do not tell the two apart.`,
        advice: `About ${pairs.flightsToSettle} pairs give an interval no wider than the difference that matters (--flights). Flying on until the answer pleases is no evidence: choose the number once.`,
      },
    ],
    [
      a.plannedHeight !== b.plannedHeight,
      {
        code: 'planned heights differ',
        text: `A plans ${a.plannedHeight} m, B ${b.plannedHeight} m: the comparison at the planned heights is of design and plan together.`,
        advice: "The comparison at A's planned height is of the designs alone.",
      },
    ],
  ];
  return [
    ...ofBoth(a, b, hazardWarnings),
    ...ofBoth(a, b, perfectWarning),
    ...warnings.flatMap(([holds, warning]) => (holds ? [warning] : [])),
    ...inventedWarning(a.scenario, b.scenario),
    ...guessesWarning(b.scenario, ' of B'),
  ];
}

/** A warning of both designs stands once, a warning of one of them with its letter. */
function ofBoth(
  a: ComparedDesign,
  b: ComparedDesign,
  warningsOf: (scenario: Scenario, whose: string) => readonly Warning[],
): readonly Warning[] {
  const same = (one: Warning) => warningsOf(b.scenario, '').some(({ text }) => text === one.text);
  const shared = warningsOf(a.scenario, '').filter(same);
  const own = ({ scenario }: ComparedDesign, letter: string) =>
    warningsOf(scenario, '').flatMap((one, index) =>
      shared.some(({ text }) => text === one.text) ? [] : [warningsOf(scenario, ` of ${letter}`)[index]],
    );
  return [...shared, ...own(a, 'A'), ...own(b, 'B')];
}
