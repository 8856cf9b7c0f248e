/** The page of what flights taught holds the risk of the next flight, and each input before and after. */
import type { LearnedInput, LearnResult, WorldsRisk } from '../../sim/learn/result.js';
import { chartBase, type Frame } from '../kit/chart-style.js';
import { type ChartSpec, type Draw, drawChart } from '../kit/draw.js';
import { figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { numericCell, type Table, table } from '../kit/table.js';
import { changesSentence } from '../kit/words/changes.js';
import { quantityWords } from '../kit/words/names.js';
import { fixedText, numberText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence.js';

export async function renderLearn(result: LearnResult, draw: Draw = drawChart): Promise<string> {
  return renderEvidence(await learnPage(result, draw));
}

/** Inputs drawn in the picture. */
const MOST_SHOWN = 10;

export async function learnPage(result: LearnResult, draw: Draw): Promise<EvidencePage> {
  const program = `fallmargin ${result.versions.program}`;
  const flown = result.flownIn === null ? '' : ` · flown in ${result.flownIn.title}`;
  return {
    kind: 'What flights say',
    title: `${result.scenario.title} after ${result.logs.length === 1 ? '1 flight' : `${result.logs.length} flights`}`,
    origin: `Scenario ${result.scenario.hash.slice(0, 12)}, seed ${result.seed}${flown} · ${program}`,
    notice: result.scenario.invented
      ? 'Invented data. The numbers of this scenario are made up for demonstration.'
      : null,
    changed: changesSentence(result.scenario.changed),
    program,
    sections: [
      riskSection(result),
      await inputsSection(result, draw),
      {
        id: 'observed',
        title: 'What the logs showed',
        paragraphs: [],
        tables: result.logs.map((log) => observedTable(log)),
      },
      ...(result.warnings.length === 0
        ? []
        : [{ id: 'warnings', title: 'Before you trust it', paragraphs: [], advice: result.warnings }]),
      {
        id: 'fragment',
        title: 'To go on with',
        paragraphs: [
          'A variant of the scenario that carries most of what was learnt. What it loses stands at its top.',
        ],
        code: result.fragment,
      },
    ],
  };
}

function percent(share: number): string {
  return withUnit(numberText(100 * share, 2), '%');
}

function riskText({ estimate, lower, upper, between }: WorldsRisk): string {
  const spread =
    between === null
      ? 'no spread between worlds that can be told from none'
      : `${percent(between)} standard deviation between worlds`;
  return `${percent(estimate)} (${percent(lower)} to ${percent(upper)} from so few worlds; ${spread})`;
}

function riskSection({
  riskBefore,
  riskAfter,
  plannedHeight,
  worlds,
  waves,
  partial,
  flightsEach,
  effectiveWorlds,
}: LearnResult): EvidenceSection {
  const further = worlds - waves[0];
  const near =
    further > 0
      ? ` and ${further} more, drawn near what the logs say and weighed by how plausible they are (importance sampling),`
      : '';
  const stopped = partial ? 'The study was stopped early: this is what was known by then. ' : '';
  return {
    id: 'answer',
    title: 'The next flight',
    paragraphs: [
      `Chance that the next flight does not land softly, with throttle-up planned at ${plannedHeight} m: ${riskText(riskAfter)}. Before the logs it was ${riskText(riskBefore)}.`,
      `${stopped}${waves[0]} plausible worlds${near} flew ${flightsEach} flights each; weighed by the logs they are worth ${fixedText(effectiveWorlds, 0)} equal ones.`,
    ],
  };
}

function shown({ unit }: LearnedInput, value: number): string {
  return withUnit(numberText(value), unit);
}

async function inputsSection({ inputs }: LearnResult, draw: Draw): Promise<EvidenceSection> {
  const [first] = inputs;
  const caption =
    first.narrowed < 0.9
      ? `Most was learnt about ${first.name}: its spread is ${fixedText(100 * first.narrowed, 0)} % of what it was.`
      : 'No input became a tenth narrower.';
  return {
    id: 'inputs',
    title: 'Inputs that nobody has measured',
    paragraphs: [
      'What is not measured, before and after. An input that hardly moves is one of which these flights tell nothing.',
    ],
    figures: [
      await figure(draw, {
        id: 'learned',
        caption,
        charts: [(frame) => learnedChart(inputs.slice(0, MOST_SHOWN), frame)],
        labels: [`90 % ranges before and after, as shares of the range before. ${caption}`],
        legend: [
          { symbol: 'swatch-band', text: 'before: from the 5 % to the 95 % point' },
          { symbol: 'line-circle', text: 'after, with its median' },
        ],
        table: null,
      }),
    ],
    tables: [inputsTable(inputs)],
  };
}

/** Ranges of unmeasured inputs before and after, each on the scale of its range before. */
function learnedChart(inputs: readonly LearnedInput[], frame: Frame): ChartSpec {
  const rows = inputs.map(({ name, before, after }) => {
    const width = before[2] - before[0] || 1;
    const [low, middle, high] = after.map((one) => (one - before[0]) / width);
    return { name, before: 0, beforeEnd: 1, low, middle, high };
  });
  const x = {
    type: 'quantitative',
    scale: {
      domain: [Math.min(-0.1, ...rows.map(({ low }) => low)), Math.max(1.1, ...rows.map(({ high }) => high))],
      nice: false,
    },
    axis: { title: 'Share of the range before (0: its 5 % point, 1: its 95 % point)', tickCount: 5 },
  } as const;
  const y = {
    field: 'name',
    type: 'nominal',
    sort: null,
    axis: { title: null, domain: false, ticks: false, labelLimit: frame.narrow ? 130 : 260 },
  } as const;
  return {
    ...chartBase(frame, 60 + 24 * rows.length),
    data: { values: rows },
    layer: [
      {
        mark: { type: 'bar', fill: colour('line'), height: 14 },
        encoding: { x: { ...x, field: 'before' }, x2: { field: 'beforeEnd' }, y },
      },
      {
        mark: { type: 'rule', stroke: colour('accent'), strokeWidth: 3 },
        encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' }, y },
      },
      {
        mark: { type: 'point', filled: true, size: 70, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'middle' }, y },
      },
    ],
  };
}

function inputsTable(inputs: readonly LearnedInput[]): Table {
  return table(
    'Each unmeasured number before and after: median, and from the 5 % to the 95 % point.',
    ['Input', '#Before', '#Range before', '#After', '#Range after', '#Spread left'],
    inputs.map((one) => [
      one.name,
      numericCell(shown(one, one.before[1])),
      numericCell(`${numberText(one.before[0])} to ${numberText(one.before[2])}`),
      numericCell(shown(one, one.after[1])),
      numericCell(`${numberText(one.after[0])} to ${numberText(one.after[2])}`),
      numericCell(withUnit(fixedText(100 * one.narrowed, 0), '%')),
    ]),
    true,
  );
}

function observedTable({ file, observed }: LearnResult['logs'][number]): Table {
  return table(
    `${file}: what it showed, and what the scenario's flights do.`,
    ['Quantity', '#Observed', '#Error', '#Expected', '#Spread of flights', '#Standard deviations off'],
    observed.map(({ name, value, error, expected, spread }) => [
      capitalised(quantityWords(name)),
      numericCell(numberText(value)),
      numericCell(numberText(error, 2)),
      numericCell(numberText(expected)),
      numericCell(numberText(spread, 2)),
      numericCell(fixedText((value - expected) / Math.hypot(spread, error), 1)),
    ]),
  );
}
