/** Section 1: the answer, the number it rests on, and the height as something to do. */
import type { Spread, Verdict, Warning } from '../../sim/result/result.js';
import { proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../charts/draw.js';
import { gaugeChart } from '../charts/gauge.js';
import type { ReportedResult } from '../decisions.js';
import { cell, type Figure, figure, type Table, table } from '../table.js';
import { fixedInput, setting } from '../words/inputs.js';
import {
  countText,
  FEW,
  flightsText,
  metres,
  percentLimit,
  plainText,
  spreadTexts,
  unbroken,
  withUnit,
} from '../words/numbers.js';
import { capitalised, framesSentence, lowerEnd, upperEnd, VERDICT_WORDS } from '../words/sentences.js';
import { warningsOf } from './method.js';
import { type Recommendation, recommendation } from './recommendation.js';

export interface Fact {
  readonly term: string;
  readonly value: string;
  /** What 9 flights of 10 lie between, or null. */
  readonly range: string | null;
  readonly note: string;
}

export interface VerdictSection {
  readonly verdict: Verdict;
  readonly symbol: string;
  readonly sentence: string;
  readonly frames: string;
  readonly recommendation: Recommendation | null;
  readonly basis: string;
  readonly settle: string | null;
  readonly gauge: Figure;
  readonly facts: readonly Fact[];
  readonly criteria: Table;
  readonly softMeans: string;
  readonly warnings: readonly Warning[];
}

export async function verdictSection(result: ReportedResult, draw: Draw): Promise<VerdictSection> {
  return {
    verdict: result.overall,
    symbol: `verdict-${result.overall.replace(' ', '-')}`,
    sentence: unbroken(verdictSentence(result)),
    frames: framesSentence(result.risk),
    recommendation: recommendation(result),
    basis: basisSentence(result),
    settle: settleSentence(result),
    gauge: await gaugeFigure(result, draw),
    facts: facts(result),
    criteria: criteriaTable(result),
    softMeans: unbroken(softMeans(result)),
    warnings: warningsOf(result).filter(({ code }) => code !== 'invented' && code !== 'partial'),
  };
}

function gaugeFigure(result: ReportedResult, draw: Draw): Promise<Figure> {
  const { risk, acceptableRisk } = result;
  const found = `Risk at ${metres(result.plannedHeight)} against the acceptable ${percentLimit(acceptableRisk)}`;
  return figure(draw, {
    id: 'gauge',
    caption: `${found}; the bar is the interval.`,
    charts: [(frame) => gaugeChart(risk, acceptableRisk, frame)],
    labels: [`${found}: ${proportionText(risk)}.`],
    table: null,
  });
}

function verdictSentence(result: ReportedResult): string {
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

function basisSentence(result: ReportedResult): string {
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

function settleSentence(result: ReportedResult): string | null {
  if (result.verdict !== 'not shown') return null;
  return result.flightsToSettle === null
    ? 'The risk is too near the limit for more flights to settle it in reasonable time: change the plan, not the number of flights.'
    : `If the risk is as estimated, about ${countText(roundedUp(result.flightsToSettle))} flights would settle it.`;
}

/** Two leading digits, upwards. */
function roundedUp(value: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / unit) * unit;
}

const ORDERS: Readonly<Record<string, (height: string) => string>> = {
  'call-out': (height) => `Order full throttle when the height read aloud comes to ${height}.`,
  picture: (height) => `Order full throttle when the picture looks like ${height}, by the pilot's judgement.`,
  timer: (height) => `The timer fires when the ordinary flight would pass ${height}.`,
  automatic: (height) => `The craft throttles up by itself when its barometer reads ${height}.`,
};

function medianAndRange(spread: Spread, unit: string) {
  const texts = spreadTexts(spread, unit);
  if (texts === null) return { value: 'in no flight', range: null };
  return {
    value: withUnit(texts.median, unit),
    range:
      spread.flights < FEW
        ? `only ${flightsText(spread.flights)}`
        : unbroken(`9 flights of 10: ${texts.low} to ${withUnit(texts.high, unit)}`),
  };
}

function facts(result: ReportedResult): Fact[] {
  const height = metres(result.plannedHeight);
  const order = ORDERS[setting(result.scenario, 'plan.cue')];
  return [
    {
      term: 'Planned throttle-up height',
      value: height,
      range: null,
      note: order === undefined ? 'Above ground.' : order(height),
    },
    {
      term: 'Seconds after ejection',
      ...medianAndRange(result.orderTime, 's'),
      note:
        setting(result.scenario, 'plan.cue') === 'timer'
          ? 'When the craft gets the order.'
          : 'When the craft gets the order. A check for the stop-watch, not a cue.',
    },
    {
      term: 'True height when the craft gets the order',
      ...medianAndRange(result.orderHeight, 'm'),
      note: 'Under the planned height: reading, reaction and radio take their time while it falls.',
    },
    {
      term: 'True height when the fall is stopped',
      ...medianAndRange(result.arrestHeight, 'm'),
      note: 'What is left under the craft, in the flights that stop.',
    },
  ];
}

function criteriaTable(result: ReportedResult): Table {
  return table(
    'What the scenario demands, what was found at the planned height, and whether the upper end of the interval keeps the limit.',
    ['Criterion', '#Limit', '#Found (90 % interval)', 'Verdict'],
    result.criteria.map(({ name, limit, risk, verdict }) => [
      capitalised(name),
      percentLimit(limit),
      proportionText(risk),
      cell(VERDICT_WORDS[verdict], `verdict-${verdict.replace(' ', '-')}`),
    ]),
  );
}

function softMeans(result: ReportedResult): string {
  const limit = (name: string) => fixedInput(result.scenario, `criteria.${name}`);
  const [vertical, horizontal, tilt, canopy] = ['vertical_speed', 'horizontal_speed', 'tilt', 'canopy_speed'].map(
    limit,
  );
  const speed = (value: number) => withUnit(plainText(value), 'm/s');
  const parts = [
    vertical === null ? [] : [`sinks at ${speed(vertical)} or less`],
    horizontal === null ? [] : [`drifts at ${speed(horizontal)} or less`],
    tilt === null ? [] : [`is tilted by ${withUnit(plainText(Math.round((tilt * 180) / Math.PI)), 'degrees')} or less`],
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
