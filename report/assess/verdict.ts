/** Section 1 gives the answer, the number it rests on, and the height as something to do. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { Warning } from '../../sim/basics/warning.js';
import type { CriterionFigure } from '../../sim/decision/result.js';
import { fixedValue } from '../../sim/scenario/lookup.js';
import type { Verdict } from '../../sim/statistics/proportion.js';
import { boundedText, percentEnd, proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { cell, type Table, table } from '../kit/table.js';
import {
  countText,
  flightsText,
  metres,
  percentLimit,
  plainText,
  twoDigitsUp,
  unbroken,
  withUnit,
} from '../kit/words/numbers.js';
import { capitalised, framesSentence, lowerEnd, upperEnd } from '../kit/words/sentences.js';
import { standingMark } from '../kit/words/standing.js';
import { doubtSentence, firmness, headlineMark } from './doubt.js';
import { warningsOf } from './method.js';
import { type PlanTable, planTable } from './plan.js';

import { assuranceSentence, stoppingSentence } from './stopping-and-assurance.js';
import { type ThreeHeights, threeHeights } from './three-heights.js';
import { gaugeChart } from './verdict-chart.js';

export interface VerdictSection {
  readonly verdict: Verdict;
  readonly symbol: string;
  readonly sentence: string;
  readonly frames: string;
  /** The risk at the planned height against its limit. */
  readonly risk: string;
  /** What the inputs that nobody has measured could make of it, and how many are guesses. */
  readonly doubt: string;
  readonly hasWorlds: boolean;
  readonly heights: ThreeHeights | null;
  readonly basis: string;
  readonly settle: string | null;
  readonly assurance: string | null;
  readonly stopping: string | null;
  readonly gauge: Figure;
  readonly plan: PlanTable;
  readonly criteria: Table;
  readonly softMeans: string;
  readonly warnings: readonly Warning[];
}

export async function verdictSection(result: AssessResult, draw: Draw): Promise<VerdictSection> {
  return {
    verdict: result.overall,
    symbol: headlineMark(result),
    sentence: unbroken(`${verdictSentence(result)} ${firmness(result)}`.trim()),
    frames: framesSentence(result.risk),
    risk: unbroken(riskSentence(result)),
    doubt: doubtSentence(result),
    hasWorlds: result.worlds !== undefined && result.worlds !== null,
    heights: threeHeights(result),
    basis: basisSentence(result),
    settle: settleSentence(result),
    assurance: assuranceSentence(result),
    stopping: stoppingSentence(result),
    gauge: await gaugeFigure(result, draw),
    plan: planTable(result),
    criteria: criteriaTable(result),
    softMeans: unbroken(softMeans(result)),
    warnings: warningsOf(result).filter(({ code }) => code !== 'invented' && code !== 'partial'),
  };
}

function gaugeFigure(result: AssessResult, draw: Draw): Promise<Figure> {
  const { acceptableRisk, plannedHeight, risk, doubt } = result;
  const unmeasured = doubt.lower === null || doubt.upper === null ? null : { lower: doubt.lower, upper: doubt.upper };
  const found = `Risk at the planned ${metres(plannedHeight)} against the acceptable ${percentLimit(acceptableRisk)}`;
  const bars =
    unmeasured === null
      ? 'the bar is the interval from sampling'
      : 'the inner bar is the interval from sampling, the outer bar what nobody has measured could make of it';
  return figure(draw, {
    id: 'gauge',
    caption: `${found}; ${bars}.`,
    charts: [(frame) => gaugeChart({ risk, unmeasured }, acceptableRisk, frame)],
    labels: [
      `${found}: ${proportionText(risk)}${unmeasured === null ? '' : `; unmeasured ${percentEnd(unmeasured.lower)} to ${percentEnd(unmeasured.upper)} %`}.`,
    ],
    table: null,
  });
}

function riskSentence({ plannedHeight, risk, acceptableRisk }: AssessResult): string {
  return `Risk of not landing softly at the planned ${metres(plannedHeight)}: ${proportionText(risk)}, acceptable ${percentLimit(acceptableRisk)}.`;
}

function verdictSentence(result: AssessResult): string {
  const height = metres(result.plannedHeight);
  const limit = percentLimit(result.acceptableRisk);
  if (result.overall !== result.verdict) {
    const others = result.criteria.filter((criterion) => criterion.verdict === result.overall);
    const names = others.map((criterion) => criterion.name).join(' and ');
    return result.overall === 'above'
      ? `Throttling up at ${height} breaks a limit: ${names}.`
      : `Throttling up at ${height} is not shown to keep every limit: ${names} is open.`;
  }
  if (result.overall === 'within')
    return `Throttling up at ${height} keeps the risk of not landing softly within the acceptable ${limit}.`;
  if (result.overall === 'above')
    return `Throttling up at ${height} is too risky: more than the acceptable ${limit} of flights do not land softly.`;
  return `It is not shown that throttling up at ${height} keeps the risk within the acceptable ${limit}.`;
}

function basisSentence(result: AssessResult): string {
  const { risk } = result;
  const from = risk.count === 0 || risk.count === risk.flights ? '' : `, from ${flightsText(risk.flights)}`;
  if (risk.flights === 0) return 'No flight was flown.';
  const sure =
    result.verdict === 'above'
      ? `at least ${lowerEnd(risk)}, over the acceptable ${percentLimit(result.acceptableRisk)}`
      : `at most ${upperEnd(risk)}; that upper end decides`;
  return unbroken(
    `Risk of ground impact: ${proportionText(risk)}${from}. If the model and its inputs are right, one may be 95 % sure that the risk is ${sure}.`,
  );
}

function settleSentence(result: AssessResult): string | null {
  if (result.verdict !== 'not shown') return null;
  return result.flightsToSettle === null
    ? 'The risk is too near the limit for more flights to settle it in reasonable time: change the plan, not the number of flights.'
    : `If the risk is as estimated, about ${countText(twoDigitsUp(result.flightsToSettle))} flights would settle it.`;
}

function criteriaTable(result: AssessResult): Table {
  const { plannedHeight, heightDecision } = result;
  const aim = heightDecision?.aim ?? null;
  const fresh = aim === null || aim.height === plannedHeight ? undefined : aim.figure;
  const found = ({ risk, verdict }: CriterionFigure) => [boundedText(risk), cell(verdict, standingMark(verdict))];
  return table(
    'What the scenario demands, what was found (90 % intervals), and whether the upper end of the interval keeps the limit.',
    [
      'Criterion',
      '#Limit',
      `#Planned ${metres(plannedHeight)}`,
      'Verdict',
      ...(fresh === undefined ? [] : [`#Aim ${metres(fresh.height)}`, 'Verdict']),
    ],
    result.criteria.map((criterion) => [
      capitalised(criterion.name),
      `${percentLimit(criterion.limit)}${criterion.assumed === true ? ', assumed by the program' : ''}`,
      ...found(criterion),
      ...(fresh?.criteria.filter(({ name }) => name === criterion.name).flatMap(found) ?? []),
    ]),
  );
}

function softMeans(result: AssessResult): string {
  const [vertical, horizontal, tilt, canopy] = (
    ['vertical_speed', 'horizontal_speed', 'tilt', 'canopy_speed'] as const
  ).map((name) => fixedValue(result.scenario, `criteria.${name}`));
  const speed = (value: number) => withUnit(plainText(value), 'm/s');
  const parts = [
    vertical === null ? [] : [`sinks at ${speed(vertical)} or less`],
    horizontal === null ? [] : [`drifts at ${speed(horizontal)} or less`],
    tilt === null ? [] : [`is tilted by ${withUnit(plainText(Math.round((tilt * 180) / Math.PI)), 'deg')} or less`],
  ].flat();
  const craft = parts.length === 0 ? '' : ` Soft: at touchdown it ${inWords(parts)}.`;
  const hard = vertical === null ? '' : ` Hard: not soft, and sinks at ${speed(2 * vertical)} or less. Crash: faster.`;
  const chute =
    canopy === null || result.scenario.leftOut.includes('parachute')
      ? ''
      : ` Under an open parachute soft is ${speed(canopy)} or less.`;
  return `Ground impact means every flight that does not land softly.${craft}${chute}${hard}`;
}

function inWords(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`;
}
