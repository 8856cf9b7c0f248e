/** Section 8 shows height and speed over time. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { Spread } from '../../sim/statistics/quantile.js';
import type { TimeHistory } from '../../sim/trace/result.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { numericCell, type Table, table } from '../kit/table.js';
import { commandLine, sameFlights } from '../kit/words/command.js';
import { fixedText, metres, numberText, prose, spreadTexts, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type CourseData, heightCourseChart, letterOf, speedCourseChart } from './course-chart.js';
import { outcomeName } from './hundred.js';

export interface CourseSection {
  readonly figure: Figure | null;
  readonly events: readonly Table[];
  readonly listed: Table;
  readonly traceCommand: string | null;
}

/** Lines that a reader can still tell apart. */
const MOST_LINES = 5;

/**
 * The worst flight, flights typical of the most frequent causes, and soft flights: different stories, not five times
 * the same story. The order of the list is kept.
 */
export function chosenHistories(histories: readonly TimeHistory[]): readonly TimeHistory[] {
  const soft = histories.filter((history) => history.outcome === 'soft').slice(0, 2);
  const failed = histories.filter((history) => history.outcome !== 'soft');
  const different = failed.filter((history, index) => index === 0 || !history.why.startsWith('among'));
  const shown = [...different.slice(0, MOST_LINES - soft.length), ...soft];
  return histories.filter((history) => shown.includes(history));
}

export async function courseSection(result: AssessResult, draw: Draw): Promise<CourseSection> {
  const histories = chosenHistories(result.histories);
  const data: CourseData = { envelope: result.envelope, histories, plannedHeight: result.plannedHeight };
  const first = result.listed[0];
  return {
    figure: result.envelope.length < 2 && histories.length === 0 ? null : await courseFigure(result, data, draw),
    events: histories.map((history, index) => eventTable(history, letterOf(index))),
    listed: table(
      'Flights worth a second look; each can be flown again by itself, byte for byte.',
      ['Flight', 'Why it is listed', 'Outcome', 'Cause', '#Touchdown speed, m/s'],
      result.listed.map(({ id, why, outcome, cause, touchdownSpeed }) => [
        id,
        capitalised(prose(why)),
        outcomeName(outcome),
        outcome === 'soft' ? 'none' : cause,
        numericCell(Number.isFinite(touchdownSpeed) ? numberText(touchdownSpeed) : 'not known'),
      ]),
    ),
    traceCommand:
      first === undefined ? null : commandLine('trace', result, [`--flight ${first.id}`, ...sameFlights(result)]),
  };
}

async function courseFigure(result: AssessResult, data: CourseData, draw: Draw): Promise<Figure> {
  const caption = courseFinding(result);
  const step = Math.max(1, Math.ceil(data.envelope.length / 16));
  return figure(draw, {
    id: 'course',
    caption,
    charts: [(frame) => heightCourseChart(data, frame), (frame) => speedCourseChart(data, frame)],
    labels: [`Height above ground over time. ${caption}`, 'Fall speed over time, for the same flights.'],
    legend: [
      { symbol: 'swatch-band', text: '9 of 10 of the flights still in the air; dotted: the median' },
      ...data.histories.map(({ id, why, outcome }, index) => ({
        symbol: `icon-${outcome}`,
        text: `${letterOf(index)}: ${id}, ${prose(why)}`,
      })),
    ],
    table: table(
      'Height and fall speed over time: 5 %, 50 % and 95 % of the flights still in the air.',
      ['#Time, s', '#Height, m: 5 %', '#50 %', '#95 %', '#Speed, m/s: 5 %', '#50 %', '#95 %', '#Still in the air'],
      data.envelope
        .filter((_, index) => index % step === 0)
        .map(({ time, height, speed, flying }) => [
          numberText(time),
          ...height.map((one) => fixedText(one, 0)),
          ...speed.map((one) => fixedText(one, 1)),
          withUnit(fixedText(100 * flying, 0), '%'),
        ]),
    ),
  });
}

/** The middle flight in a sentence; the spread stands with the verdict. */
function courseFinding(result: AssessResult): string {
  const middle = (spread: Spread, unit: string) => {
    const texts = spreadTexts(spread, unit);
    return texts === null ? null : withUnit(texts.median, unit);
  };
  const [time, speed] = [middle(result.orderTime, 's'), middle(result.speedAtOrder, 'm/s')];
  const stopped = middle(result.arrestHeight, 'm');
  if (time === null || speed === null) return `With ${metres(result.plannedHeight)}, no flight gets the order.`;
  const end = stopped === null ? 'none stops its fall' : `has stopped its fall at ${stopped} above ground`;
  return `With ${metres(result.plannedHeight)}, the median flight gets the order ${time} after ejection, falling at ${speed}, and ${end}.`;
}

function eventTable(history: TimeHistory, letter: string): Table {
  return table(
    `${letter}, flight ${history.id}: ${prose(history.why)}; ${outcomeName(history.outcome).toLowerCase()}.`,
    ['Event', '#Time after ejection, s', '#Height, m'],
    history.events.map(({ name, time, height }) => [
      capitalised(name),
      fixedText(time, 1),
      fixedText(height, height < 10 ? 1 : 0),
    ]),
  );
}
