/** Section 7 tells what would help, what to measure first, how wrong a guess may be and what drives the risk. */
import type { DriverGroup, DriverRow, HelpRow, MeasureRow } from '../../sim/assess/decisions.js';
import type { AssessResult } from '../../sim/assess/result.js';
import type { Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { BROKEN_AT_COMMAS, intervalChart, namesAxis } from '../kit/interval-chart.js';
import { colour } from '../kit/palette.js';
import { type Table, table } from '../kit/table.js';
import { inputName } from '../kit/words/inputs.js';
import { countText, fixedText, metres, numberText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { tippingNote, tippingTable } from './tipping.js';

export interface HelpSection {
  readonly help: Figure | null;
  readonly measure: Table | null;
  readonly measureNote: string | null;
  readonly tipping: Table | null;
  readonly tippingNote: string | null;
  readonly drivers: readonly Table[];
  readonly tooFew: string | null;
}

/** Rows that a picture can still hold; the table has them all. */
const MOST_BARS = 12;

export async function helpSection(result: AssessResult, draw: Draw): Promise<HelpSection | null> {
  const { help, measureFirst, tipping, drivers } = result;
  const groups = drivers?.groups ?? [];
  const rows = measureFirst ?? [];
  const section = {
    help: help && help.rows.length > 0 ? await helpFigure(help.rows, help.height, draw) : null,
    measure: rows.some(({ sd }) => sd > 0) ? measureTable(rows, result) : null,
    measureNote: measureNote(rows),
    tipping: tipping && tipping.rows.length > 0 ? tippingTable(tipping, result) : null,
    tippingNote: tipping && tipping.rows.length > 0 ? tippingNote(tipping) : null,
    drivers: groups.filter((group) => group.status === 'ranked').map((group) => driversTable(group)),
    tooFew: tooFewSentence(groups),
  };
  const empty = section.help === null && rows.length === 0 && section.tipping === null && groups.length === 0;
  return empty ? null : section;
}

function heldText(row: HelpRow): string {
  return `${inputName(row.path)}, at its ${row.heldAt}`;
}

function savedText({ savedInHundred, lower, upper }: HelpRow): string {
  return `${fixedText(savedInHundred, 1)} (${fixedText(lower, 1)} to ${fixedText(upper, 1)})`;
}

async function helpFigure(rows: readonly HelpRow[], height: number, draw: Draw): Promise<Figure> {
  const [first] = rows;
  const caption =
    first.lower > 0
      ? `At ${metres(height)} most would be gained by the ${inputName(first.path)} at its ${first.heldAt}: ${savedText(first)} flights saved in 100.`
      : `At ${metres(height)} no single input, held at a better value, is shown to save flights.`;
  return figure(draw, {
    id: 'help',
    caption,
    charts: [(frame) => helpChart(rows.slice(0, MOST_BARS), frame)],
    labels: [`Flights saved in 100 by holding one input at a better value. ${caption}`],
    table: table(
      'Failed flights and a sample of soft ones, flown again with one input held: how many turn.',
      ['Input held', '#Saved in 100 (90 % interval)', '#Failed that turn soft', '#Soft that turn'],
      rows.map((row) => [
        capitalised(heldText(row)),
        savedText(row),
        `${countText(row.saved)} of ${countText(row.failedFlown)}`,
        `${countText(row.broken)} of ${countText(row.softFlown)}`,
      ]),
    ),
  });
}

function helpChart(rows: readonly HelpRow[], frame: Frame): ChartSpec {
  const scale = { zero: true, nice: true };
  return intervalChart(
    rows.map((row) => ({ name: heldText(row), estimate: row.savedInHundred, lower: row.lower, upper: row.upper })),
    {
      height: 64 + 38 * rows.length,
      dot: 70,
      names: { ...namesAxis(frame, [160, 300], [140, 220]), ...BROKEN_AT_COMMAS, grid: true },
      scale,
      axis: { title: 'Flights saved in 100', grid: true, tickCount: frame.narrow ? 3 : 6, format: '~r' },
      over: [
        {
          data: { values: [{ none: 0 }] },
          mark: { type: 'rule', stroke: colour('edge'), strokeWidth: 1 },
          encoding: { x: { field: 'none', type: 'quantitative', scale } },
        },
      ],
    },
    frame,
  );
}

/** A probability in flights in 100; one digit under a hundredth of a flight would say nothing. */
function inHundred(share: number | null): string {
  return share === null ? '\u2013' : numberText(100 * share, 2);
}

function measureTable(rows: readonly MeasureRow[], { worlds }: AssessResult): Table {
  const spread =
    worlds && worlds.status === 'spread'
      ? ` (it spreads by ${inHundred(worlds.sd)} now)`
      : ' (the worlds show no spread of their own)';
  return table(
    `How much each unmeasured input spreads the risk, in flights in 100 (standard deviation), and what would be left after measuring it exactly${spread}: measure the first one first.`,
    ['Input', '#Spread from it alone', '#Share of the spread', '#Left after measuring', 'Shown?', 'More trials'],
    rows
      .filter(({ sd }) => sd > 0)
      .map((row) => [
        capitalised(inputName(row.path)),
        inHundred(row.sd),
        row.share === null || !row.shown ? '\u2013' : withUnit(fixedText(100 * row.share, 0), '%'),
        inHundred(row.shown ? row.sdAfter : null),
        row.shown ? 'yes' : 'may be chance',
        row.moreTrials.map(({ trials, sdAfter }) => `${countText(trials)} more leave ${inHundred(sdAfter)}`).join('; '),
      ]),
  );
}

function measureNote(rows: readonly MeasureRow[]): string | null {
  if (rows.length === 0) return null;
  const without = rows.filter(({ sd }) => sd === 0).map(({ path }) => inputName(path));
  const none = without.length === 0 ? '' : ` No effect was seen of: ${without.join(', ')}.`;
  return `Shares are estimates with noise of their own and need not add up to 100 %; \u201cmay be chance\u201d is what inputs without any effect would often show too.${none}`;
}

/** Rows of each group that are worth reading. */
const MOST_DRIVERS = 8;
/** Rows shown where none is flagged. */
const NEAREST = 3;

function driversTable(group: DriverGroup): Table {
  const whose = group.cause === 'all' ? 'all failed flights' : `flights lost to ${group.cause}`;
  const rows = group.rows.filter((row) => row.flagged).slice(0, MOST_DRIVERS);
  const shown = rows.length > 0 ? rows : group.rows.slice(0, NEAREST);
  const meaning =
    rows.length > 0
      ? 'where the draws of these inputs crowd, so far from even that chance does not explain it'
      : 'no input stands out from chance; these come nearest';
  return table(
    `What drives the risk, over ${whose} (${countText(group.failures)}): ${meaning}.`,
    ['Input', 'Failures crowd at', '#Distance from even', 'Beyond chance'],
    shown.map((row) => [
      capitalised(inputName(row.path)),
      crowdsText(row),
      numberText(row.distance, 2),
      row.flagged ? 'yes' : 'no',
    ]),
  );
}

/** An event happens at high draws, by the definition of the draw. */
function crowdsText({ path, crowds }: DriverRow): string {
  if (!path.includes('#event')) return crowds;
  return { 'high values': 'where it happens', 'low values': 'where it does not' }[crowds as string] ?? crowds;
}

function tooFewSentence(groups: readonly DriverGroup[]): string | null {
  const few = groups
    .filter((group) => group.status === 'too few to rank')
    .toSorted((one, other) => other.failures - one.failures);
  if (few.length === 0) return null;
  const names = few.map(
    (group) => `${group.cause === 'all' ? 'all causes' : group.cause} (${countText(group.failures)})`,
  );
  return `Too few failures to rank what drives them: ${names.join(', ')}.`;
}
