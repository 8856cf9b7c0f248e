/** The result of learning for a terminal. */
import type { LearnedInput, LearnResult, WorldsRisk } from '../../../sim/learn/result.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningLines } from '../../terminal/warnings.js';

const MOST_INPUTS = 10;

export function learnSummary(result: LearnResult, paint: Paint): readonly string[] {
  const { scenario, logs, flightsEach, effectiveWorlds, inputs, riskBefore, riskAfter, plannedHeight } = result;
  const more = inputs.length - MOST_INPUTS;
  return [
    paint(
      'bold',
      `${scenario.title}: what ${logs.map(({ file }) => file).join(', ')} ${logs.length === 1 ? 'says' : 'say'}`,
    ),
    ...changedLines(scenario.changed, paint),
    ...wrapped(
      `${worldsWords(result)} of ${flightsEach} flights each; weighed, they are worth ${effectiveWorlds.toFixed(0)} equal ones.`,
    ),
    '',
    ...columns([
      [`Risk of the next flight, throttle-up planned at ${plannedHeight} m`, ''],
      ['  before', riskText(riskBefore)],
      ['  after', riskText(riskAfter)],
    ]),
    '',
    ...columns(
      [
        ['input', 'before', 'after', 'spread left'],
        ...inputs
          .slice(0, MOST_INPUTS)
          .map((one) => [
            one.name,
            rangeText(one, one.before),
            rangeText(one, one.after),
            `${(100 * one.narrowed).toFixed(0)} %`,
          ]),
      ],
      2,
      [3],
    ),
    ...(more > 0 ? [`  and ${more} that moved less`] : []),
    '',
    ...warningLines(result.warnings, paint),
  ];
}

function worldsWords({ worlds, waves, partial }: LearnResult): string {
  const further = worlds - waves[0];
  const near = further > 0 ? ` and ${further} more, drawn near what the logs say,` : '';
  return `${partial ? 'STOPPED early. ' : ''}${waves[0]} plausible worlds${near}`;
}

function riskText({ estimate, lower, upper }: WorldsRisk): string {
  const percent = (share: number) => `${Number((100 * share).toPrecision(2))} %`;
  return `${percent(estimate)} (${percent(lower)} to ${percent(upper)})`;
}

function rangeText({ unit }: LearnedInput, [low, middle, high]: readonly [number, number, number]): string {
  const text = (one: number) => String(Number(one.toPrecision(3)));
  return `${text(middle)} ${unit} (${text(low)} to ${text(high)})`.replace('  ', ' ');
}
