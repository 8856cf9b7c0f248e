/** Section 7: what would help, what to measure first, how wrong a guess may be. */
import type { DriverGroup, HelpRow, MeasureRow, TippingRow } from '../../sim/result/decisions.js';
import type { Draw } from '../charts/draw.js';
import { helpChart } from '../charts/help.js';
import type { ReportedResult } from '../decisions.js';
import { type CellLike, type Figure, figure, type Table, table } from '../table.js';
import { inputName, inputValueText } from '../words/inputs.js';
import { countText, fixedText, metres, numberText, percentLimit } from '../words/numbers.js';
import { capitalised } from '../words/sentences.js';

export interface HelpSection {
  readonly help: Figure | null;
  readonly measure: Table | null;
  readonly tipping: Table | null;
  readonly drivers: readonly Table[];
  readonly tooFew: string | null;
}

/** Rows that a picture can still hold; the table has them all. */
const MOST_BARS = 12;

export async function helpSection(result: ReportedResult, draw: Draw): Promise<HelpSection | null> {
  const { help, measureFirst, tipping, drivers } = result;
  const groups = drivers?.groups ?? [];
  const section = {
    help: help && help.rows.length > 0 ? await helpFigure(help.rows, help.height, draw) : null,
    measure: measureFirst && measureFirst.length > 0 ? measureTable(measureFirst) : null,
    tipping:
      tipping && tipping.rows.length > 0 ? tippingTable(tipping.rows, tipping.limit, tipping.height, result) : null,
    drivers: groups.filter((group) => group.status === 'ranked').map((group) => driversTable(group)),
    tooFew: tooFewSentence(groups),
  };
  const empty = section.help === null && section.measure === null && section.tipping === null && groups.length === 0;
  return empty ? null : section;
}

function heldText(row: HelpRow): string {
  return `${inputName(row.path)}, at its ${row.heldAt}`;
}

function signed(value: number): string {
  return fixedText(value, 1);
}

async function helpFigure(rows: readonly HelpRow[], height: number, draw: Draw): Promise<Figure> {
  const [first] = rows;
  const caption =
    first.lower > 0
      ? `At ${metres(height)} most would be gained by ${heldText(first)}: ${signed(first.savedInHundred)} flights saved in 100 (${signed(first.lower)} to ${signed(first.upper)}).`
      : `At ${metres(height)} no single input, held at a better value, is shown to save flights.`;
  return figure(draw, {
    id: 'help',
    caption,
    charts: [
      (frame) =>
        helpChart(
          rows.slice(0, MOST_BARS).map((row) => ({
            name: heldText(row),
            saved: row.savedInHundred,
            lower: row.lower,
            upper: row.upper,
          })),
          frame,
        ),
    ],
    labels: [`Flights saved in 100 by holding one input at a better value. ${caption}`],
    table: table(
      'Failed flights and a sample of soft ones, flown again with one input held: how many turn.',
      ['Input held', '#Saved in 100 (90 % interval)', '#Failed that turn soft', '#Soft that turn'],
      rows.map((row) => [
        capitalised(heldText(row)),
        `${signed(row.savedInHundred)} (${signed(row.lower)} to ${signed(row.upper)})`,
        `${countText(row.saved)} of ${countText(row.failedFlown)}`,
        `${countText(row.broken)} of ${countText(row.softFlown)}`,
      ]),
    ),
  });
}

function points(share: number | null): string {
  return share === null ? '\u2013' : numberText(100 * share, 2);
}

function measureTable(rows: readonly MeasureRow[]): Table {
  return table(
    'How much each unmeasured input spreads the risk, in flights in 100 (standard deviation), and what would be left after measuring it exactly; measure the first one first.',
    ['Input', '#Spread from it alone', '#Share of the spread', '#Left after measuring', 'Is it shown?', 'More trials'],
    rows.map((row) => [
      capitalised(inputName(row.path)),
      points(row.sd),
      row.share === null ? '\u2013' : `${fixedText(100 * row.share, 0)} %`,
      points(row.sdAfter),
      row.shown ? 'yes' : 'no, may be chance',
      row.moreTrials.map(({ trials, sdAfter }) => `${countText(trials)} more leave ${points(sdAfter)}`).join('; '),
    ]),
  );
}

function tippingTable(rows: readonly TippingRow[], limit: number, height: number, result: ReportedResult): Table {
  return table(
    `How far each guess may be off before the verdict at ${metres(height)} turns at ${percentLimit(limit)}; the closer the value, the sooner it wants measuring.`,
    ['Guess', 'Towards', 'What happens', '#Risk at the end of its range'],
    rows.map((row): CellLike[] => [
      capitalised(inputName(row.path)),
      `${row.side} values`,
      tippingText(row, result),
      `${numberText(100 * row.riskAtEnd, 2)} %`,
    ]),
  );
}

function tippingText(row: TippingRow, { scenario }: ReportedResult): string {
  if (row.status === 'not on this side') return 'already on the other side at its middle value';
  if (row.values === null) return 'holds up to the end of its plausible range';
  const [from, to] = row.values.map((value) => inputValueText(scenario, row.path, value));
  return `turns between ${from} and ${to}`;
}

/** Rows of each group that are worth reading. */
const MOST_DRIVERS = 8;

function driversTable(group: DriverGroup): Table {
  const whose = group.cause === 'all' ? 'all failed flights' : `flights lost to ${group.cause}`;
  const rows = group.rows.filter((row) => row.flagged).slice(0, MOST_DRIVERS);
  const shown = rows.length > 0 ? rows : group.rows.slice(0, 3);
  const meaning =
    rows.length > 0
      ? 'where the draws of these inputs crowd, so far from even that chance does not explain it'
      : 'no input is flagged; these are the nearest';
  return table(
    `What drives the risk, over ${whose} (${countText(group.failures)}): ${meaning}.`,
    ['Input', 'Failures crowd at', '#Distance from even', 'Flagged'],
    shown.map((row) => [
      capitalised(inputName(row.path)),
      row.crowds,
      numberText(row.distance, 2),
      row.flagged ? 'yes' : 'no',
    ]),
  );
}

function tooFewSentence(groups: readonly DriverGroup[]): string | null {
  const few = groups.filter((group) => group.status === 'too few to rank');
  if (few.length === 0) return null;
  const names = few.map(
    (group) => `${group.cause === 'all' ? 'all causes' : group.cause} (${countText(group.failures)})`,
  );
  return `Too few failures to rank what drives them: ${names.join(', ')}.`;
}
