/** A comparison for a terminal: verdict first, then the comparisons, the causes and what differs. A view, no more. */

import { doubtOfBoth } from '../../../report/compare/verdict.js';
import { bothChanged } from '../../../report/kit/words/changes.js';
import { limitsKept } from '../../../report/kit/words/sentences.js';
import type { CompareResult, DesignComparison, PairedComparison } from '../../../sim/compare/result.js';
import type { InputDifference } from '../../../sim/scenario/input-differences.js';
import { differenceParts, proportionText, pValueText } from '../../../sim/statistics/words.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, labelled, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningSection } from '../../terminal/warnings.js';

/** Causes and differences shown; the report has them all. */
const MOST_CAUSES = 6;
const MOST_DIFFERENCES = 12;

export function compareSummary(result: CompareResult, paint: Paint): readonly string[] {
  return [
    ...compareVerdictLines(result, paint),
    ...wrapped(doubtOfBoth(result)),
    '',
    ...labelled('A', `${result.a.scenario.title}, planned ${result.a.plannedHeight} m`, 4),
    ...labelled('B', `${result.b.scenario.title}, planned ${result.b.plannedHeight} m`, 4),
    '',
    ...result.comparisons.flatMap((one) => [
      ...(one.status === 'compared'
        ? comparisonLines(one, paint)
        : wrapped(`${NAMES[one.basis]}: not compared. ${one.why}`, 2)),
      '',
    ]),
    ...causeLines(result.comparisons[0], paint),
    ...differenceLines(result.differences, paint),
    ...warningSection(result.warnings, paint),
  ];
}

/** The answer in a sentence or two; all that --quiet prints. */
export function compareVerdictLines(result: CompareResult, paint: Paint): readonly string[] {
  const [{ pairs }] = result.comparisons;
  const label = headline(result);
  const part = result.partial ? ` Interrupted after ${result.flights} pairs: this is a partial result.` : '';
  const { a, b } = result;
  const kept = ` A ${limitsKept(a.overall, a.criteria)}. B ${limitsKept(b.overall, b.criteria)}.`;
  const [first, ...rest] = wrapped(`${label}: ${answer(pairs)}${kept}${part}`);
  return [paint('bold', label) + first.slice(label.length), ...rest, ...changedLines(bothChanged(a, b), paint)];
}

function headline({ verdict, identical }: CompareResult): string {
  if (verdict === 'no difference that matters') return identical ? 'NO DIFFERENCE' : 'NO DIFFERENCE THAT MATTERS';
  return verdict === 'not settled' ? 'NOT SETTLED' : verdict.toUpperCase();
}

function answer(pairs: PairedComparison): string {
  const { verdict, identical, difference, riskA, flightsToSettle } = pairs;
  const { estimate, lower, upper } = differenceParts(difference);
  const alike = `the outcomes of all ${riskA.flights} pairs of flights are identical`;
  if (identical && verdict === 'no difference that matters') return `${alike}.`;
  if (verdict === 'B safer') return `B saves about ${estimate} flights in 100 (${lower} to ${upper}).`;
  if (verdict === 'A safer') {
    const lost = differenceParts({
      estimate: -difference.estimate,
      lower: -difference.upper,
      upper: -difference.lower,
    });
    return `B loses about ${lost.estimate} flights more in 100 (${lost.lower} to ${lost.upper}).`;
  }
  const between = `${identical ? `${alike}; still ` : ''}B saves between ${lower} and ${upper} flights in 100`;
  if (verdict === 'no difference that matters') return `${between}, less than ${percent(pairs.matters)} either way.`;
  const settle =
    flightsToSettle === null
      ? ''
      : ` About ${flightsToSettle} pairs give an interval within ${percent(pairs.matters)} either way.`;
  return `${between}.${settle}`;
}

function percent(share: number): string {
  return String(Number((100 * share).toPrecision(6)));
}

const NAMES = {
  planned: 'At the planned heights',
  'planned of A': "At A's planned height",
  aims: 'Each at its aim',
} as const;

function comparisonLines({ basis, pairs }: DesignComparison, paint: Paint): readonly string[] {
  const { heightA, heightB, riskA, riskB, difference } = pairs;
  const { onlyA, onlyB, both, neither } = pairs.pairs;
  const { estimate, lower, upper } = differenceParts(difference);
  const heights = heightA === heightB ? `both ${heightA} m` : `A ${heightA} m, B ${heightB} m`;
  return [
    paint('bold', `${NAMES[basis]} (${heights}): ${pairs.verdict}`),
    ...columns([
      ['risk of A', proportionText(riskA)],
      ['risk of B', proportionText(riskB)],
      ['B saves', `${estimate} flights in 100 (${lower} to ${upper}), 95 % interval`],
      ['pairs', `not soft with A alone ${onlyA}, B alone ${onlyB}, both ${both}, neither ${neither}`],
      ['by luck', `chance ${pValueText(pairs.pValue)} of such a split (exact McNemar)`],
    ]),
  ];
}

function causeLines({ pairs }: DesignComparison, paint: Paint): readonly string[] {
  if (pairs.identical) return [];
  const list = (title: string, rows: PairedComparison['saves']) => {
    const shown = rows.slice(0, MOST_CAUSES).map(({ cause, flights }) => `${cause} ${flights}`);
    const more = rows.length - shown.length;
    const text = shown.length === 0 ? 'nothing' : shown.join(', ');
    return labelled(`  ${title}`, `${text}${more > 0 ? ` and ${more} rarer` : ''}`, 12);
  };
  return [
    paint('bold', 'Pairs that end differently at the planned heights, by cause'),
    ...list('B saves', pairs.saves),
    ...list('B breaks', pairs.breaks),
    '',
  ];
}

function differenceLines(differences: readonly InputDifference[], paint: Paint): readonly string[] {
  if (differences.length === 0) return ['The two scenarios say the same in everything that matters to a flight.', ''];
  const shown = differences
    .slice(0, MOST_DIFFERENCES)
    .flatMap(({ path, a, b }) => [
      `  ${path}`,
      ...labelled('    A', a ?? 'left out', 6),
      ...labelled('    B', b ?? 'left out', 6),
    ]);
  const more = differences.length - MOST_DIFFERENCES;
  return [
    paint('bold', 'In what they differ'),
    ...shown,
    ...(more > 0 ? [`  and ${more} more, in the report`] : []),
    '',
  ];
}
