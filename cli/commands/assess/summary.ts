/** The result of an assessment for a terminal: verdict first, then what it rests on. A view of the result, no more. */
import { assuranceSentence, stoppingSentence } from '../../../report/assess/demands.js';
import { unbroken } from '../../../report/kit/words/numbers.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import type { CriterionFigure } from '../../../sim/decision/result.js';
import type { Verdict } from '../../../sim/statistics/proportion.js';
import { bothFrames, proportionText } from '../../../sim/statistics/words.js';
import { columns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { curveLines } from './summary-curve.js';
import { heightLines, shortHeightLines } from './summary-height.js';
import { helpLines, measureLines, worldsLines } from './summary-inputs.js';

const COLOUR = { within: 'green', above: 'red', 'not shown': 'yellow' } as const;
/** Causes and warnings shown; the report has them all. */
const MOST_CAUSES = 3;
const MOST_WARNINGS = 4;
/** Warnings whose figures stand further up already. */
const SAID = ['wide worlds', 'not assured'];

export function assessSummary(result: AssessResult, paint: Paint): readonly string[] {
  const { plannedHeight, help, curve } = result;
  return [
    ...verdictLines(result, paint),
    '',
    ...heightLines(result, paint),
    ...section('What nobody has measured', paint, worldsLines(result)),
    ...part(`What would help at ${help?.height} m, in flights saved of 100`, paint, helpLines(result)),
    ...section('What to measure first, by the spread of the risk in flights of 100', paint, measureLines(result)),
    ...section(`Criteria at ${plannedHeight} m`, paint, criteriaRows(result)),
    ...section(`What goes wrong at ${plannedHeight} m`, paint, causeRows(result)),
    ...(curve.length > 1 ? section('Risk by throttle-up height', paint, curveLines(result)) : []),
    ...section('Warnings', paint, warningLines(result, paint)),
  ];
}

/** What --quiet prints: the verdict, and the recommended height. */
export function quietLines(result: AssessResult, paint: Paint): readonly string[] {
  return [...verdictLines(result, paint), ...shortHeightLines(result, paint)];
}

/** The answer in a few sentences. */
export function verdictLines(result: AssessResult, paint: Paint): readonly string[] {
  const { risk, plannedHeight, overall, acceptableRisk, flightsToSettle, verdict, criteria } = result;
  const { hitsHard, landsSoftly } = bothFrames(risk);
  const label = headline(result);
  const sentences = [
    `${label}: throttling up at the planned ${plannedHeight} m, ${hitsHard} ${doesOrDo(hitsHard)} not land softly, ${landsSoftly} ${doesOrDo(landsSoftly)}.`,
    `Risk ${proportionText(risk)}, acceptable ${percent(acceptableRisk)}.`,
    verdict === overall ? '' : otherCriterion(criteria, overall),
    verdict === 'not shown' && flightsToSettle !== null
      ? `About ${flightsToSettle} flights would settle it, if the risk is as estimated.`
      : '',
    assuranceSentence(result) ?? '',
    stoppingSentence(result) ?? '',
    result.stopping ? 'Flying on until exit 0 is no evidence.' : '',
    result.partial ? `Interrupted: a partial result, of ${result.flights} flights at this height.` : '',
  ];
  const [first, ...rest] = wrapped(unbroken(sentences.filter((one) => one !== '').join(' ')));
  const colour = isAssured(result) ? COLOUR[overall] : 'yellow';
  return [paint('bold', paint(colour, label)) + first.slice(label.length), ...rest];
}

function isAssured({ assurance, overall }: AssessResult): boolean {
  return overall !== 'within' || (assurance?.met ?? true);
}

function headline(result: AssessResult): string {
  const { overall } = result;
  if (overall === 'within') return isAssured(result) ? 'WITHIN the limits' : 'WITHIN the limits, NOT ASSURED';
  return overall === 'above' ? 'ABOVE the limits' : 'NOT SHOWN to be within the limits';
}

function doesOrDo(flights: string): string {
  return flights.startsWith('about 1 ') ? 'does' : 'do';
}

function otherCriterion(criteria: readonly CriterionFigure[], overall: Verdict): string {
  const deciding = criteria.find(({ verdict }) => verdict === overall);
  return deciding
    ? `What decides is "${deciding.name}": ${proportionText(deciding.risk)}, acceptable ${percent(deciding.limit)}.`
    : '';
}

function criteriaRows({ criteria }: AssessResult): readonly string[] {
  return columns(
    criteria.map(({ name, limit, risk, verdict }) => [name, `limit ${percent(limit)}`, proportionText(risk), verdict]),
  );
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

/** What is wrong stands out; what to do about it follows. */
function warningLines(result: AssessResult, paint: Paint): readonly string[] {
  const warnings = result.warnings.filter(({ code }) => !SAID.includes(code));
  const more = warnings.length - MOST_WARNINGS;
  return [
    ...warnings.slice(0, MOST_WARNINGS).flatMap(({ text, advice }) => {
      const [first, ...rest] = wrapped(unbroken(`${text} ${advice}`), 4);
      return [`${paint('yellow', '  ! ')}${first}`, ...rest];
    }),
    ...(more > 0 ? [`  and ${more} more, in the report`] : []),
  ];
}

/** A title and what stands under it; nothing where there is nothing. */
function part(title: string, paint: Paint, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [paint('bold', title), ...lines];
}

function section(title: string, paint: Paint, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [...part(title, paint, lines), ''];
}

/** A limit as it was set, without noise of the last binary digit. */
function percent(share: number): string {
  return `${Number((100 * share).toPrecision(6))} %`;
}
