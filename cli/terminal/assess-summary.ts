/** The result of an assessment for a terminal: verdict first, then what it rests on. A view of the result, no more. */
import type { AssessResult, Criterion, Verdict } from '../../sim/result/result.js';
import { bothFrames, proportionText } from '../../sim/statistics/words.js';
import { columns, labelled, wrapped } from './layout.js';
import type { Paint } from './streams.js';

const COLOUR = { within: 'green', above: 'red', 'not shown': 'yellow' } as const;
/** Causes shown; the report has them all. */
const MOST_CAUSES = 8;

export function assessSummary(result: AssessResult, paint: Paint): readonly string[] {
  return [
    ...verdictLines(result, paint),
    '',
    ...section('Criteria', paint, criteriaRows(result)),
    ...section(`What goes wrong at ${result.plannedHeight} m`, paint, causeRows(result)),
    ...(result.curve.length > 1
      ? section('Chance of not landing softly, by throttle-up height', paint, curveRows(result))
      : []),
    ...warningLines(result, paint),
  ];
}

/** The answer in a sentence or two; all that --quiet prints. */
export function verdictLines(result: AssessResult, paint: Paint): readonly string[] {
  const { risk, plannedHeight, overall, acceptableRisk, flightsToSettle, verdict } = result;
  const { hitsHard, landsSoftly } = bothFrames(risk);
  const part = result.partial ? ` Interrupted after ${result.flights} flights: this is a partial result.` : '';
  const settle =
    verdict === 'not shown' && flightsToSettle !== null
      ? ` About ${flightsToSettle} flights would settle it, if the risk is as estimated.`
      : '';
  const other = verdict !== overall ? ` ${otherCriterion(result.criteria, overall)}` : '';
  const text =
    `${headline(overall)}: throttling up at ${plannedHeight} m, ${hitsHard} ${hitsHard.startsWith('about 1 ') ? 'does' : 'do'} not land softly,` +
    ` ${landsSoftly} ${landsSoftly.startsWith('about 1 ') ? 'does' : 'do'}. Risk ${proportionText(risk)}, acceptable ${percent(acceptableRisk)}.${other}${settle}${part}`;
  const [first, ...rest] = wrapped(text);
  const label = headline(overall);
  return [paint('bold', paint(COLOUR[overall], label)) + first.slice(label.length), ...rest];
}

function headline(verdict: Verdict): string {
  if (verdict === 'within') return 'WITHIN the limits';
  return verdict === 'above' ? 'ABOVE the limits' : 'NOT SHOWN to be within the limits';
}

function otherCriterion(criteria: readonly Criterion[], overall: Verdict): string {
  const deciding = criteria.find(({ verdict }) => verdict === overall);
  return deciding
    ? `What decides is "${deciding.name}": ${proportionText(deciding.risk)}, acceptable ${percent(deciding.limit)}.`
    : '';
}

function criteriaRows({ criteria }: AssessResult): readonly string[] {
  const rows = criteria.map(({ name, limit, risk, verdict }) => [
    name,
    `limit ${percent(limit)}`,
    proportionText(risk),
    verdict,
  ]);
  return columns(rows);
}

function causeRows({ causes }: AssessResult): readonly string[] {
  if (causes.length === 0) return ['  nothing in the flights flown'];
  const rows = causes.slice(0, MOST_CAUSES).map(({ cause, risk, word }) => [cause, proportionText(risk), word]);
  const more = causes.length - MOST_CAUSES;
  return [
    ...columns(rows),
    ...(more > 0 ? [`  and ${more} rarer ${more === 1 ? 'cause' : 'causes'}, in the report`] : []),
  ];
}

function curveRows({ curve, plannedHeight, flights }: AssessResult): readonly string[] {
  const rows = curve.map(({ height, risk, verdict }) => [
    `${height} m`,
    proportionText(risk),
    verdict,
    height === plannedHeight ? 'planned' : risk.flights < flights ? `stopped at ${risk.flights} flights` : '',
  ]);
  return columns(rows, 2, [0]);
}

function warningLines({ warnings }: AssessResult, paint: Paint): readonly string[] {
  if (warnings.length === 0) return [];
  const lines = warnings.flatMap(({ text, advice }) => [
    ...labelled('  !', text, 4).map((line) => paint('yellow', line)),
    ...labelled('', advice, 4),
  ]);
  return section('Warnings', paint, lines);
}

function section(title: string, paint: Paint, lines: readonly string[]): readonly string[] {
  return [paint('bold', title), ...lines, ''];
}

/** A limit as it was set, without noise of the last binary digit. */
function percent(share: number): string {
  return `${Number((100 * share).toPrecision(6))} %`;
}
