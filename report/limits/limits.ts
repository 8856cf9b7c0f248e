/** The day card is one sheet of paper: the table, what it means, how far it may be off, who decides. */
import type { CardAxis, CardCell, LimitsResult } from '../../sim/limits/result.js';
import { inputByPath } from '../../sim/scenario/lookup.js';
import type { Scenario, ScenarioChange } from '../../sim/scenario/scenario.js';
import { boundedText, percentParts } from '../../sim/statistics/words.js';
import { changesSentence } from '../kit/words/changes.js';
import { countText, metres, numberText, percentLimit, unbroken, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { renderPage, sheetAssets } from '../page/html.js';
import { howToRead } from './how-to-read.js';

export interface CellView {
  readonly text: string;
  readonly detail: string;
  /** Crossed out, so that black and white tell it apart. */
  readonly closed: boolean;
  /** Last column under the launch code's ceiling. */
  readonly edge: boolean;
}

export interface RowView {
  readonly head: string;
  readonly cells: readonly CellView[];
  /** A line under this row: the launch code's ceiling. */
  readonly ceiling: string | null;
}

/** More of a title than this would push the table off the sheet. */
const LONGEST_TITLE = 60;
const LONGEST_CHANGE = 70;
const MOST_CHANGES = 3;
/** Rows may be tall, and columns wide, up to these numbers of them. */
const ROOMY_ROWS = 6;
const ROOMY_COLUMNS = 5;

export async function renderLimits(result: LimitsResult): Promise<string> {
  return renderPage('limits', limitsView(result), sheetAssets('limits'));
}

function limitsView(result: LimitsResult) {
  const { scenario, rows, columns, versions, flights } = result;
  const title = shortened(scenario.title, LONGEST_TITLE);
  const shortHash = scenario.hash.slice(0, 12);
  return {
    title,
    pageTitle: `${shortened(scenario.title, 30)} · day card · seed ${shortened(result.seed, 12)} · ${shortHash}`,
    invented: scenario.invented,
    partial: result.partial,
    program: `fallmargin ${versions.program}`,
    facts: [
      { term: 'Scenario', value: shortHash },
      { term: 'Seed', value: shortened(result.seed, 24) },
      { term: 'Flights a height', value: countText(flights) },
      { term: 'Program', value: `${versions.program}, Node ${versions.node}` },
    ],
    changes: changesText(scenario.changed),
    acceptable: `In each cell, with 95\u00a0% confidence: ${result.criteria
      .map(({ name, limit }) => `${name} at most ${percentLimit(limit)}`)
      .join(', ')}.`,
    caption: `Lowest throttle-up height shown to keep every limit, in metres above ground. Down: ${axisText(rows)}. Across: ${axisText(columns)}.`,
    corner: [`${words(rows)} \u2193`, `${words(columns)} \u2192`],
    measured: [words(rows), words(columns)].map(capitalised),
    heads: columns.values.map((value) => valueText(columns, value)),
    rows: rowViews(result),
    columnCount: columns.values.length + 1,
    sideCeiling: result.windCeiling?.axis === 'columns' ? ceilingText(result) : null,
    remarks: howToRead(result).map(({ lead, text }) => ({ lead, text: unbroken(text) })),
    roomy: rows.values.length <= ROOMY_ROWS,
    crowded: rows.values.length > ROOMY_ROWS || columns.values.length > ROOMY_COLUMNS,
    warnings: result.warnings
      .filter(({ code }) => code !== 'invented' && code !== 'partial')
      .map(({ text, advice }) => unbroken(`${text} ${advice}`.replace(/`/g, ''))),
  };
}

function words({ path }: CardAxis): string {
  return path.replace(/[._]/g, ' ');
}

function shortened(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 1)}\u2026` : text;
}

function changesText(changed: readonly ScenarioChange[]): string | null {
  const shown = changed.slice(0, MOST_CHANGES).map(({ path, given, inFile }) => ({
    path,
    given: shortened(given, LONGEST_CHANGE),
    inFile: shortened(inFile, LONGEST_CHANGE),
  }));
  const more = changed.length - shown.length;
  const sentence = changesSentence(shown);
  return sentence === null || more === 0 ? sentence : `${sentence.replace(/\.$/, '')}; and ${more} more.`;
}

function axisText({ path, meaning }: CardAxis): string {
  return `${path} (${meaning.replace(/\.$/, '').replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase())})`;
}

function valueText({ unit, perSi, offset }: CardAxis, value: number): string {
  return withUnit(numberText(Number((value * perSi + offset).toPrecision(10))).replace(/\.0+$/, ''), unit);
}

function rowViews(result: LimitsResult): readonly RowView[] {
  const { rows, columns, cells, windCeiling } = result;
  const last = (axis: 'rows' | 'columns') =>
    windCeiling?.axis === axis
      ? result[axis].values.findLastIndex((speed) => speed <= windCeiling.speed * (1 + 1e-9))
      : null;
  const [lastRow, lastColumn] = [last('rows'), last('columns')];
  return rows.values.map((value, row) => ({
    head: valueText(rows, value),
    cells: cells.slice(row * columns.values.length, (row + 1) * columns.values.length).map((cell, column) => ({
      ...cellView(cell, columns.values.length > ROOMY_COLUMNS),
      edge: column === lastColumn,
    })),
    ceiling: row === lastRow ? ceilingText(result) : null,
  }));
}

function ceilingText({ windCeiling, rows, columns, scenario }: LimitsResult): string | null {
  if (windCeiling === null) return null;
  const wind = windCeiling.axis === 'rows' ? rows : columns;
  const limit = scenario.inputs.find(({ path }) => path === 'site.launch_wind_limit');
  const written = limit === undefined || limit.written.endsWith(wind.unit) ? '' : ` (${limit.written})`;
  return unbroken(
    `${launchCode(scenario)}: no launch in more wind than ${valueText(wind, windCeiling.speed)}${written}`,
  );
}

/** Whose ceiling of wind it is: the site's, or what the program assumes where the scenario names none. */
function launchCode(scenario: Scenario): string {
  const assumed = inputByPath(scenario, 'site.launch_wind_limit')?.source === 'standard';
  return assumed ? 'Assumed by the program, as high-power rocketry codes have it' : 'Launch code';
}

function cellView(cell: CardCell, narrow: boolean): Omit<CellView, 'edge'> {
  switch (cell.status) {
    case 'height shown':
      return {
        text: `${metres(cell.height ?? 0)}${cell.untried > 0 ? '\u2009*' : ''}`,
        detail: cell.risk === null ? '' : riskText(cell.risk, narrow),
        closed: false,
      };
    case 'do not fly':
      return { text: 'do not fly', detail: whyNot(cell, narrow), closed: true };
    case 'no launch':
      return { text: 'no launch', detail: 'over the code', closed: true };
    case 'not reached':
      return { text: '?', detail: 'not reached', closed: true };
  }
}

function riskText(risk: NonNullable<CardCell['risk']>, narrow: boolean): string {
  const { estimate, upper } = percentParts(risk);
  if (risk.count === 0) return `${narrow ? '' : 'risk '}up to ${upper}\u00a0%`;
  return narrow ? `${estimate}\u00a0%` : `risk ${estimate}\u00a0% (to ${upper})`;
}

const SHORT_NAMES: Readonly<Record<string, string>> = {
  'ground impact': 'impact',
  'outside the recovery circle': 'outside circle',
};

/** What the height that came nearest breaks. */
function whyNot({ closest, inherited }: CardCell, narrow: boolean): string {
  if (inherited || closest === null) return narrow ? 'as easier' : 'as in the easier cell';
  return closest.criteria
    .map(({ name, risk }) => {
      const short = SHORT_NAMES[name] ?? name.replace(/^inside the keep-out circle "(.*)"/, 'inside \u201c$1\u201d');
      if (narrow) return short.replace('outside ', '');
      return `${short} ${risk.count === 0 ? boundedText(risk) : `${percentParts(risk).estimate}\u00a0%`}`;
    })
    .join(', ');
}
