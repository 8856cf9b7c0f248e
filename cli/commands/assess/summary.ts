/** The result of an assessment for a terminal: verdict first, then what it rests on. A view of the result, no more. */
import { doubtSentence, firmness, headlineSign } from '../../../report/assess/doubt.js';
import { assuranceSentence, stoppingSentence } from '../../../report/assess/stopping-and-assurance.js';
import { unbroken } from '../../../report/kit/words/numbers.js';
import type { HelpRow, MeasureRow } from '../../../sim/assess/decisions.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import type { Warning } from '../../../sim/basics/warning.js';
import type { CriterionFigure } from '../../../sim/decision/result.js';
import { HAZARDS } from '../../../sim/scenario/hazards.js';
import { flightsToSettle, type Verdict } from '../../../sim/statistics/proportion.js';
import { bothFrames, boundedText, proportionText, riskWord } from '../../../sim/statistics/words.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { hazardLines } from '../../terminal/warnings.js';
import { curveLines, heightLines, shortHeightLines } from './summary-heights.js';

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
    ...part(`What would help at ${help?.height} m, in flights saved of 100`, paint, helpLines(result)),
    ...section(
      `What to measure first at ${plannedHeight} m, by the spread of the risk in flights of 100`,
      paint,
      measureLines(result),
    ),
    ...section(`Criteria at ${plannedHeight} m`, paint, criteriaRows(result)),
    ...section(`What goes wrong at ${plannedHeight} m`, paint, causeRows(result)),
    ...(curve.length > 1 ? section('Risk by throttle-up height', paint, curveLines(result)) : []),
    ...section('Warnings', paint, warningLines(result, paint)),
  ];
}

/** What --quiet prints: the verdict, and the three heights. */
export function quietLines(result: AssessResult, paint: Paint): readonly string[] {
  return [...verdictLines(result, paint), ...shortHeightLines(result, paint), ...hazardLines(result.warnings, paint)];
}

/** The answer in a few sentences: the verdict, the risk, and how far that holds. */
export function verdictLines(result: AssessResult, paint: Paint): readonly string[] {
  const { risk, plannedHeight, overall, acceptableRisk, flightsToSettle, verdict, criteria, scenario } = result;
  const { hitsHard, landsSoftly } = bothFrames(risk);
  const label = headline(result);
  const sentences = [
    `${label}: throttling up at the planned ${plannedHeight} m, ${hitsHard} ${doesOrDo(hitsHard)} not land softly, ${landsSoftly} ${doesOrDo(landsSoftly)}.`,
    firmness(result),
    verdict === overall ? '' : otherCriterion(criteria, overall),
    verdict === 'not shown' && overall === verdict && flightsToSettle !== null
      ? `About ${flightsToSettle} flights would settle it, if the risk is as estimated.`
      : '',
    assuranceSentence(result) ?? '',
    stoppingSentence(result) ?? '',
    result.stopping ? 'Flying on until exit 0 is no evidence.' : '',
    result.partial ? `Interrupted: a partial result, of ${result.flights} flights at this height.` : '',
  ];
  const [first, ...rest] = wrapped(unbroken(sentences.filter((one) => one !== '').join(' ')));
  return [
    paint('bold', label) + first.slice(label.length),
    ...rest,
    ...wrapped(unbroken(`Risk ${proportionText(risk)}, acceptable ${percent(acceptableRisk)}.`)),
    ...wrapped(doubtSentence(result)),
    ...changedLines(scenario.changed, paint),
  ];
}

function isAssured({ assurance, overall }: AssessResult): boolean {
  return overall !== 'within' || (assurance?.met ?? true);
}

function headline(result: AssessResult): string {
  const { overall } = result;
  const sign = headlineSign(result);
  if (overall === 'within')
    return isAssured(result) ? `${sign} WITHIN the limits` : `${sign} WITHIN the limits, NOT ASSURED`;
  return overall === 'above' ? `${sign} ABOVE the limits` : `${sign} NOT SHOWN to be within the limits`;
}

function doesOrDo(flights: string): string {
  return flights.startsWith('about 1 ') ? 'does' : 'do';
}

function otherCriterion(criteria: readonly CriterionFigure[], overall: Verdict): string {
  const deciding = criteria.find(({ verdict }) => verdict === overall);
  return deciding
    ? `What decides is "${deciding.name}": ${boundedText(deciding.risk)}, acceptable ${percent(deciding.limit)}.${settling(deciding)}`
    : '';
}

/** The flights that would settle it, where it is only not shown. */
function settling({ risk, limit }: CriterionFigure): string {
  const flights = flightsToSettle(risk, limit);
  return flights === null ? '' : ` About ${flights} flights would settle it, if the risk is as estimated.`;
}

function criteriaRows({ criteria }: AssessResult): readonly string[] {
  return columns(
    criteria.map(({ name, limit, assumed, risk, verdict }) => [
      name.replace('inside the keep-out circle', 'inside keep-out'),
      `${assumed === true ? 'assumed' : 'limit'} ${percent(limit)}`,
      boundedText(risk),
      verdict,
    ]),
  );
}

function causeRows({ causes, risk }: AssessResult): readonly string[] {
  if (causes.length === 0) return ['  nothing in the flights flown'];
  const rows = [
    ['all together', proportionText(risk), `"${riskWord(risk.upper)}" (MIL-STD-882E)`],
    ...causes.slice(0, MOST_CAUSES).map(({ cause, risk }) => [cause, proportionText(risk), '']),
  ];
  const more = causes.length - MOST_CAUSES;
  return [
    ...columns(rows),
    ...(more > 0 ? [`  and ${more} rarer ${more === 1 ? 'cause' : 'causes'}, in the report`] : []),
  ];
}

/** Rows of a short list; the report has them all. */
const MOST_ROWS = 3;

/** One line for each input: where it is best held, and what that saves. */
function helpLines({ help }: AssessResult): readonly string[] {
  const best = new Map<string, HelpRow>();
  for (const row of help?.rows ?? []) if (!best.has(row.path)) best.set(row.path, row);
  const rows = [...best.values()].filter(({ savedInHundred }) => savedInHundred > 0).slice(0, MOST_ROWS);
  return columns(
    rows.map(({ path, heldAt, savedInHundred, lower, upper }) => [
      path,
      `at its ${heldAt}`,
      `${savedInHundred.toFixed(1)} (${lower.toFixed(1)} to ${upper.toFixed(1)})`,
      lower > 0 ? '' : 'may be chance',
    ]),
  );
}

/** What would be left of the spread of the risk after measuring one input exactly. */
function measureLines({ measureFirst, worlds }: AssessResult): readonly string[] {
  const now = worlds?.sd ?? 0;
  const rows = (measureFirst ?? []).filter(({ sd }) => sd > 0).slice(0, MOST_ROWS);
  // What may be chance leaves nothing that could be said.
  const spread = ({ sd, sdAfter, shown }: MeasureRow) =>
    sdAfter === null || now === 0 || !shown
      ? `spreads the risk by ${inHundred(sd)}`
      : `leaves a spread of ${inHundred(sdAfter)} of ${inHundred(now)}`;
  return columns(rows.map((row) => [row.path, spread(row), row.shown ? '' : 'may be chance']));
}

/** Flights in 100 with two digits. */
function inHundred(share: number): string {
  return (100 * share).toPrecision(2);
}

/** What is wrong stands out; what to do about it follows. */
function warningLines(result: AssessResult, paint: Paint): readonly string[] {
  const warnings = result.warnings.filter(({ code }) => !SAID.includes(code));
  const always = warnings.filter(isAlwaysShown);
  const others = warnings.filter((one) => !isAlwaysShown(one));
  const more = others.length - MOST_WARNINGS;
  return [
    ...[...always, ...others.slice(0, MOST_WARNINGS)].flatMap(({ text, advice }) => {
      const [first, ...rest] = wrapped(unbroken(`${text} ${advice}`), 4);
      return [`${paint('yellow', '  ! ')}${first}`, ...rest];
    }),
    ...(more > 0 ? [`  and ${more} more, in the report`] : []),
  ];
}

/** Hazards to people, and what nobody measured and the figures above leave out, are never one warning too many. */
function isAlwaysShown({ code }: Warning): boolean {
  return [...HAZARDS, 'left at perfect', 'exact guesses', 'few trials'].includes(code);
}

/** A title and the lines under it; nothing where there are no lines. */
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
