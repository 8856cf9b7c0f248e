/** The plan says what to do at a height: the planned height and the aim side by side. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import type { Spread } from '../../sim/statistics/quantile.js';
import { proportionText } from '../../sim/statistics/words.js';
import { setting } from '../kit/words/inputs.js';
import { FEW, flightsText, metres, spreadTexts, unbroken, withUnit } from '../kit/words/numbers.js';
import { inHundred } from '../kit/words/sentences.js';

export interface PlanCell {
  readonly value: string;
  /** What 9 flights of 10 lie between, or null. */
  readonly range: string | null;
  /** Printed large. */
  readonly large: boolean;
}

export interface PlanTable {
  readonly caption: string;
  readonly columns: readonly { readonly word: string; readonly height: string }[];
  readonly rows: readonly { readonly head: string; readonly cells: readonly PlanCell[] }[];
  readonly note: string;
}

/** What is known of one height. */
interface Facts {
  readonly word: string;
  readonly height: number;
  readonly risk: Proportion;
  readonly orderTime: Spread;
  readonly orderHeight: Spread;
  readonly arrestHeight: Spread;
}

/**
 * The planned height and the aim, where it is another one and shown to serve. "At the latest" has no order and no seconds:
 * nobody is to plan it.
 */
function heightsToShow(result: AssessResult): readonly Facts[] {
  const { aim, plannedHeight: height, heightDecision } = result;
  const isAim = heightDecision?.aim?.height === height;
  const planned = { ...result, word: isAim ? 'Planned, and the aim' : 'Planned', height };
  if (aim === undefined || aim === null || isAim || heightDecision?.aim?.figure.verdict !== 'within') return [planned];
  return [planned, { ...aim, word: 'Aim' }];
}

const ORDERS: Readonly<Record<string, (height: string) => string>> = {
  'call-out': (height) => `Order full throttle when the height read aloud comes to ${height}.`,
  picture: (height) => `Order full throttle when the picture looks like ${height}.`,
  timer: (height) => `The timer fires when the ordinary flight would pass ${height}.`,
  automatic: (height) => `The craft throttles up by itself when its barometer reads ${height}.`,
};

export function planTable(result: AssessResult): PlanTable {
  const facts = heightsToShow(result);
  const cue = setting(result.scenario, 'plan.cue');
  const order = ORDERS[cue] ?? ((height: string) => `Full throttle at ${height}.`);
  const row = (head: string, cellOf: (one: Facts) => PlanCell) => ({ head, cells: facts.map(cellOf) });
  return {
    caption: unbroken(`What to do, and what comes of it: ${sourceText(facts)}.`),
    columns: facts.map(({ word, height }) => ({ word, height: metres(height) })),
    rows: [
      row('Order', ({ height }) => plain(order(metres(height)))),
      row('Seconds after ejection', ({ orderTime }) => medianAndRange(orderTime, 's')),
      row('True height at the order', ({ orderHeight }) => medianAndRange(orderHeight, 'm')),
      row('True height when the fall stops', ({ arrestHeight }) => medianAndRange(arrestHeight, 'm')),
      row('Out of 100 flights', ({ risk }) => plain(inHundred(risk))),
      row('Risk, with its 90\u00a0% interval', ({ risk }) => plain(proportionText(risk))),
    ],
    note:
      (cue === 'timer' ? '' : 'The seconds are a check for the stop-watch, not a cue. ') +
      'The craft gets the order at less than the height called, because reading, reaction and radio take their time while it falls. True height when the fall stops: in the flights that stop.',
  };
}

function sourceText(facts: readonly Facts[]): string {
  const [first, second] = facts.map(({ risk }) => risk.flights);
  if (second === undefined) return `from ${flightsText(first)}`;
  return first === second
    ? `each height from ${flightsText(first)} of its own`
    : `from ${flightsText(first)} and ${flightsText(second)}`;
}

function plain(text: string): PlanCell {
  return { value: unbroken(text), range: null, large: false };
}

function medianAndRange(spread: Spread, unit: string): PlanCell {
  const texts = spreadTexts(spread, unit);
  if (texts === null) return plain('in no flight');
  const range =
    spread.flights < FEW
      ? `only ${flightsText(spread.flights)}`
      : unbroken(`9 flights of 10: ${texts.low} to ${withUnit(texts.high, unit)}`);
  return { value: withUnit(texts.median, unit), range, large: true };
}
