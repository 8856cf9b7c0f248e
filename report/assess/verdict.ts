/** Section 1 gives the answer, the number it rests on, and the height as something to do. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { Warning } from '../../sim/basics/warning.js';
import type { CriterionFigure } from '../../sim/decision/result.js';
import { fixedValue } from '../../sim/scenario/lookup.js';
import type { Verdict } from '../../sim/statistics/proportion.js';
import { boundedText, proportionText } from '../../sim/statistics/words.js';
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
import { warningsOf } from './method.js';
import { type PlanTable, planTable } from './plan.js';
import { type Recommendation, recommendation } from './recommendation.js';
import { assuranceSentence, stoppingSentence } from './stopping-and-assurance.js';
import { gaugeChart } from './verdict-chart.js';
import { worldsSentence } from './worlds.js';

export interface VerdictSection {
  readonly verdict: Verdict;
  readonly symbol: string;
  readonly sentence: string;
  readonly frames: string;
  readonly recommendation: Recommendation | null;
  readonly basis: string;
  readonly settle: string | null;
  /** What the inputs that nobody has measured could make of it. */
  readonly worlds: string | null;
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
    symbol: standingMark(result.overall),
    sentence: unbroken(verdictSentence(result)),
    frames: framesSentence(result.risk),
    recommendation: recommendation(result),
    basis: basisSentence(result),
    settle: settleSentence(result),
    worlds: worldsSentence(result),
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
  const { acceptableRisk, recommended, plannedHeight } = result;
  const planned = { name: `planned ${metres(plannedHeight)}`, risk: result.risk };
  const rows =
    recommended === undefined || recommended === null || recommended.height === plannedHeight
      ? [{ ...planned, name: null }]
      : [{ name: `recommended ${metres(recommended.height)}`, risk: recommended.risk }, planned];
  const at = rows.length === 1 ? ` at ${metres(plannedHeight)}` : '';
  const found = `Risk${at} against the acceptable ${percentLimit(acceptableRisk)}`;
  return figure(draw, {
    id: 'gauge',
    caption: `${found}; ${rows.length === 1 ? 'the bar is the interval' : 'the bars are intervals'}.`,
    charts: [(frame) => gaugeChart(rows, acceptableRisk, frame)],
    labels: [`${found}: ${rows.map(({ name, risk }) => `${name ?? ''} ${proportionText(risk)}`.trim()).join('; ')}.`],
    table: null,
  });
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
    return `Throttling up at ${height} keeps the risk of hitting the ground within the acceptable ${limit}.`;
  if (result.overall === 'above')
    return `Throttling up at ${height} is too risky: more than the acceptable ${limit} of flights hit the ground.`;
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
  const { recommended, plannedHeight, heightDecision } = result;
  const fresh =
    recommended === undefined || recommended === null || recommended.height === plannedHeight
      ? undefined
      : heightDecision?.confirmed.find(({ height }) => height === recommended.height);
  const found = ({ risk, verdict }: CriterionFigure) => [boundedText(risk), cell(verdict, standingMark(verdict))];
  return table(
    'What the scenario demands, what was found (90 % intervals), and whether the upper end of the interval keeps the limit.',
    [
      'Criterion',
      '#Limit',
      ...(fresh === undefined ? [] : [`#Recommended ${metres(fresh.height)}`, 'Verdict']),
      `#Planned ${metres(plannedHeight)}`,
      'Verdict',
    ],
    result.criteria.map((criterion) => [
      capitalised(criterion.name),
      `${percentLimit(criterion.limit)}${criterion.assumed === true ? ', assumed by the program' : ''}`,
      ...(fresh?.criteria.filter(({ name }) => name === criterion.name).flatMap(found) ?? []),
      ...found(criterion),
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
  return `Ground impact, \u201chitting the ground\u201d, means every flight that does not land softly.${craft}${chute}${hard}`;
}

function inWords(parts: readonly string[]): string {
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`;
}
